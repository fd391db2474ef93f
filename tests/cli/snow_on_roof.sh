# Snow on the roof: on how many nights it lay, what it weighs, in text, JSON and on the page; without
# it not a word.
. tests/support/small_nursery.sh

few="--from 02-03 --to 02-17"
house=scenarios/house-under-snow.yaml
# shellcheck disable=SC2086
run_ok nights $house $few
tr -s " \n" " " <"$dir/out" >"$dir/flat"
# 12 cm of 100 and 8 cm of 250 kg/m3 are 32 kg/m2, on roofs of 16 + 12 m2 0.9 t.
grep -qE "snow: on the roof at dawn of [1-9][0-9]* of 14 nights caution: up to 32 kg/m2 of snow on the roof, 0\.9 t on 28\.0 m2; what the frame carries is for its maker, local codes or an engineer to say" \
    "$dir/flat" || fail "snow untold"
# shellcheck disable=SC2086
run_ok nights $house $few --units us
out_has "up to 7 lb/sq ft of snow"
# shellcheck disable=SC2086
run_ok nights $house $few --json
jq -e '.snow.nights > 0 and .snow.lies_on_m2 == 28 and .snow.most_kg_m2 == 32' "$dir/out" >/dev/null ||
    fail "other JSON"
# shellcheck disable=SC2086
run_ok nights $house $few --html "$dir/page.html"
grep -q "32 kg/m2 of snow on the roof" "$dir/page.html" || fail "the page does not weigh it"
# shellcheck disable=SC2086
run_ok effects $house --from 02-07 --to 02-11
out_has "snow on the roof (the roof kept clear)"

# A roof it slides from on the first mild day, one too steep, none described.
# shellcheck disable=SC2086
run_ok nights $house $few --set house.snow_slides_above="0 C"
out_has "snow: on the roof at dawn of"
# shellcheck disable=SC2086
run_ok nights $house $few --set house.snow_steepest="20 deg"
out_lacks "snow:"
run_ok nights "$dir/house.yaml"
out_lacks "snow"
run_bad nights $house --set "snow.first fall.from=Candlemas"
err_has "'Candlemas' is no day"
