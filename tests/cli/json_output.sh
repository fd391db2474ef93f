# --json: one valid document with stable keys, null where there is nothing, metric.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml" --json --set "rock.mass=9 t"
jq -e . "$dir/out" >/dev/null || fail "jq does not take it"
ask() { jq -e "$1" "$dir/out" >/dev/null || fail "not so: $1"; }
ask '.schema == 1'
ask '.nights | length == 7'
ask '.nights[0].evening == "2026-03-01" and .nights[0].morning == "2026-03-02"'
ask '[.nights[] | .outside_low_C, .air_low_C, .tray_low_C, .root_low_C, .hours_below_0C,
    .hours_below_crop, .crop_low_C, .fan_h, .fan_kWh, .rock_kWh, .barrels_kWh, .soil_kWh] | all(type == "number")'
ask '[.nights[] | .low_at | test("^2026-03-0[1-9]T[0-9:]{8}\\+01:00$")] | all'
ask '[.nights[] | .risk | IN("freezes", "touch and go", "close", "holds")] | all'
ask '.crop_place == "leaves" and .crop_line_C == 2 and .crop.damage_C == 2'
ask '.crop.nights_below == ([.nights[] | select(.crop_low_C < 2)] | length)'
ask '.nights_below_0C == ([.nights[] | select(.tray_low_C < 0)] | length)'
ask '.decision | startswith("7 of 7 nights below 0 C at the trays")'
ask '.run | .steps > 0 and .rhs_evaluations > 0 and .switches >= 0 and .spin_up_days == 3 and .lead_days == 0'
ask '.run.imbalance | type == "number"'
ask '.run.solver | startswith("SUNDIALS CVODE ")'
ask '.scenario.name == "Test house" and (.scenario.path | endswith("house.yaml"))'
ask '.scenario.set == ["rock.mass=9 t"]'
ask '.weather.path | endswith("week.csv")'
ask '.estimated | length > 0'
ask '[paths(scalars)] | length > 90'
ask 'has("ledger") | not'
ask '[.nights[] | tostring | test("nan|inf"; "i") | not] | all'

# No rock: null, not 0.
sed '/^rock:/,/^barrels:/{/^barrels:/!d;}' "$dir/house.yaml" >"$dir/bare.yaml"
run_ok nights "$dir/bare.yaml" --json
ask '[.nights[] | .rock_kWh == null and .fan_h == null] | all'

# Units are for people; programs always get the same.
run_ok nights "$dir/bare.yaml" --json --units us
cp "$dir/out" "$dir/us"
err_has "always metric"
run_ok nights "$dir/bare.yaml" --json
cmp -s "$dir/out" "$dir/us" || fail "--units changes JSON"

run_ok weather "$dir/week.csv" --json --latitude 47.5 --longitude 8.5 --elevation "450 m"
ask '.hours | length == 193'
ask '.hours[0].time == "2026-03-01T00:00:00+01:00" and .hours[0].mean_from == "2026-02-28T23:00:00+01:00"'
run_ok check "$dir/house.yaml" --json
ask '.values | map(select(.key == "rock.mass" and .origin == "yours" and .line == 28)) | length == 1'
run_ok network "$dir/house.yaml" --json
ask '.nodes | length > 5'
