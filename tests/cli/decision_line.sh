# The first line is the decision: how many nights, where, the coldest and when.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml"
grep -Eq '^[0-9]+ of 7 nights below 0 C at the trays; coldest [A-Z][a-z]{2} [0-9]+ -> [A-Z][a-z]{2} [0-9]+ Mar, -[0-9]+\.[0-9] C at [0-9]{2}:[0-9]{2}$' \
    "$dir/out" || fail "no decision"
[ "$(head -n 1 "$dir/out" | cut -c 1-4)" = "7 of" ] || fail "the decision is not the first line"
sed -n 2p "$dir/out" | grep -q 'of 7 nights below 2\.0 C, where tomato is damaged$' ||
    fail "the crop's line is missing"

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
