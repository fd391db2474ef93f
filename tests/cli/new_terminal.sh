# new on a terminal: prompts, a wrong answer is asked again, ? explains, < goes back, Ctrl-D and
# Ctrl-C leave nothing behind. A pseudo-terminal plays the grower's.
. tests/support/small_nursery.sh
cd "$dir" || exit 1
DAWNLOW=$DAWNLOW /usr/bin/python3 - <<'END' || fail "the dialogue went wrong"
import os, pty, select, signal, sys, time

program = os.environ["DAWNLOW"]


class Dialogue:
    def __init__(self, *arguments):
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.environ["LC_ALL"] = "C.UTF-8"
            signal.signal(signal.SIGINT, signal.SIG_DFL)  # ignored where a shell runs us behind
            signal.alarm(60)
            os.execv(program, [program, "new", *arguments])
        self.seen = ""

    def wait_for(self, text):
        end = time.time() + 20
        while text not in self.seen:
            if not select.select([self.fd], [], [], max(0, end - time.time()))[0]:
                sys.exit(f"no '{text}' in:\n{self.seen}")
            try:
                self.seen += os.read(self.fd, 4096).decode("utf-8", "replace")
            except OSError:
                sys.exit(f"ended before '{text}':\n{self.seen}")
        self.seen = self.seen[self.seen.index(text) + len(text):]

    def say(self, text):
        os.write(self.fd, text.encode())

    def rest(self):
        try:
            while True:
                self.seen += os.read(self.fd, 4096).decode("utf-8", "replace")
        except OSError:
            pass
        _, state = os.waitpid(self.pid, 0)
        return state


talk = Dialogue("mine.yaml")
talk.wait_for("Where is it?")
talk.wait_for("[45.2 N 6.9 E 480 m] ")
talk.say("\n")
talk.wait_for("[+0 h] ")
talk.say("+1\n")
talk.wait_for("[gable] ")
talk.say("dome\n")
talk.wait_for("'dome' is none of: gable, lean-to, tunnel")
talk.wait_for("[gable] ")
talk.say("\n")
talk.wait_for("How long and how wide")
talk.wait_for("[10 m x 6 m] ")
talk.say("?\n")
talk.wait_for("20 ft 6 in x 12 ft")
talk.wait_for("[10 m x 6 m] ")
talk.say("10 x 6\n")
talk.wait_for("write the unit behind '10'")
talk.wait_for("[10 m x 6 m] ")
talk.say("33 x 20 ft\n")
talk.wait_for("[6 ft x 12 ft] ")
talk.say("<\n")
talk.wait_for("How long and how wide")
talk.say("40 x 20 ft\n")
talk.wait_for("[6 ft x 12 ft] ")
for _ in range(7):
    talk.say("\n")
talk.wait_for("How much rock")
talk.wait_for("] ")
talk.say("20 tons\n")
talk.wait_for("Which ton is it")
talk.wait_for("[short] ")
talk.say("\n")
talk.wait_for("How large are the stones?")
for _ in range(8):
    talk.say("\n")
talk.wait_for("\u2571")  # box-drawing, since the terminal's locale can show it
talk.wait_for("dawnlow check mine.yaml")
state = talk.rest()
if state != 0:
    sys.exit(f"exit status {state}:\n{talk.seen}")
text = open("mine.yaml").read()
for line in ("  length: 40 ft", "  utc_offset: 1 h ", "  mass: 20 short ton"):
    if "\n" + line not in text:
        sys.exit(f"no '{line}' in the file")

talk = Dialogue("ended.yaml")
talk.wait_for("] ")
talk.say("\x04")
if os.waitstatus_to_exitcode(talk.rest()) != 2 or "nothing was written" not in talk.seen:
    sys.exit("Ctrl-D is taken for answers:\n" + talk.seen)
talk = Dialogue("ended.yaml")
talk.wait_for("] ")
talk.say("\x03")
if os.waitstatus_to_exitcode(talk.rest()) != -signal.SIGINT:
    sys.exit("Ctrl-C does not stop it")
if any(name.startswith("ended.yaml") for name in os.listdir(".")):
    sys.exit("something was left behind")
END
run_ok check mine.yaml
