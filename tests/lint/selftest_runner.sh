#!/bin/sh
# The runner counts honestly: each way a test can fail is seen as a failure, nothing more is.
set -u
home=$PWD
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
mkdir -p "$work/tests" "$work/results/part"
cp -R "$home/tests/support" "$work/tests/"
cd "$work" || exit 2
BUILD=$work/build RESULTS=$work/results DEMO=
export BUILD RESULTS DEMO
unset DAWNLOW_SANITIZED

# expect KIND PASSED FAILED WORDS: what the script on standard input, run as KIND, must come to.
expect() {
    cat >"$work/job.sh"
    chmod +x "$work/job.sh"
    rm -f "$work"/results/part/*
    tests/support/run_one.sh part "$1" "$work/job.sh" >/dev/null
    passed=$(cat "$work"/results/part/*.result | grep -c '^ok ')
    failed=$(cat "$work"/results/part/*.result | grep -c '^FAIL ')
    if [ "$passed $failed" = "$2 $3" ] && grep -q "$4" "$work"/results/part/*.result; then return; fi
    echo "$1, \"$4\": expected $2 passed and $3 failed, got:"
    cat "$work"/results/part/*.result
    touch "$work/bad" # expect ends a pipe, so a variable would be lost
}
tap() { printf '#!/bin/sh\n%s\n' "$1"; }

tap 'printf "1..2\nok 1 - a\nok 2 - b\n"' | expect tap 2 0 job.sh
tap 'printf "1..1\nok 1 - a\n1..2\nok 1 - b\nok 2 - c\n"' | expect tap 3 0 job.sh
tap 'printf "1..2\nok 1 - a\nnot ok 2 - b\n"; exit 1' | expect tap 1 1 'job.sh: b'
tap 'printf "1..3\nok 1 - a\n"; kill -SEGV $$' | expect tap 1 1 '2 case(s) never ended'
tap 'printf "1..1\nok 1 - a\n"; exit 23' | expect tap 1 1 'ended with status 23'
tap 'printf "1..1\nok 1 # SKIP a\n"' | expect tap 0 1 'skipped'
tap 'printf "1..0\n"' | expect tap 0 1 'ran no test case'
tap 'exit 0' | expect tap 0 1 'ran no test case'
DAWNLOW=$work/none
export DAWNLOW
tap 'exit 0' | expect case 0 1 'not built'
unset DAWNLOW
tap 'exit 0' | expect case 1 0 job.sh
tap 'exit 1' | expect case 0 1 'status 1'
tap 'exit 0' | expect cmd 1 0 job.sh
tap 'exit 3' | expect cmd 0 1 'status 3'
echo 'pass' | expect python 1 0 job.sh
echo 'assert 1 == 2' | expect python 0 1 'status 1'
printf 'print("ok - a")\nprint("not ok - b")\nraise SystemExit(1)\n' | expect python 1 1 'job.sh: b'
printf 'print("ok - a")\nraise SystemExit(1)\n' | expect python 1 1 'ended with status 1'
DAWNLOW_SANITIZED=1
export DAWNLOW_SANITIZED
# shellcheck disable=SC2016 # the script that is written expands it
tap 'echo leak > "$TMPDIR/sanitizer.1"' | expect case 1 1 'sanitizer found'

# Files beside a case: status and streams must be those.
unset DAWNLOW_SANITIZED
echo 2 >"$work/job.exit"
tap 'exit 2' | expect case 1 0 job.sh
tap 'exit 0' | expect case 0 1 'status 1'
echo hello >"$work/job.out"
tap 'echo hello; exit 2' | expect case 1 0 job.sh
tap 'echo hallo; exit 2' | expect case 0 1 'status 1'
rm -f "$work/job.exit" "$work/job.out"

# The count of outside checks: those that are listed, ran and agreed.
mkdir -p "$work/tests/outside" "$work/results/unit" "$work/results/outside"
cat >"$work/tests/outside/checks.txt" <<'END'
# a remark
unit/physics/test_sum.c
  closed form: test_adds
    test_takes
  standard: test_word
  own: test_more

outside/sum.py
  oracle: every line it prints
END
printf 'ok 1 - test_adds\nok 2 - test_takes\nnot ok 3 - test_word\nok 4 - test_more\n' \
    >"$work/results/unit/tests_unit_physics_test_sum.log"
printf 'ok - one\nok - two\n' >"$work/results/outside/tests_outside_sum.py.log"
said=$(tests/support/outside.sh "$work/results")
want="outside checks: 4 ran and agreed (2 closed form, 0 standard, 2 oracle); 1 did not"
[ "$said" = "$want" ] || { echo "\"$said\", not \"$want\""; touch "$work/bad"; }

[ -e "$work/bad" ] && exit 1
echo "the runner counts right"
