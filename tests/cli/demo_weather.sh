# The demo's invented weather is what its generators write, byte for byte.
. tests/support/small_nursery.sh

# written GENERATOR FILE: runs a program of tests/demo_weather and compares.
written() {
    program=$(dirname "$DAWNLOW")/tests/demo_weather/$1
    if ! [ -x "$program" ]; then
        # Built apart: the folder of the program may hold objects made with other flags.
        ${MAKE:-make} -s BUILD="$dir/build" "$dir/build/tests/demo_weather/$1" >"$dir/out" 2>"$dir/err" ||
            fail "the generator does not build"
        program=$dir/build/tests/demo_weather/$1
    fi
    "$program" >"$dir/out" 2>"$dir/err" || fail "the generator fails"
    [ -s "$dir/err" ] && fail "the generator complains"
    if ! cmp "$dir/out" "$2"; then
        diff "$dir/out" "$2" | head -n 6
        exit 1
    fi
}
written make_valley weather/alder-hollow-spring.csv
rows=$(grep -c '^2026-' "$dir/out")
[ "$rows" -eq 2880 ] || { echo "$rows rows, not the 120 days of hours that weather/README.md says"; exit 1; }
written make_week weather/alder-hollow-week.csv
rows=$(grep -c '^2026-' "$dir/out")
[ "$rows" -eq 89 ] || { echo "$rows rows, not the 89 that weather/README.md says"; exit 1; }
