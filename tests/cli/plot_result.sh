# dawnlow plot RESULT.json: the picture of the result's page, drawn again without a run.
. tests/support/small_nursery.sh
unset LC_ALL LC_CTYPE LANG

head -n 80 "$dir/week.csv" >"$dir/past.csv" # to 2026-03-04 06:00
{ head -n 1 "$dir/week.csv"; grep '^2026-03-0[4-7]' "$dir/week.csv"; } >"$dir/coming.csv"
sed 's/mass: 10 t/mass: 4 t/' "$dir/house.yaml" >"$dir/less.yaml"
ahead="--weather $dir/coming.csv --history $dir/past.csv --members 20"

# alike FILE FILE: the first picture of each: the same words, numbers and lines, but for what rounding
# to 0.001 moves, and for the title that a picture alone begins with.
cat >"$dir/alike.py" <<'END'
import re, sys
first, second = (re.search(r"<svg.*?</svg>", open(path).read(), re.S)[0] for path in sys.argv[1:])
def texts(picture):
    return re.findall(r"<text[^>]*>([^<]*)</text>", picture)
def lines(picture):
    found = re.findall(r'<path class="(?:line|band)[^"]*" d="([^"]*)"', picture)
    return [[tuple(map(float, point.split())) for point in re.split("[ML]", path) if point] for path in found]
shown, again = texts(first), texts(second)
assert shown and len(again) - len(shown) in (0, 1), (shown, again)
for ours, theirs in zip(shown, again[len(again) - len(shown):]):
    # Rounded twice, a number may differ by one in its last digit.
    number = re.fullmatch(r"[+-]?[0-9]+\.([0-9]+)", ours)
    step = 10.0 ** -len(number[1]) if number else 0
    assert ours == theirs or number and abs(float(ours) - float(theirs)) < 1.01 * step, (ours, theirs)
assert len(lines(first)) == len(lines(second))
for ours, theirs in zip(lines(first), lines(second)):
    down = theirs[0][1] - ours[0][1]
    assert len(ours) == len(theirs)
    assert all(abs(a - c) < 0.11 and abs(d - b - down) < 0.21 for (a, b), (c, d) in zip(ours, theirs))
END
alike() { /usr/bin/python3 "$dir/alike.py" "$@" || fail "another picture: $*"; }

# again COMMAND ...: runs it with a page and a result, and draws the result.
again() {
    command=$1
    shift
    run_ok "$command" "$@" --quiet --json --output "$dir/$command.json" --html "$dir/$command.html"
    run_ok plot "$dir/$command.json" --svg "$dir/$command.svg" --quiet
    xmllint --noout --nonet "$dir/$command.svg" || fail "$command: not well-formed"
    alike "$dir/$command.html" "$dir/$command.svg"
}
days="--from 03-02 --to 03-04"
# shellcheck disable=SC2086
{
    again nights "$dir/house.yaml" --from 03-02 --to 03-06 --explain 03-03
    again effects "$dir/house.yaml" $days
    again setpoint "$dir/house.yaml" $days --on-least 18C --on-most 22C --on-step 2K
    again worth "$dir/house.yaml" $days
    again size "$dir/house.yaml" $days --vary rock --goal "2 C at air, never"
    again compare "$dir/house.yaml" "$dir/less.yaml" --weather "$dir/week.csv" $days
    # Lines, dots and bars of what was varied.
    for vary in "--vary rock.mass=4..8t/3 --vary fan.on_at=26C|30C" "--vary glazing.1.type=film|glass" \
        "--vary rock.mass=4..8t --vary house.air_changes=0.5..2/h --samples 4"; do
        again sweep "$dir/house.yaml" $days $vary
    done
    again forecast "$dir/house.yaml" $ahead
    again tonight "$dir/house.yaml" $ahead
}

# Heat of the night explained.
run_ok plot "$dir/nights.json" --what heat --svg "$dir/heat.svg"
run_ok plot "$dir/house.yaml" --from 03-02 --to 03-06 --what heat --night 03-03 --svg "$dir/run.svg" --quiet
alike "$dir/heat.svg" "$dir/run.svg"

# The second picture of a page.
second() { # COMMAND WHAT
    run_ok plot "$dir/$1.json" --what "$2" --svg "$dir/second.svg"
    xmllint --noout --nonet "$dir/second.svg" || fail "$1 $2: not well-formed"
    sed "s/.*<svg[^>]*aria-labelledby=\"$2-title/<svg aria-labelledby=\"$2-title/" "$dir/$1.html" >"$dir/second.html"
    sed -n "/aria-labelledby=\"$2-title/,/<\/svg>/p" "$dir/second.html" >"$dir/one.html"
    alike "$dir/one.html" "$dir/second.svg"
}
second forecast chances
second worth guesses
run_bad plot "$dir/house.yaml" --what chances
err_has "are pictures of a result"

# On the screen, in the units asked for.
run_ok plot "$dir/nights.json" --units us
out_has "temperature (F)"
run_ok plot "$dir/nights.json"
cp "$dir/out" "$dir/lows"
run_ok plot "$dir/house.yaml" --from 03-02 --to 03-06 --what lows --quiet
cmp -s "$dir/out" "$dir/lows" || fail "the screen shows other lows than the run's"
run_bad plot "$dir/worth.json"
err_has "bars cannot be drawn with characters"

# Wrong files and wishes: one sentence, nothing written.
wrong() { run_bad plot "$@" --svg "$dir/none.svg"; [ ! -e "$dir/none.svg" ] || fail "something was written"; }
wrong "$dir/nights.json" --from 03-02
err_has "from needs a run"
wrong "$dir/forecast.json" --what heat
err_has "this one is of forecast"
run_ok nights "$dir/house.yaml" $days --quiet --json --output "$dir/plain.json"
wrong "$dir/plain.json" --what heat
err_has 'lacks "ledger'
head -c 900 "$dir/nights.json" >"$dir/cut.json"
wrong "$dir/cut.json"
err_has "this is no JSON"
grep -q "cut.json:[0-9]*:[0-9]*: error" "$dir/err" || fail "not said where it breaks off"
grep -v '"report"' "$dir/nights.json" >"$dir/other.json"
wrong "$dir/other.json"
err_has 'lacks "report"'
sed 's/"dusk": "[^"]*"/"dusk": "soon"/' "$dir/nights.json" >"$dir/soon.json"
wrong "$dir/soon.json"
err_has 'lacks "dusk"'
sed 's/"nights": \[/"evenings": [/' "$dir/forecast.json" >"$dir/none.json"
wrong "$dir/none.json"
err_has 'lacks "nights"'
run_ok fan "$dir/house.yaml" --json
cp "$dir/out" "$dir/fan.json"
wrong "$dir/fan.json"
err_has "a result of fan has no picture"
cp "$dir/nights.json" "$dir/kept"
run_bad plot "$dir/nights.json" --svg "$dir/nights.json"
err_has "svg would write over"
cmp -s "$dir/nights.json" "$dir/kept" || fail "the result is lost"
exit 0
