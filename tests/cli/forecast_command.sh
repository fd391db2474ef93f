# forecast: chances of the coming nights as text, a line, CSV and JSON; the past, readings, alarms.
. tests/support/small_nursery.sh

head -n 80 "$dir/week.csv" >"$dir/past.csv" # to 2026-03-04 06:00
{ head -n 1 "$dir/week.csv"; grep '^2026-03-0[4-7]' "$dir/week.csv"; } >"$dir/coming.csv"
few="--members 20"

# shellcheck disable=SC2086
run_ok forecast "$dir/house.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" $few
head -n 1 "$dir/out" | grep -Eq '^(fewer than 1 in 20|1 in [0-9]+|[1-9] in 10|as good as certain) \([0-9]+ %\) that tomato is harmed at the leaves' ||
    fail "no decision"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
out_has "hang an alarm thermometer"
out_has "from Wed 4 Mar 2026 06:00"
grep -qiw "safe" "$dir/out" && fail "a chance called safe"
grep -c '^[A-Z][a-z][a-z] [0-9]*-[0-9]* Mar ' "$dir/out" | grep -qx 6 || fail "not three nights in two tables"
cp "$dir/out" "$dir/first"

# The same bytes on any number of threads; another seed is other weather.
# shellcheck disable=SC2086
run_ok forecast "$dir/house.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" $few -j 1
cmp -s "$dir/out" "$dir/first" || fail "threads show"
# shellcheck disable=SC2086
run_ok forecast "$dir/house.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" $few --seed 2
cmp -s "$dir/out" "$dir/first" && fail "the seed does not show"

# CSV and JSON tell the same, and chances follow the order of the crops' lines.
sed 's/^weather:/  - name: cress\n    damage_below: -30 C\nweather:/' "$dir/house.yaml" >"$dir/two.yaml"
# shellcheck disable=SC2086
run_ok forecast "$dir/two.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" $few --json
cp "$dir/out" "$dir/chances.json"
# shellcheck disable=SC2086
run_ok forecast "$dir/two.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" $few --csv
/usr/bin/python3 - "$dir/chances.json" "$dir/out" <<'END' || fail "they differ"
import csv, json, sys
told = json.load(open(sys.argv[1]))
text = open(sys.argv[2], newline="").read()
assert text.count("\n") == text.count("\r\n")
rows = list(csv.DictReader(text.splitlines()))
assert len(rows) == len(told["nights"]) == 3 and told["members"] == 20
worst = 0.0
for row, night in zip(rows, told["nights"]):
    for place in ("outside", "air", "tray", "leaf", "root"):
        low = night[place + "_low"]
        assert low["tenth_C"] <= low["middle_C"] <= low["ninth_C"], place
        for share, name in (("10", "tenth_C"), ("50", "middle_C"), ("90", "ninth_C")):
            assert abs(float(row["%s_low_%s_C" % (place, share)]) - low[name]) < 1e-9
    tomato, cress = (crop["chance_harmed"] for crop in night["crops"])
    assert tomato >= cress == 0.0 and float(row["chance_harmed tomato"]) == tomato
    # Tomato's line lies above 0 C, and the leaves are no warmer than the trays by a degree.
    assert night["chance_any_harmed"] == tomato >= night["chance_below_0C"]
    worst = max(worst, night["chance_any_harmed"])
    assert abs(round(20 * tomato) - 20 * tomato) < 1e-6, "a share of 20 runs"
whole = told["all_nights"]
assert worst <= whole["chance_any_harmed"] <= sum(n["chance_any_harmed"] for n in told["nights"]) + 1e-9
assert told["nights"][told["worst_night"]]["chance_any_harmed"] == worst
END

# Where nothing is in doubt all runs are the forecast itself.
sure=
for key in air_first_day=0K air_seventh_day=0K air_hourly=0K cloud=0 wind=0 dew_point=0K leaks=0 light=0 active_rock=0 soil=0; do
    sure="$sure --set forecast.$key"
done
# shellcheck disable=SC2086
run_ok forecast "$dir/house.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" --members 10 --json $sure
/usr/bin/python3 - "$dir/out" <<'END' || fail "a spread without doubt"
import json, sys
for night in json.load(open(sys.argv[1]))["nights"]:
    low = night["tray_low"]
    assert low["tenth_C"] == low["middle_C"] == low["ninth_C"] == night["as_forecast_C"]
    assert night["chance_any_harmed"] in (0.0, 1.0)
END

# Readings: warm barrels make warmer nights.
lows() {
    # shellcheck disable=SC2086
    run_ok forecast "$dir/house.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" $few --json --now "$1"
    /usr/bin/python3 -c 'import json, sys; print(json.load(open(sys.argv[1]))["nights"][0]["air_low"]["middle_C"])' "$dir/out"
}
cold=$(lows "barrels=2C,rock=4C,bed=5C,soil=5C,trays=3C,air=3C")
warm=$(lows "barrels=20C,rock=60F,bed=12C,soil=10C")
awk -v cold="$cold" -v warm="$warm" 'BEGIN { exit !(warm > cold + 1) }' || fail "warm barrels do not warm: $cold $warm"

# The line for a message, and the alarm both ways.
# shellcheck disable=SC2086
run forecast "$dir/house.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" $few --brief --fail-above 0
[ "$status" -eq 10 ] || fail "no alarm: $status"
[ "$(wc -l <"$dir/out")" -eq 1 ] || fail "not one line"
err_has "above the 0 % of --fail-above"
# shellcheck disable=SC2086
run_ok forecast "$dir/house.yaml" --weather "$dir/coming.csv" --history "$dir/past.csv" $few --brief --fail-above 100%
grep -q "fail-above" "$dir/err" && fail "an alarm without a reason"

# Mistakes, each with its own sentence.
run_bad forecast "$dir/house.yaml" --weather "$dir/coming.csv" --at 2026-03-03T18:00
err_has "after now (2026-03-03 18:00)"
run_bad forecast "$dir/house.yaml" --weather "$dir/coming.csv" --at 2026-04-03T18:00
err_has "the forecast ends at 2026-03-07 23:00"
head -n 40 "$dir/week.csv" >"$dir/old.csv"
run_bad forecast "$dir/house.yaml" --weather "$dir/coming.csv" --history "$dir/old.csv"
err_has "after what is known of the past"
head -n 12 "$dir/coming.csv" >"$dir/short.csv"
run_bad forecast "$dir/house.yaml" --weather "$dir/short.csv"
err_has "no complete night"
sed '20,30d' "$dir/coming.csv" >"$dir/holes.csv"
run_bad forecast "$dir/house.yaml" --weather "$dir/holes.csv"
err_has "11 hours are missing"
run_bad forecast "$dir/house.yaml" --weather "$dir/coming.csv" --now "rock=14"
err_has "--now cannot be understood"
run_bad forecast "$dir/house.yaml" --weather "$dir/coming.csv" --now "rick=14C"
err_has "rock, barrels, bed, soil or trays"
run_bad forecast "$dir/house.yaml" --weather "$dir/coming.csv" --brief --json
err_has "--brief is text"
run_bad forecast "$dir/house.yaml" --weather "$dir/coming.csv" --fail-above 120%
err_has "outside what is possible"
cut -d, -f1-5 "$dir/coming.csv" >"$dir/dark.csv"
run_ok forecast "$dir/house.yaml" --weather "$dir/dark.csv" --members 10
err_has "the file has no solar radiation; estimated from clear sky and cloud cover"
err_has "how the house stands now is guessed"
cut -d, -f1-5 "$dir/week.csv" | sed 's/+01:00/-08:00/' >"$dir/far.csv"
run_ok forecast "$dir/house.yaml" --weather "$dir/far.csv" --members 10
err_has "the stamps may be in another time zone"

# Killed on the way, it leaves nothing behind.
mkdir "$dir/place"
"$DAWNLOW" forecast "$dir/house.yaml" --weather "$dir/coming.csv" --members 10000 --output "$dir/place/result" >/dev/null 2>&1 &
sleep 0.5
kill -KILL $! && wait $! 2>/dev/null
[ -z "$(ls -A "$dir/place")" ] || fail "a partial file: $(ls -A "$dir/place")"
