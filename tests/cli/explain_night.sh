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

run_bad nights "$dir/house.yaml" --explain 05-01
err_has "no night begins on the evening of 05-01"
err_has "2026-03-01 to 2026-03-07"
run_bad nights "$dir/house.yaml" --explain yesterday
err_has "YYYY-MM-DD"
