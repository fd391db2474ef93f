# setpoint: a setting comes first, the same as text, CSV and JSON, and what it promises, nights keeps.
. tests/support/small_nursery.sh

setpoint() { run_ok setpoint scenarios/alder-hollow.yaml --from 03-12 --to 03-14 --set "start.spin_up=3 d" --on-least "16 C" --on-most "28 C" --on-step "6 K" "$@"; }

setpoint
tr -s '\n ' ' ' <"$dir/out" | grep -Eq '^((the setting hardly matters to the cold nights here; )?(set the fan|leave the fan as it is)): on at [0-9.]+ C, off at' || fail "no decision"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
grep -Eq "^(recommended|as good) " "$dir/out" || fail "no rows"
out_has "Mar "
out_has "residual-current"
grep -q "^run " "$dir/err" && fail "progress shown to nobody"
setpoint --units us
tr -s '\n ' ' ' <"$dir/out" | grep -Eq 'on at [0-9.]+ F' || fail "not in F"
setpoint --json -j 1
cp "$dir/out" "$dir/one.json"
setpoint --json -j 2
cmp -s "$dir/out" "$dir/one.json" || fail "the number of threads shows"
setpoint --csv
cp "$dir/out" "$dir/rows.csv"

# A fan that starts at 40 C does nothing in March, and says so.
run_ok setpoint "$dir/house.yaml" --from 03-02 --to 03-03 --on-step "18 K" --set "fan.on_at=40 C" --set "fan.off_at=37 C"
out_has "warning: as it is the fan runs 0.0 h in all of Mar"

/usr/bin/python3 - "$dir/one.json" "$dir/rows.csv" "$DAWNLOW" scenarios/alder-hollow.yaml <<'END' || fail "they differ"
import csv, json, subprocess, sys
ours = json.load(open(sys.argv[1]))
rows = list(csv.DictReader(open(sys.argv[2], newline="")))
assert len(rows) == 1 + len(ours["settings"]) == 1 + 27, len(rows)
best = ours["recommended"]
assert sum(row["recommended"] == "1" for row in rows) == 1
for row, setting in zip(rows, [ours["as_it_is"]] + ours["settings"]):
    for ours_key, key in (("on_C", "on_C"), ("coldest_C", "coldest_C"), ("fan_kWh", "fan_kWh"), ("nights_below", "nights_below")):
        if row[key]:
            assert abs(float(row[key]) - setting[ours_key]) < 1e-9, key
    if "cold_nights_C" in setting: # of two nights: the band is from one to the other
        low, high = setting["cold_nights_low_C"], setting["cold_nights_high_C"]
        assert abs(0.5 * (low + high) - setting["cold_nights_C"]) < 0.0016 and high - low > 0.1, setting
command = [sys.argv[3], "nights", sys.argv[4], "--from", "03-12", "--to", "03-14", "--json", "--set", "start.spin_up=3 d"]
for setting in ours["set"]:
    command += ["--set", setting]
nights = json.loads(subprocess.run(command, check=True, capture_output=True).stdout)["nights"]
assert abs(min(night["tray_low_C"] for night in nights) - best["coldest_C"]) < 0.0011
assert sum(night["tray_low_C"] < 0 for night in nights) == best["nights_below"]
END

run_bad setpoint "$dir/house.yaml" --on-least "30 C" --on-most "20 C"
err_has "--on-least must be lower"
run_bad setpoint "$dir/house.yaml" --on-step "0.1 K"
err_has "more than 40 starts"
run_bad setpoint "$dir/house.yaml" --set "fan=none"
err_has "no fan whose thermostat"
run_bad setpoint "$dir/house.yaml" --set "weather.file="
err_has "weather"
run_bad setpoint "$dir/house.yaml" --from 05-01
err_has "not in the weather"
