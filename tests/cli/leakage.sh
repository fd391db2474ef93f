# The leaks as a word, as a rate or as a fan test: the same house by each, and only one of them at a
# time.
. tests/support/small_nursery.sh

sed '/air_changes/d' "$dir/house.yaml" >"$dir/plain.yaml"
low() {
    run_ok nights "$dir/plain.yaml" --json --weather "$dir/week.csv" "$@"
    jq '[.nights[].air_low_C] | min' "$dir/out"
}
average=$(low)
[ "$average" = "$(low --set 'house.air_changes=1 /h')" ] || fail "average is not one change an hour"
[ "$(low --set house.leakage=leaky)" = "$(low --set 'house.air_changes=1.75 ACH')" ] ||
    fail "leaky is not 1.75 changes an hour"
# 24.88 changes at 50 Pa are one at 15 K and 2 m/s: 0.08^0.65 / 2.582 m/s x 0.5358 m/s.
jq -en --argjson a "$average" --argjson b "$(low --set 'house.fan_test=24.8832 /h')" \
    '$a - $b | fabs < 0.005' >"$dir/same" || fail "24.88 at 50 Pa are not one change"
jq -en --argjson a "$average" --argjson b "$(low --set house.leakage=draughty)" '$b < $a - 0.1' \
    >"$dir/colder" || fail "a draughty house is not colder"

# What --set says lies over the file, whichever way the file tells it.
sed 's/air_changes: .*/leakage: draughty/' "$dir/house.yaml" >"$dir/other.yaml"
run_ok nights "$dir/other.yaml" --json --weather "$dir/week.csv" --set 'house.air_changes=1 /h'
[ "$average" = "$(jq '[.nights[].air_low_C] | min' "$dir/out")" ] || fail "--set does not win"
run_bad check "$dir/plain.yaml" --set house.leakage=leaky --set 'house.air_changes=2 /h'
err_has "both leakage and air_changes tell how leaky the house is"
run_bad check "$dir/plain.yaml" --set house.leakage=average-ish
err_has "sealed, tight, average, leaky, draughty"
