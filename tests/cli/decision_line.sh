# The first line is the decision: how many nights, where, the coldest and when.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml"
grep -Eq '^[0-9]+ of 7 nights below 0 C at the trays; coldest [A-Z][a-z]{2} [0-9]+ -> [A-Z][a-z]{2} [0-9]+ Mar, -[0-9]+\.[0-9] C at [0-9]{2}:[0-9]{2}$' \
    "$dir/out" || fail "no decision"
[ "$(head -n 1 "$dir/out" | cut -c 1-4)" = "7 of" ] || fail "the decision is not the first line"
sed -n 2p "$dir/out" | grep -q '^7 of 7 nights below 2 C at the leaves, where tomato is damaged$' ||
    fail "the crop's line is missing"

# The crop is counted where it is. A line between what leaves and trays of the last night come to
# (here both some degrees below 0 C) parts the two counts.
run_ok nights "$dir/house.yaml" --json
jq -e '.crop_place == "leaves" and .crop_line_C == 2 and ([.nights[].leaf_low_C] == [.nights[].crop_low_C])' \
    "$dir/out" >/dev/null || fail "the crop is not at its leaves"
line=$(jq '.nights[3] | (.leaf_low_C + .tray_low_C) / 2' "$dir/out")
run_ok nights "$dir/house.yaml" --json --set "crops.1.damage_below=$line C"
jq -e '.crop.nights_below == ([.nights[] | select(.leaf_low_C < '"$line"')] | length)
    and .crop.nights_below > ([.nights[] | select(.tray_low_C < '"$line"')] | length)' \
    "$dir/out" >/dev/null || fail "the crop is not counted at its leaves"
# The same without leaves: at the trays.
run_ok nights "$dir/house.yaml" --set "trays.leaf_area_index=0"
sed -n 2p "$dir/out" | grep -q '^7 of 7 nights below 2 C at the trays, where tomato' || fail "not at the trays"
# A line of exactly 0 C is told when the counts differ. Leaves are not as cold as the trays, so with
# the right heat in the house some nights are below 0 C at only one of them.
for watts in 1500 1750 2000 2250 2500 2750 3000 3250 3500 3750 4000 4250 4500; do
    heat="house.heat=$watts W"
    run_ok nights "$dir/house.yaml" --json --set "crops.1.damage_below=0 C" --set "$heat"
    leaves=$(jq '[.nights[] | select(.leaf_low_C < 0)] | length' "$dir/out")
    trays=$(jq '[.nights[] | select(.tray_low_C < 0)] | length' "$dir/out")
    [ "$leaves" -ne "$trays" ] && break
done
[ "$leaves" -ne "$trays" ] || fail "no heat parts leaves and trays"
jq -e '[.nights[] | select(.leaf_low_C < 0) | .risk] | all(. == "freezes")' "$dir/out" >/dev/null ||
    fail "leaves freeze, but the risk says otherwise"
run_ok nights "$dir/house.yaml" --set "crops.1.damage_below=0 C" --set "$heat"
[ "$leaves" -gt 0 ] || leaves=none
sed -n 2p "$dir/out" | grep -qx "$leaves of 7 nights below 0 C at the leaves, where tomato is damaged" ||
    fail "the leaves' nights are not told"
run_ok nights "$dir/house.yaml" --set "crops.1.damage_below=0 C"
head -n 2 "$dir/out" | grep -q tomato && fail "seven nights are told twice"
run_ok nights "$dir/house.yaml"

# One row a night, named by evening and morning; 1 March 2026 is a Sunday (ISO 8601 calendar).
[ "$(grep -Ec '^[A-Z][a-z]{2} [0-9]+-[0-9]+ Mar ' "$dir/out")" -eq 7 ] || fail "not seven nights"
grep -q '^Sun 1-2 Mar ' "$dir/out" || fail "the first night is not Sunday 1 March"
out_has "caution: "
out_has "assumed: "
out_has "UTC+01:00"

# The table's lowest tray temperature is the one of the first line.
low=$(sed -n '1s/.*Mar, \(-[0-9.]*\) C at.*/\1/p' "$dir/out")
tray=$(awk '/^Night/ { for (i = 1; i <= NF; i++) if ($i == "Tray") at = i }
    /^[A-Z][a-z][a-z] [0-9]/ { t = $(at + 2); if (n++ == 0 || t + 0 < least) least = t + 0 }
    END { printf "%.1f", least }' "$dir/out")
[ "$low" = "$tray" ] || fail "first line says $low, the table $tray"

# A warm house: the decision says none. A lamp of 20 kW in 100 m3 leaves no doubt.
run_ok nights "$dir/house.yaml" --set "house.heat=20 kW"
head -n 1 "$dir/out" | grep -q '^none of 7 nights below 0 C at the trays; coldest ' || fail "not none"

# Without trays the house air is what counts.
sed '/^trays:/,/^crops:/{/^crops:/!d;}' "$dir/house.yaml" >"$dir/empty.yaml"
run_ok nights "$dir/empty.yaml"
head -n 1 "$dir/out" | grep -q 'below 0 C in the house air; coldest' || fail "no trays, yet trays"
grep '^Night' "$dir/out" | grep -q Tray && fail "a column for trays that are not there"
exit 0
