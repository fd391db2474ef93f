#!/bin/sh
# Runs checks - all of them, also after a failure - and ends with the count.
# Usage: tests/run.sh all|lint|san | one FILE     (make test, make lint, make san, make one T=FILE)
#
# What is run is found by name, see tests/README.md; what each check said is kept in
# $BUILD/results. The last line is "N passed, M failed"; the exit status is 0 only when something
# ran and nothing failed.
set -u
cd "$(dirname "$0")/.." || exit 2
BUILD=${BUILD:-build}
MAKE=${MAKE:-make}
JOBS=${JOBS:-$(nproc 2>/dev/null || echo 2)}
RESULTS=$BUILD/results
export BUILD MAKE JOBS RESULTS

# The outcome must not hang on where and when the checks run: a zone nobody lives by, no locale, and
# the make that calls us keeps its options to itself (its variables come by the environment).
unset MAKEFLAGS MFLAGS MAKELEVEL
export TZ='XST-05:45' LC_ALL=C.UTF-8 PYTHONDONTWRITEBYTECODE=1

# WARN, LANGUAGE, INCLUDES, SANITIZE, DEMO as the Makefile has them.
eval "$($MAKE -s list-flags)"

absolute() { case $1 in /*) echo "$1" ;; *) echo "$PWD/$1" ;; esac; }
now() { date +%s; }

# build NAME FOLDER TARGET [CFLAGS]: one check, "it builds without a warning".
build() {
    mkdir -p "$RESULTS/build"
    if [ $# -gt 3 ]; then
        CFLAGS=$4 $MAKE -k -j "$JOBS" BUILD="$2" "$3" >"$RESULTS/build/$1.log" 2>&1
    else
        $MAKE -k -j "$JOBS" BUILD="$2" "$3" >"$RESULTS/build/$1.log" 2>&1
    fi && echo "ok build/$1" >"$RESULTS/build/$1.result" && return
    echo "FAIL build/$1: does not build # $RESULTS/build/$1.log" | tee "$RESULTS/build/$1.result"
}

# section NAME: runs the jobs on standard input, one "KIND WHAT" a line, and says how it went.
section() {
    started=$(now)
    rm -rf "${RESULTS:?}/$1"
    mkdir -p "$RESULTS/$1"
    sed "s|^|$1 |" >"$RESULTS/$1.jobs"
    if [ -s "$RESULTS/$1.jobs" ]; then
        xargs -P "$JOBS" -L 1 tests/support/run_one.sh <"$RESULTS/$1.jobs"
    else
        echo "FAIL $1: nothing to run # $RESULTS/$1.jobs" | tee "$RESULTS/$1/none.result"
    fi
    echo "$1: $(count ok "$1") passed, $(count FAIL "$1") failed ($(($(now) - started)) s)"
}
results() { find "$RESULTS/${1:-}" -name '*.result' -exec cat {} +; }
count() { results "${2:-}" | grep -c "^$1 "; }

c_tests() { $MAKE -s BUILD="$BUILD" list-tests | sed '/^$/d; s/\.c$//'; }
found() { find "$@" 2>/dev/null | sort; }
cli_cases() { found tests/cli -name '*.sh'; }

lint() {
    found tests/lint -name 'check_*.sh' -o -name 'selftest*.sh' | sed 's/^/cmd /' | section lint
}
unit() { c_tests | sed "s|^|tap $BUILD/|" | section unit; }
cli() {
    DAWNLOW=$(absolute "$BUILD/dawnlow")
    export DAWNLOW
    cli_cases | sed 's/^/case /' | section cli
}
san() {
    build san "$BUILD/san" programs "-O1 -g $SANITIZE"
    DAWNLOW=$(absolute "$BUILD/san/dawnlow")
    DAWNLOW_SANITIZED=1
    export DAWNLOW DAWNLOW_SANITIZED
    {
        # The laws of whole seasons take minutes here and go through code that others go through.
        c_tests | grep -vE 'law/test_law_(chances|gallery|measured|monotone|storage)$' |
            sed "s|^|tap $BUILD/san/|"
        # So do the cases that run studies of hundreds of nurseries.
        cli_cases | grep -vE '/(readme|tutorial|manual_examples|pages|(forecast|setpoint|size|tonight|worth)_command)\.sh$' |
            sed 's/^/case /'
    } | section san
    unset DAWNLOW_SANITIZED
}
# Checks against programs and data from elsewhere, and the project's own tools as a user runs them.
outside() {
    DAWNLOW=$(absolute "$BUILD/dawnlow")
    export DAWNLOW
    found tests/outside -name '*.py' ! -name '_*' | sed 's/^/python /' | section outside
}
# Every kept input of the fuzzers, once, in a sanitized build.
corpus() {
    build replay "$BUILD/san" replays "-O1 -g $SANITIZE"
    DAWNLOW_SANITIZED=1
    export DAWNLOW_SANITIZED
    $MAKE -s BUILD="$BUILD" list-fuzz | sed "/^$/d; s|^|replay |" | section corpus
    unset DAWNLOW_SANITIZED
}
# Values used before they are set: what the sanitizers cannot see.
memcheck() {
    {
        # Studies of a hundred seasons would take minutes each.
        c_tests | grep -vE 'studies/test_(effects|setpoint|size|worth)$' |
            sed -n "s|^tests/unit/|memcheck $BUILD/&|p"
        echo "memcheck demo"
    } | section memcheck
}

summary() {
    passed=$(count ok)
    failed=$(count FAIL)
    if [ "$failed" -gt 0 ]; then
        echo
        echo "Failed:"
        results | grep '^FAIL ' | sort | while IFS= read -r line; do
            echo "  ${line#FAIL }"
            log=${line##*# }
            [ -f "$log" ] && tail -n 12 "$log" | sed 's/^/      | /'
        done
    fi
    echo
    cat "$RESULTS"/cli/*.log "$RESULTS"/outside/*.log 2>/dev/null | sed -n 's/^# page /page /p'
    [ -d "$RESULTS/unit" ] && tests/support/outside.sh "$RESULTS"
    echo "$passed passed, $failed failed"
    [ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
}

one() {
    DAWNLOW=$(absolute "$BUILD/dawnlow")
    export DAWNLOW
    case $1 in
    *.c) $MAKE BUILD="$BUILD" "$BUILD/${1%.c}" && exec "$BUILD/${1%.c}" ;;
    *.sh) $MAKE BUILD="$BUILD" "$BUILD/dawnlow" && exec tests/support/run_case.sh "$1" ;;
    *.py) $MAKE BUILD="$BUILD" "$BUILD/dawnlow" && exec /usr/bin/python3 "$1" ;;
    *) echo "a test is a .c, .sh or .py file below tests/; found \"$1\"" >&2 ;;
    esac
    exit 2
}

fresh() {
    rm -rf "${RESULTS:?}"
    mkdir -p "$RESULTS"
}
case ${1:-} in
all)
    fresh
    build program "$BUILD" programs
    for part in lint unit san cli outside corpus memcheck; do $part; done
    ;;
lint)
    fresh
    build program "$BUILD" all
    lint
    ;;
san)
    fresh
    san
    ;;
one) one "${2:-}" ;;
*)
    echo "usage: $0 all|lint|san|one FILE" >&2
    exit 2
    ;;
esac
summary
