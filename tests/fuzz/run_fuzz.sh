#!/bin/sh
# Runs every fuzzer for FUZZ_SECONDS, starting from the kept inputs (`make fuzz`).
#
# New inputs gather in $BUILD/fuzz/corpus/NAME. What crashed lies in $BUILD/fuzz/NAME-crash-...; copy
# it to tests/fuzz/corpus/NAME under a telling name once mended, so that `make test` keeps watch.
set -u
BUILD=${BUILD:-build}
MAKE=${MAKE:-make}
unset MAKEFLAGS MFLAGS MAKELEVEL
fuzz=$BUILD/fuzz
CC=clang CFLAGS='-O1 -g -fsanitize=address,undefined,fuzzer-no-link -fno-sanitize-recover=all' \
    $MAKE -s -j "${JOBS:-2}" BUILD="$fuzz" fuzzers || exit 1

failed=
names=$($MAKE -s BUILD="$BUILD" list-fuzz)
[ -n "$names" ] || { echo "no fuzzers in tests/fuzz"; exit 1; }
for name in $names; do
    mkdir -p "$fuzz/corpus/$name"
    words=tests/fuzz/$name.dict
    echo "fuzz_$name: ${FUZZ_SECONDS:-20} s"
    "$fuzz/tests/fuzz/fuzz_$name" -max_total_time="${FUZZ_SECONDS:-20}" -timeout=10 -print_final_stats=1 \
        -verbosity=1 ${words:+$([ -f "$words" ] && echo "-dict=$words")} \
        -artifact_prefix="$fuzz/$name-" "$fuzz/corpus/$name" "tests/fuzz/corpus/$name" \
        >"$fuzz/$name.log" 2>&1 || { failed="$failed $name"; tail -n 4 "$fuzz/$name.log" | sed 's/^/  /'; }
    grep -E 'ERROR|SUMMARY|runtime error|number_of_executed_units|Test unit written' "$fuzz/$name.log" | sed 's/^/  /'
done
[ -z "$failed" ] && exit 0
echo "found something:$failed (logs and inputs in $fuzz)"
exit 1
