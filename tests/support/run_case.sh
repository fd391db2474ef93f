#!/bin/sh
# Runs one shell case from the top of the tree. The case finds the program in $DAWNLOW and an empty
# folder of its own in $TMPDIR. It passes when it exits 0; with NAME.exit beside it, when it exits
# as that says; with NAME.out or NAME.err, when its streams are those, byte for byte. What it measured,
# lines that begin with "# ", is shown in any case.
set -u
case_file=$1
base=${case_file%.sh}
made=
if [ -z "${TMPDIR:-}" ] || [ ! -d "$TMPDIR" ] || [ "${TMPDIR%/}" = /tmp ]; then
    TMPDIR=$(mktemp -d) || exit 1
    export TMPDIR
    made=$TMPDIR
fi
kept=$(mktemp -d) || exit 1
trap 'rm -rf "$kept" ${made:+"$made"}' EXIT

if [ -x "$case_file" ]; then
    "$case_file" >"$kept/out" 2>"$kept/err"
else
    sh "$case_file" >"$kept/out" 2>"$kept/err"
fi
status=$?
expected=0
[ -f "$base.exit" ] && expected=$(cat "$base.exit")
bad=0
if [ "$status" -ne "$expected" ]; then
    echo "exit status $status, expected $expected"
    bad=1
fi
for stream in out err; do
    [ -f "$base.$stream" ] || continue
    diff -u "$base.$stream" "$kept/$stream" || bad=1
done
grep '^# ' "$kept/out"
if [ "$bad" -ne 0 ]; then
    sed 's/^/out: /' "$kept/out" | tail -n 40
    sed 's/^/err: /' "$kept/err" | tail -n 40
fi
exit $bad
