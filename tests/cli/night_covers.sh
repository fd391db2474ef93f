# nights and effects with covers: what is drawn when, what it is worth, and a warning for the sun.
. tests/support/small_nursery.sh

few="--from 03-02 --to 03-05"
# shellcheck disable=SC2086
run_ok nights "$dir/house.yaml" $few
out_lacks "covers:"
cp "$dir/house.yaml" "$dir/covered.yaml"
cat >>"$dir/covered.yaml" <<'END'
covers:
  - name: fleece
    over: trays
    put_on_at: 6 pm
    take_off_at: 7:30
  - name: curtain
    over: house
    sheet: curtain
    only_below: -20 C
END
# shellcheck disable=SC2086
run_ok nights "$dir/covered.yaml" $few
tr -s " \n" " " <"$dir/out" >"$dir/flat"
grep -qF "covers: fleece on in 3 of 3 nights, 18:00 to 07:15 in the coldest; curtain on in 0 of 3 nights" "$dir/flat" ||
    fail "covers untold"
out_lacks "after sunrise"
# shellcheck disable=SC2086
# shellcheck disable=SC2086
run_ok nights "$dir/covered.yaml" $few --set "covers.fleece.take_off_at=10:00"
out_has "caution: fleece stays on up to"
# shellcheck disable=SC2086
run_ok nights "$dir/covered.yaml" $few --json
grep -q '"nights_on": *3' "$dir/out" || fail "not in the JSON"
grep -q '"longest_after_sunrise_h"' "$dir/out" || fail "not in the JSON"

# What it is worth, over the trays and below the roof apart.
# shellcheck disable=SC2086
run_ok effects "$dir/covered.yaml" $few --set "covers.curtain.only_below=all nights"
grep -Eq "^the curtain below the roof  +-" "$dir/out" || fail "the curtain is worth nothing"
grep -Eq "^the covers over trays and bed  " "$dir/out" || fail "no row for covers"

# Mistakes are told where they stand.
run_bad nights "$dir/covered.yaml" --set "covers.fleece.take_off_at=25 h"
run_bad nights "$dir/covered.yaml" --set "covers.fleece.sheet=flece"
err_has "fleece"
run_bad nights "$dir/covered.yaml" --set "covers.fleece.take_off_at=18:00"
err_has "would be taken off when it is put on"
run_ok explain covers.only_below
out_has "colder than this outdoors"
