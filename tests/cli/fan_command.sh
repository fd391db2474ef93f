# fan: a verdict first, the curve against rock and ducts, the same flow in the nights.
. tests/support/small_nursery.sh

# A flow as given: the run at that flow, and nothing about a curve.
run_ok fan "$dir/house.yaml" --set "rock.path_length=2 m" --set "fan.flow=2400 m3/h"
head -n 1 "$dir/out" | grep -q '^the fan suits its bed: it moves 2400 m3/h through the rock at ' ||
    fail "no verdict in the first line"
out_has "as the scenario gives it"
out_has "caution: electricity near water"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"

# 200 m3/h against a noon of some 35 kW: 200/3600 x 1.18 kg/m3 x 1006 J/(kg K) x 15 K = 1 kW.
run_ok fan "$dir/house.yaml" --set "rock.path_length=2 m" --set "fan.flow=200 m3/h"
head -n 1 "$dir/out" | grep -q 'too small for its house: it moves 200 m3/h' || fail "not too small"
grep -q '^Air carries  *1\.0 kW' "$dir/out" || fail "200 m3/h at 15 K do not carry 1 kW"
out_has "what helps: a fan that moves more air"
# 5000 m3/h along the whole bed, with 80 W.
run_ok fan "$dir/house.yaml" --set "rock.path_length=8 m" --set "fan.flow=5000 m3/h"
out_has "this fan cannot move the 5000 m3/h it is said to"

# The curve instead, with ducts.
sed -e 's/^  flow: .*/  free_air: 4200 m3\/h\n  greatest_pressure: 120 Pa/' \
    -e 's/^  power: 80 W/&\n  on_at: 18 C\n  off_at: 15 C/' \
    -e 's/^  mass: 10 t/&\n  path_length: 2 m/' \
    -e 's/^barrels:/ducts:\n  - name: down pipe\n    length: 4 m\n    diameter: 60 cm\n    kind: smooth\n    bends: 2\n    screens: 1\n&/' \
    "$dir/house.yaml" >"$dir/curve.yaml"
run_ok fan "$dir/curve.yaml"
out_has "of 4200 m3/h in free air"
out_has "through the ducts"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
metric=$(sed -n 's/^Flow  *\([0-9]*\) m3.*/\1/p' "$dir/out")
run_ok fan "$dir/curve.yaml" --units us
# 1 cfm = 1.699011 m3/h (0.3048^3 m3/min, NIST SP 811, from memory)
cfm=$(sed -n 's/^Flow  *\([0-9]*\) cfm.*/\1/p' "$dir/out")
awk -v m="$metric" -v c="$cfm" 'BEGIN { d = c * 1.699011 - m; exit !(d < 2 && d > -2) }' ||
    fail "$cfm cfm is not $metric m3/h"
out_has "in wg"
out_lacks " Pa"
out_lacks "m3/h"

run_ok fan "$dir/curve.yaml" --json
jq -e '.from_curve and (.rock_Pa + .duct_Pa - .pressure_Pa | fabs) < 1e-9 and
    .least_m3_s < .flow_m3_s and .flow_m3_s < .most_m3_s and .most_m3_s < .free_air_m3_s and
    .duct_Pa > 0 and .verdict == "fits"' "$dir/out" >/dev/null || fail "the numbers do not agree"
flow=$(jq .flow_m3_s "$dir/out")

# A warmer, brighter week, so that the fan runs.
LC_ALL=C awk -F, -v OFS=, 'NR > 1 { $2 += 14; $3 += 14; $6 *= 5 } 1' "$dir/week.csv" >"$dir/bright.csv"
mv "$dir/bright.csv" "$dir/week.csv"
# What the fan moves by its curve is what the nights reckon with.
run_ok nights "$dir/curve.yaml" --json
jq '[.nights[] | {tray_low_C, fan_h}]' "$dir/out" >"$dir/by_curve"
jq -e 'map(.fan_h) | add > 5' "$dir/by_curve" >/dev/null || fail "the fan hardly ran"
run_ok nights "$dir/curve.yaml" --json --set "fan.flow=$flow m3/s" --set fan.free_air=unknown \
    --set fan.greatest_pressure=unknown
jq '[.nights[] | {tray_low_C, fan_h}]' "$dir/out" | cmp -s - "$dir/by_curve" ||
    fail "the nights reckon with another flow"
run_ok nights "$dir/curve.yaml" --json --set "fan.flow=300 m3/h" --set fan.free_air=unknown \
    --set fan.greatest_pressure=unknown
jq '[.nights[] | {tray_low_C, fan_h}]' "$dir/out" | cmp -s - "$dir/by_curve" &&
    fail "the flow does not matter to the nights: nothing was compared"

# Stones of 15 mm and pipes of 10 cm hold it back, and it says which.
run_ok fan "$dir/curve.yaml" --set "rock.stone_size=15 mm" --set "rock.path_length=8 m"
head -n 1 "$dir/out" | grep -q 'too weak for its bed: the rock takes' || fail "not the rock's fault"
run_ok fan "$dir/curve.yaml" --set "ducts.1.diameter=10 cm"
head -n 1 "$dir/out" | grep -q 'too weak for its ducts: they take' || fail "not the ducts' fault"
run_ok fan "$dir/curve.yaml" --set "ducts.down pipe.diameter=10 cm" \
    --set "ducts.down pipe.side_by_side=30"
head -n 1 "$dir/out" | grep -q 'suits its bed' || fail "thirty pipes side by side are still narrow"

run_bad fan "$dir/curve.yaml" --set "fan.flow=900 m3/h"
err_has "both a flow and a curve"
run_bad fan "$dir/house.yaml" --set "fan.flow=from curve"
err_has "the fan needs its flow, or free_air and greatest_pressure"
sed '/^fan:/,/^  power/d' "$dir/house.yaml" >"$dir/still.yaml"
run_bad fan "$dir/still.yaml"
err_has "there is no fan"
run_bad fan
err_has "SCENARIO"
run_bad fna "$dir/house.yaml"
err_has "did you mean 'dawnlow fan'?"
