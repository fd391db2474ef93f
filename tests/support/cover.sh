#!/bin/sh
# How much of each room the tests run through (`make cover`): a table by room on the screen, a page a
# file in $BUILD/cover/html.
set -u
BUILD=${BUILD:-build}
MAKE=${MAKE:-make}
unset MAKEFLAGS MFLAGS MAKELEVEL
cover=$BUILD/cover
for tool in gcovr jq; do
    command -v $tool >/dev/null || { echo "$tool is not installed (make test installs it)"; exit 1; }
done
# Counts of an earlier run would be added to.
find "$cover" -name '*.gcda' -delete 2>/dev/null
CC=gcc CFLAGS='-O0 -g --coverage' $MAKE -s -k -j "${JOBS:-2}" BUILD="$cover" programs || exit 1

DAWNLOW=$PWD/$cover/dawnlow
case $cover in /*) DAWNLOW=$cover/dawnlow ;; esac
TMPDIR=$(mktemp -d) || exit 1
export DAWNLOW TMPDIR
trap 'rm -rf "$TMPDIR"' EXIT
failed=0
for program in $($MAKE -s BUILD="$cover" list-tests | sed "s|^|$cover/|; s|\.c$||"); do
    "$program" >/dev/null 2>&1 || failed=$((failed + 1))
done
# Names of cases have no blanks.
# shellcheck disable=SC2044
for case_file in $(find tests/cli -name '*.sh' 2>/dev/null); do
    tests/support/run_case.sh "$case_file" >/dev/null 2>&1 || failed=$((failed + 1))
done
[ "$failed" -gt 0 ] && echo "($failed tests failed; make test says which)"

mkdir -p "$cover/html"
# Gcovr needs no C sources of the tests: src/ is what is asked about.
gcovr --root . --filter 'src/' --object-directory "$cover" --print-summary \
    --json-summary "$cover/rooms.json" --html-details "$cover/html/index.html" "$cover" >"$cover/gcovr.log" 2>&1 ||
    { tail -n 5 "$cover/gcovr.log"; exit 1; }
jq -r '
    def share(covered; total): if total == 0 then "-" else (covered * 1000 / total | round / 10 | tostring) + " %" end;
    def row(name; list): [name, share(list | map(.line_covered) | add; list | map(.line_total) | add),
                          share(list | map(.branch_covered) | add; list | map(.branch_total) | add)] | @tsv;
    (["room", "lines", "branches"] | @tsv),
    ((.files | group_by(.filename | split("/")[1]))[] | row(.[0].filename | split("/")[1]; .)),
    row("all"; .files),
    "",
    (.files | sort_by(.line_percent) | .[:8][] |
        ["least covered: " + .filename, "\(.line_percent) %", "\(.branch_percent) %"] | @tsv)
' "$cover/rooms.json" | tee "$cover/rooms.txt" | awk -F '\t' '{ printf "%-44s %9s %9s\n", $1, $2, $3 }'
