# --from is the first evening, --to the last morning; the year may be left to the weather.
. tests/support/small_nursery.sh

evenings() { jq -r '[.nights[].evening] | join(" ")' "$dir/out"; }
run_ok nights "$dir/house.yaml" --json --from 03-02 --to 03-04
[ "$(evenings)" = "2026-03-02 2026-03-03" ] || fail "other nights: $(evenings)"
jq -e '.run.from == "2026-03-02T12:00:00+01:00" and .run.to == "2026-03-04T12:00:00+01:00"' \
    "$dir/out" >/dev/null || fail "not from noon to noon"
cp "$dir/out" "$dir/short"
run_ok nights "$dir/house.yaml" --json --from 2026-03-02 --to 2026-03-04
cmp -s "$dir/out" "$dir/short" || fail "the year changes the result"
run_ok nights "$dir/house.yaml" --json --from 03-06
[ "$(evenings)" = "2026-03-06 2026-03-07" ] || fail "other nights: $(evenings)"

run_bad nights "$dir/house.yaml" --from 03-04 --to 03-02
err_has "no night between --from and --to"
run_bad nights "$dir/house.yaml" --from 04-01
err_has "--from 04-01 is not in the weather"
err_has "from 2026-03-01 to 2026-03-09"
run_bad nights "$dir/house.yaml" --to 2025-03-04
err_has "--to 2025-03-04 is not in the weather"
run_bad nights "$dir/house.yaml" --from 2026-02-30
err_has "YYYY-MM-DD"
run_bad nights "$dir/house.yaml" --from 02.03.2026
err_has "YYYY-MM-DD"
