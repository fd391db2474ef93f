# network: parts, ways, and the whole of it as JSON.
. tests/support/small_nursery.sh

run_ok network "$dir/house.yaml"
out_has "parts that hold heat"
out_has "ways heat takes"
grep -Eq '^barrels .* kWh/K' "$dir/out" || fail "no barrels"
# 4 barrels of 200 L, 95 % full: 760 kg of water at 4186 J/(kg K) (15 C calorie) = 0.884 kWh/K,
# computed closed form; the drums themselves may add a little.
grep '^barrels' "$dir/out" | awk '{ exit !($3 > 0.87 && $3 < 0.93) }' || fail "barrels hold something else"
out_has "fan        80 W"
run_ok network "$dir/house.yaml" --no-fan
out_has "fan        none"
run_ok network "$dir/house.yaml" --json --from 03-02 --to 03-03
jq -e '.nodes | length > 5' "$dir/out" >/dev/null || fail "no nodes"
run_bad network "$dir/house.yaml" --from 05-01
err_has "not in the weather"
