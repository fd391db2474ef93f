# The same input gives the same bytes: again, under another locale, in another time zone.
. tests/support/small_nursery.sh

again() {
    run_ok "$@"
    cp "$dir/out" "$dir/first"
    cp "$dir/err" "$dir/first_err"
    run_ok "$@"
    cmp -s "$dir/out" "$dir/first" || fail "a second run differs: $*"
    for surroundings in "LC_ALL=C TZ=UTC" "LC_ALL=de_DE.UTF-8 TZ=Asia/Tokyo" \
        "LC_ALL=C.UTF-8 TZ=America/St_Johns LANGUAGE=fr"; do
        # Word splitting of the assignments is wanted.
        # shellcheck disable=SC2086
        env $surroundings "$DAWNLOW" "$@" >"$dir/out" 2>"$dir/err" || fail "fails under $surroundings"
        cmp -s "$dir/out" "$dir/first" || fail "differs under $surroundings: $*"
        cmp -s "$dir/err" "$dir/first_err" || fail "messages differ under $surroundings: $*"
    done
}
again nights "$dir/house.yaml"
again nights "$dir/house.yaml" --json --explain 03-03
again nights "$dir/house.yaml" --csv --units metric
again network "$dir/house.yaml" --json
again weather "$dir/week.csv" --latitude 47.5 --longitude 8.5
again check "$dir/house.yaml"

# A comma may be the decimal mark in what is read, whatever the locale.
sed 's/47\.5 N/47,5 N/; s/2\.5 m/2,5 m/' "$dir/house.yaml" >"$dir/comma.yaml"
run_ok nights "$dir/house.yaml" --csv
cp "$dir/out" "$dir/first"
run_ok nights "$dir/comma.yaml" --csv
cmp -s "$dir/out" "$dir/first" || fail "a decimal comma makes another house"

# Wall time is on standard error only, and only when asked for.
run_ok nights "$dir/house.yaml" --verbose --csv
cmp -s "$dir/out" "$dir/first" || fail "--verbose changes the result"
err_has "steps"
