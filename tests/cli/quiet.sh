# --quiet: the result and errors, nothing else. And no escape codes, even before a terminal.
. tests/support/small_nursery.sh

# Metric CSV asked for in US units is worth a note, and only that.
run_ok nights "$dir/house.yaml" --csv --units us
err_has "note: "
cp "$dir/out" "$dir/told"
run_ok nights "$dir/house.yaml" --csv --units us --quiet
[ ! -s "$dir/err" ] || fail "quiet, and yet something is said"
cmp -s "$dir/out" "$dir/told" || fail "--quiet changes the result"
run_bad nights "$dir/house.yaml" --quiet --from 2031-01-01
err_has "error: --from 2031-01-01"
run_bad nights "$dir/house.yaml" --quite
err_has "did you mean --quiet?"

# script(1) of util-linux lends a terminal; standard error is one then.
# More runs than take a second: progress shows, and goes away; --quiet: it never came.
command -v script >/dev/null || fail "script(1) of util-linux is missing"
ask="'$DAWNLOW' effects scenarios/alder-hollow.yaml --from 03-01 --to 03-12"
TERM=xterm script -qec "$ask >/dev/null" /dev/null </dev/null >"$dir/screen"
grep -qE 'run [0-9]+ of [0-9]+, [0-9]+ (s|min) left' "$dir/screen" || fail "no progress on a terminal"
grep -q "$(printf '\033')" "$dir/screen" && fail "escape codes on the terminal"
TERM=xterm script -qec "$ask --quiet >/dev/null" /dev/null </dev/null >"$dir/screen"
[ ! -s "$dir/screen" ] || fail "progress in spite of --quiet"
TERM=xterm script -qec "'$DAWNLOW' nights scenarios/no-such.yaml" /dev/null </dev/null >"$dir/screen"
grep -q "$(printf '\033')" "$dir/screen" && fail "escape codes on the terminal"
# No colours with or without NO_COLOR, so nothing leans on them.
TERM=xterm-256color script -qec "'$DAWNLOW' nights '$dir/house.yaml' --plot" /dev/null </dev/null >"$dir/screen"
NO_COLOR=1 TERM=xterm-256color script -qec "'$DAWNLOW' nights '$dir/house.yaml' --plot" /dev/null </dev/null |
    cmp -s - "$dir/screen" || fail "NO_COLOR changes the screen"
grep -q "$(printf '\033')" "$dir/screen" && fail "colours on the terminal"
exit 0
