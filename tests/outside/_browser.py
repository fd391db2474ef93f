"""A browser without a window, driven over its DevTools pipe: the standard library is enough.

The browser is Debian's chromium. It gets no network: every address but a file's is refused.
"""
import base64
import json
import os
import shutil
import subprocess
import tempfile


class Browser:
    def __init__(self, program):
        self.folder = tempfile.mkdtemp(dir=os.environ.get("TMPDIR"))
        to_read, to_write = os.pipe()
        from_read, from_write = os.pipe()

        # The browser reads commands from descriptor 3 and writes answers to 4.
        def wire():
            os.dup2(to_read, 103)
            os.dup2(from_write, 104)
            os.dup2(103, 3)
            os.dup2(104, 4)

        self.process = subprocess.Popen(
            [program, "--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
             "--no-first-run", "--disable-extensions", "--disable-component-update",
             "--disable-background-networking", "--host-resolver-rules=MAP * ~NOTFOUND",
             "--user-data-dir=" + self.folder, "--remote-debugging-pipe", "about:blank"],
            preexec_fn=wire, close_fds=False, stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(to_read)
        os.close(from_write)
        self.output = os.fdopen(to_write, "wb")
        self.input = os.fdopen(from_read, "rb")
        self.rest = b""
        self.count = 0
        self.session = None
        self.events = []
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.ask("Target.attachToTarget", targetId=target,
                                flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.ask(domain + ".enable")

    def read(self):
        while b"\0" not in self.rest:
            piece = os.read(self.input.fileno(), 1 << 20)
            if not piece:
                raise RuntimeError("the browser has gone")
            self.rest += piece
        message, self.rest = self.rest.split(b"\0", 1)
        return json.loads(message)

    def ask(self, method, **params):
        self.count += 1
        message = {"id": self.count, "method": method, "params": params}
        if self.session:
            message["sessionId"] = self.session
        self.output.write(json.dumps(message).encode() + b"\0")
        self.output.flush()
        while True:
            answer = self.read()
            if answer.get("id") == self.count:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']}")
                return answer["result"]
            self.events.append(answer)

    def open(self, path, width, dark=False, scripts=True):
        """Shows a file in a window of so many CSS pixels, as a phone does below 600."""
        self.events = []
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=800,
                 deviceScaleFactor=1, mobile=width < 600)
        self.ask("Emulation.setEmulatedMedia",
                 features=[{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}])
        self.ask("Emulation.setScriptExecutionDisabled", value=not scripts)
        self.ask("Page.navigate", url="file://" + os.path.abspath(path))
        while not any(e.get("method") == "Page.loadEventFired" for e in self.events):
            self.events.append(self.read())

    def complaints(self):
        """What the console, the log and the network said since the page was opened."""
        found = []
        for event in self.events:
            method, params = event.get("method"), event.get("params", {})
            if method in ("Runtime.exceptionThrown", "Log.entryAdded", "Runtime.consoleAPICalled"):
                found.append(json.dumps(params)[:300])
            if method == "Network.requestWillBeSent":
                url = params["request"]["url"]
                if not url.startswith("file://"):
                    found.append("asks for " + url)
        return found

    def value(self, expression):
        return self.ask("Runtime.evaluate", expression=expression,
                        returnByValue=True)["result"].get("value")

    def screenshot(self, path, whole=True):
        shot = self.ask("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        with open(path, "wb") as out:
            out.write(base64.b64decode(shot["data"]))

    def pdf(self, path, width_in, height_in):
        made = self.ask("Page.printToPDF", paperWidth=width_in, paperHeight=height_in,
                        preferCSSPageSize=False, printBackground=False)
        with open(path, "wb") as out:
            out.write(base64.b64decode(made["data"]))

    def close(self):
        try:
            self.session = None
            self.ask("Browser.close")
        except (RuntimeError, OSError):
            pass
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        shutil.rmtree(self.folder, ignore_errors=True)
