# --set, --no-fan, --accurate: another house, a failed fan, a finer calculation.
. tests/support/small_nursery.sh

# More sunlight, so that the fan has something to do.
LC_ALL=C awk -F, 'BEGIN { OFS = "," } NR > 1 { $6 = $6 * 4.5; $2 += 8; $3 += 6 } { print }' \
    "$dir/week.csv" >"$dir/sunny.csv"
mv "$dir/sunny.csv" "$dir/week.csv"

run_ok nights "$dir/house.yaml" --json
cp "$dir/out" "$dir/plain"
jq -e '[.nights[].fan_h] | add > 1' "$dir/out" >/dev/null || fail "the fan never runs"

run_ok nights "$dir/house.yaml" --json --no-fan
jq -e '[.nights[].fan_h] | add == 0' "$dir/out" >/dev/null || fail "--no-fan, and yet it runs"
jq -e '.scenario.fan_kept_off' "$dir/out" >/dev/null || fail "the fan's rest is not told"
# What the fan does not carry into the rock the rock cannot give back.
rock() { jq '[.nights[].rock_kWh] | add' "$1"; }
jq -n -e "$(rock "$dir/out") < $(rock "$dir/plain")" >/dev/null || fail "the rock gives more without a fan"
run_ok nights "$dir/house.yaml" --no-fan
tr -s '\n ' '  ' <"$dir/out" | grep -q "the fan was kept off" || fail "the fan's rest is not told"

run_ok nights "$dir/house.yaml" --json --set "rock.mass=10 t"
jq 'del(.scenario.set)' "$dir/out" >"$dir/a"
jq 'del(.scenario.set)' "$dir/plain" >"$dir/b"
cmp -s "$dir/a" "$dir/b" || fail "the same value set makes another house"
run_ok nights "$dir/house.yaml" --json --set "glazing.roof.area=20 m2" --set "fan.on_at=35 C"
jq -e '.scenario.set == ["glazing.roof.area=20 m2", "fan.on_at=35 C"]' "$dir/out" >/dev/null ||
    fail "what was set is not told"
jq 'del(.scenario.set)' "$dir/out" >"$dir/a"
cmp -s "$dir/a" "$dir/b" && fail "--set changes nothing"
run_ok check "$dir/house.yaml" --set "rock.mass=12 t"
grep 'rock\.mass .*12 t .*set for this run' "$dir/out" >/dev/null || fail "check does not show what was set"
run_bad nights "$dir/house.yaml" --set "rock.mass"
run_bad nights "$dir/house.yaml" --set "rock.mass=heavy"
err_has "heavy"

# A finer calculation agrees with the usual one to 0.05 K; both tolerances are far below (rtol of
# the usual run 1e-4 at most), the rest is room for what piles up over a week.
run_ok nights "$dir/house.yaml" --json --accurate
jq -n -e --slurpfile a "$dir/plain" --slurpfile b "$dir/out" \
    '[range(7) as $i | ($a[0].nights[$i].tray_low_C - $b[0].nights[$i].tray_low_C) | fabs] | max < 0.05' \
    >/dev/null || fail "--accurate finds other lows"
jq -n -e --slurpfile a "$dir/plain" --slurpfile b "$dir/out" '$b[0].run.steps > $a[0].run.steps' >/dev/null ||
    fail "--accurate takes no more steps"
