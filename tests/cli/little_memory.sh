# Where much memory is refused the program does with the little it needs, and says the same.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml" --json
cp "$dir/out" "$dir/first"
(
    # kB of addresses; a sanitized program needs millions of them for itself
    [ -n "${DAWNLOW_SANITIZED:-}" ] || ulimit -v 200000
    exec "$DAWNLOW" nights "$dir/house.yaml" --json
) >"$dir/out" 2>"$dir/err" || fail "fails with 200 MB: $(cat "$dir/err")"
cmp -s "$dir/out" "$dir/first" || fail "differs with 200 MB"
