# nights --json is one valid document with the same keys for every nursery that is shipped.
. tests/support/small_nursery.sh

ask() { jq -e "$1" "$dir/out" >/dev/null || fail "$scenario: not so: $1"; }

count=0
for scenario in $(shipped); do
    # Those that name no weather are taken to where the demo's weather is.
    if grep -q '^weather:' "$scenario"; then
        run_ok nights "$scenario" --from 2026-03-08 --to 2026-03-15 --json
    else
        run_ok nights "$scenario" --weather weather/alder-hollow-spring.csv \
            --set "site.latitude=45.2 N" --set "site.longitude=6.9 E" --set "site.elevation=480 m" \
            --set "site.utc_offset=+1 h" --from 2026-03-08 --to 2026-03-15 --json
    fi
    jq -e . "$dir/out" >/dev/null || fail "$scenario: jq does not take it"
    ask '.nights | length == 7'
    ask '.nights[0].evening == "2026-03-08" and .nights[6].morning == "2026-03-15"'
    ask '["evening", "morning", "outside_low_C", "air_low_C", "tray_low_C", "leaf_low_C", "root_low_C",
        "low_at", "hours_below_0C", "fan_h", "fan_kWh", "rock_kWh", "barrels_kWh", "soil_kWh"] as $keys
        | [.nights[] | keys as $has | $keys - $has == []] | all'
    ask '.run | [has("imbalance", "steps", "rhs_evaluations", "switches")] | all'
    # What every house has, is a number; what one has not, is null.
    ask '[.nights[] | .outside_low_C, .air_low_C, .hours_below_0C, .soil_kWh | type == "number"] | all'
    ask '[.nights[] | .tray_low_C, .leaf_low_C, .root_low_C, .fan_h, .fan_kWh, .rock_kWh, .barrels_kWh
        | type == "number" or . == null] | all'
    ask '.run | .imbalance < 1e-4 and .steps > 0 and .rhs_evaluations >= .steps and .switches >= 0'
    for part in rock barrels; do
        wanted=null
        grep -q "^$part:" "$scenario" && wanted=number
        ask "[.nights[].${part}_kWh | type == \"$wanted\"] | all"
    done
    grep -q '^fan:' "$scenario" && ask '.run.switches > 0 and ([.nights[].fan_h] | add) > 0'
    count=$((count + 1))
done
[ "$count" -ge 4 ] || fail "only $count scenarios found"
