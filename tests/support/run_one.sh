#!/bin/sh
# Runs one job of tests/run.sh and writes what came of it, a line a check, to $RESULTS.
# Usage: run_one.sh SECTION KIND WHAT
#   tap       a cmocka program; each of its test cases counts
#   case      a shell case (see run_case.sh)
#   python    a Python check; it counts as one, or as many as its "ok"/"not ok" lines say
#   replay    a fuzzer's kept inputs
#   memcheck  a program under valgrind, or "demo"
#   cmd       any command
set -u
section=$1 kind=$2 what=$3
name=${what#"$BUILD"/}
label="$section: ${name#san/}"
slug=$RESULTS/$section/$(echo "$name" | tr '/' '_')
log=$slug.log
result=$slug.result
TMPDIR=$(mktemp -d) || exit 1
export TMPDIR
trap 'rm -rf "$TMPDIR"' EXIT

if [ -n "${DAWNLOW_SANITIZED:-}" ]; then
    # Findings go to files of their own, so that a case which looks for a failure, or throws the
    # error stream away, cannot hide one.
    export ASAN_OPTIONS="exitcode=99:detect_stack_use_after_return=1:log_path=$TMPDIR/sanitizer"
    export UBSAN_OPTIONS="print_stacktrace=1:exitcode=99:log_path=$TMPDIR/sanitizer"
fi

run() {
    memcheck='valgrind -q --error-exitcode=99 --leak-check=full
        --errors-for-leak-kinds=definite,indirect --show-leak-kinds=definite,indirect'
    case $kind in
    tap) CMOCKA_MESSAGE_OUTPUT=TAP timeout -k 5 240 "$what" ;;
    case) timeout -k 5 120 tests/support/run_case.sh "$what" ;;
    python) timeout -k 5 300 /usr/bin/python3 "$what" ;;
    replay) timeout -k 5 120 "$BUILD/san/tests/fuzz/replay_$what" "tests/fuzz/corpus/$what" ;;
    memcheck)
        # Word splitting of the options and of the demo's arguments is wanted.
        # shellcheck disable=SC2086
        if [ "$what" = demo ]; then
            timeout -k 5 300 $memcheck "$BUILD/dawnlow" $DEMO
        else
            timeout -k 5 300 $memcheck "$what"
        fi
        ;;
    cmd) timeout -k 5 600 "$what" ;;
    esac
}
# One plain line instead of what a shell says about it.
program=
case $kind in
tap) program=$what ;;
case | python) program=${DAWNLOW:-} ;;
memcheck) program=$([ "$what" = demo ] && echo "$BUILD/dawnlow" || echo "$what") ;;
replay) program=$BUILD/san/tests/fuzz/replay_$what ;;
esac
if [ -n "$program" ] && ! [ -x "$program" ]; then
    echo "$program is not built" >"$log"
    echo "FAIL $label: not built # $log" >"$result"
    exit 0
fi

run >"$log" 2>"$slug.err" </dev/null
status=$?

# Sums up TAP: every planned case is there and ok, or it failed; and a program that failed without
# a failed case (a leak found at its end, a crash) failed all the same.
from_tap() {
    awk -v name="$label" -v log_file="$log" -v status="$status" -v must_plan="$1" '
        function fail(why) { print "FAIL " name ": " why " # " log_file; failures++ }
        /^1\.\.[0-9]+/ { planned += substr($0, 4) + 0; plans++ }
        /^ok / && / # SKIP/ { seen++; fail("skipped: " $0); next }
        /^not ok / { seen++; sub(/^not ok [0-9]* *-? */, ""); fail($0 == "" ? "not ok" : $0); next }
        /^ok / { seen++; print "ok " name }
        END {
            if (must_plan && !plans) fail("ran no test case")
            if (planned > seen) fail(planned - seen " case(s) never ended (status " status ")")
            else if (status != 0 && !failures) fail("ended with status " status)
            if (!seen && !failures) fail("ran no test case")
        }' "$log"
}
{
    case $kind in
    tap) from_tap 1 ;;
    python) if grep -Eq '^(not )?ok ' "$log"; then from_tap 0; else kind=plain; fi ;;
    *) kind=plain ;;
    esac
    if [ "$kind" = plain ]; then
        case $status in
        0) echo "ok $label" ;;
        124 | 137) echo "FAIL $label: took too long # $log" ;;
        *) echo "FAIL $label: status $status # $log" ;;
        esac
    fi
    if cat "$TMPDIR"/sanitizer* >>"$slug.err" 2>/dev/null; then
        echo "FAIL $label: a sanitizer found something # $log"
    fi
} >"$result"
{
    echo "---- error stream ----"
    head -n 60 "$slug.err"
} >>"$log"
rm -f "$slug.err"
grep '^FAIL ' "$result" | cut -c 1-160
exit 0
