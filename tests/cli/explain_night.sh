# --explain: where one night's heat came from and went, and that it adds up.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml" --explain 03-03
out_has "Where the heat came from and went, night Tue 3 -> Wed 4 Mar"
out_has "Given back (+) or taken up (-) by"
out_has "left over: "

# First law: what crossed the boundary and what the stores gave back cancel but for the rest that
# is printed; each row of the JSON is rounded to 0.001 kWh, hence half of that a row.
run_ok nights "$dir/house.yaml" --explain 2026-03-03 --json
jq -e '.ledger.evening == "2026-03-03"' "$dir/out" >/dev/null || fail "another night"
jq -e '.ledger | ([.boundary[].kWh, .stores[].kWh]) as $rows |
    ($rows | add | fabs) <= (.imbalance_kWh | fabs) + 0.0005 * ($rows | length)' \
    "$dir/out" >/dev/null || fail "the ledger does not add up"
jq -e '.ledger.throughput_kWh > 1' "$dir/out" >/dev/null || fail "no heat moved"
jq -e '.ledger.stores | map(.name) | contains(["rock", "barrels"])' "$dir/out" >/dev/null ||
    fail "stores are missing"

# Shares: both sides alike within 0.1 %, each 100 % (rows rounded to 0.001 kWh and 0.01 %); what
# flowed in less what flowed out is what the stores gained.
jq -e '.ledger | ([.went[].kWh] | add) as $went | ([.paid[].kWh] | add) as $paid |
    ([.went[], .paid[]] | length) as $rows |
    ($paid - $went | fabs) <= 0.001 * $paid + 0.0005 * $rows and
    ([.went[].percent] | add - 100 | fabs) < 0.2 and ([.paid[].percent] | add - 100 | fabs) < 0.2' \
    "$dir/out" >/dev/null || fail "the shares do not add up"
jq -e '.ledger | ([.paid[], .went[] | .name]) as $names |
    ["rock", "barrels", "leaks", "glazing, wind and air", "glazing, long-wave to the sky"] - $names == []' \
    "$dir/out" >/dev/null || fail "shares are missing"
run_ok nights "$dir/house.yaml" --set "moisture.film=0.1 mm" --explain 03-03
out_has "Where it went"
out_has "What paid for it"
out_has "  evaporation"
out_has "  condensation"

# From part to part: what a store gives less what it takes is what it gave back; water goes along
# with its latent heat, 2.5 MJ/kg.
run_ok nights "$dir/house.yaml" --set "moisture.film=0.1 mm" --explain 03-03 --json
jq -e '.ledger | .throughput_kWh as $all | .passages as $passages | .stores | all(. as $store |
    ([$passages[] | select(.from == $store.name).kWh] | add // 0) -
    ([$passages[] | select(.to == $store.name).kWh] | add // 0) - $store.kWh | fabs <
    0.001 * $all + 0.0005 * ($passages | length))' "$dir/out" >/dev/null ||
    fail "the passages do not add up to the stores"
jq -e '[.ledger.passages[] | select(.by == "evaporation" or .by == "condensation")] |
    length > 1 and all(.water_kg * 2.5 / 3.6 - .kWh | fabs < 0.002)' "$dir/out" >/dev/null ||
    fail "water without its heat"

# The fan's night run, onward and reversed, has its row; without one there is none.
night='--set fan.night_on_at=12C --set fan.night_off_at=14C --set fan.start_margin=2K'
night="$night --set fan.stop_margin=1K --set fan.senses=air --explain 03-03"
out_lacks "night run"
run_ok nights "$dir/house.yaml" $night
grep -Eq "^  rock +air +fan's night run +[0-9.]*[1-9]" "$dir/out" || fail "no night run"
run_ok nights "$dir/house.yaml" $night --set fan.night_way=reversed
grep -Eq "^  rock +air +fan's night run, reversed +[0-9.]*[1-9]" "$dir/out" ||
    fail "no reversed night run"

run_bad nights "$dir/house.yaml" --explain 05-01
err_has "no night begins on the evening of 05-01"
err_has "2026-03-01 to 2026-03-07"
run_bad nights "$dir/house.yaml" --explain yesterday
err_has "YYYY-MM-DD"
