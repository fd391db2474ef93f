# The demo's invented weather is what its generator writes, byte for byte.
. tests/support/small_nursery.sh

generator=tests/demo_weather/make_valley
valley=$(dirname "$DAWNLOW")/$generator
if ! [ -x "$valley" ]; then
    # Built apart: the folder of the program may hold objects made with other flags.
    ${MAKE:-make} -s BUILD="$dir/build" "$dir/build/$generator" >"$dir/out" 2>"$dir/err" ||
        fail "the generator does not build"
    valley=$dir/build/$generator
fi
"$valley" >"$dir/out" 2>"$dir/err" || fail "the generator fails"
[ -s "$dir/err" ] && fail "the generator complains"
if ! cmp "$dir/out" weather/alder-hollow-spring.csv; then
    diff "$dir/out" weather/alder-hollow-spring.csv | head -n 6
    exit 1
fi
rows=$(grep -c '^2026-' "$dir/out")
[ "$rows" -eq 2880 ] || { echo "$rows rows, not the 120 days of hours that weather/README.md says"; exit 1; }
