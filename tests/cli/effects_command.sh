# effects: what matters most comes first, the same figures as text, CSV and JSON, and as nights has.
. tests/support/small_nursery.sh

few="--from 03-02 --to 03-05"
# shellcheck disable=SC2086
run_ok effects "$dir/house.yaml" $few
head -n 1 "$dir/out" |
    grep -Eq '^what matters most here: .*; without (it|them) the coldest night would be [0-9.]+ K (warmer|colder) at the trays$' ||
    fail "no decision"
awk 'NR > 1 && length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
for name in leaks "the cold sky" wind "the fan" "the rock and its fan" "the water barrels" \
    "dirt on the glazing" "freezing of the soil"; do
    grep -Eq "^$name  " "$dir/out" || fail "no row: $name"
done
for name in "vents and doors" "water in the air" "ridge and bench apart" "the fan's runs at night" \
    "the heat source inside" "the board along the edge"; do
    out_lacks "$name  "
done
out_has "3 nights"
# These trays freeze through, and so follow the air again; deeper ones are held at 0 C.
out_lacks "hides what else changes"
run_ok effects "$dir/house.yaml" --from 03-01 --to 03-02 --set "trays.depth=25 cm" --set "start.temperature=3 C" --set "start.spin_up=0 d"
out_has "hides what else changes"
out_has "in the house air"
run_ok effects "$dir/house.yaml" --from 03-02 --to 03-03 --set "house.heat=300 W" --units us
out_has "the heat source inside"
out_has "as it is, lows in F"
grep -Eq '^what matters .* would be [0-9.]+ F' "$dir/out" || fail "not in F"
tr -s " \n" " " <"$dir/out" | grep -q "set for this run: house.heat=300 W" || fail "overrides untold"
out_has "1 night,"

# shellcheck disable=SC2086
run_ok effects "$dir/house.yaml" $few --json
cp "$dir/out" "$dir/effects.json"
# shellcheck disable=SC2086
run_ok effects "$dir/house.yaml" $few --csv
cp "$dir/out" "$dir/effects.csv"
# shellcheck disable=SC2086
run_ok nights "$dir/house.yaml" $few --json
# What it stands on is what nights says; and of the leaks, what nights says with a tight house.
cp "$dir/out" "$dir/nights.json"
# shellcheck disable=SC2086
run_ok nights "$dir/house.yaml" $few --json --set "house.air_changes=0 /h"
/usr/bin/python3 - "$dir/effects.json" "$dir/effects.csv" "$dir/nights.json" "$dir/out" <<'END' || fail "they differ"
import csv, json, sys
effects = json.load(open(sys.argv[1]))
text = open(sys.argv[2], newline="").read()
assert text.count("\n") == text.count("\r\n")
rows = list(csv.DictReader(text.splitlines()))
assert rows[0]["effect"] == "none"
assert [row["effect"] for row in rows[1:]] == [row["effect"] for row in effects["effects"]]
for row, effect in zip(rows[1:], effects["effects"]):
    for key in rows[0]:
        if key not in ("effect", "without"):
            assert abs(float(row[key]) - effect[key]) < 1e-9, key
assert effects["place"] == "trays" and effects["ordered_by"] == "trays" and effects["nights"] == 3
sizes = [abs(effect["coldest_change_K"]) for effect in effects["effects"]]
assert sizes == sorted(sizes, reverse=True)
leaks = next(effect for effect in effects["effects"] if effect["effect"] == "leaks")
for ours, path in ((effects["as_it_is"], sys.argv[3]), (leaks, sys.argv[4])):
    for key, low in (("", "tray_low_C"), ("air_", "air_low_C")):
        lows = [night[low] for night in json.load(open(path))["nights"]]
        # Each is rounded to three digits.
        assert abs(ours[key + "coldest_C"] - min(lows)) < 0.00101, key
        assert abs(ours[key + "mean_C"] - sum(lows) / len(lows)) < 0.00101, key
END

# Without trays the house air is the place.
sed '/^trays:/,/^crops:/{/^crops:/!d;}' "$dir/house.yaml" >"$dir/bare.yaml"
run_ok effects "$dir/bare.yaml" --from 03-02 --to 03-03
out_lacks "tray"
run_ok effects "$dir/bare.yaml" --from 03-02 --to 03-03 --output "$dir/file"
[ ! -s "$dir/out" ] || fail "--output, and yet something on standard output"
grep -q '^what matters most' "$dir/file" || fail "not in the file"
grep -q "^run " "$dir/err" && fail "progress shown to nobody"

run_bad effects "$dir/house.yaml" --json --csv
err_has "--json and --csv"
run_bad effects "$dir/house.yaml" --output "$dir/week.csv"
err_has "would write over"
run_bad effects "$dir/house.yaml" --from 05-01
err_has "not in the weather"
run_bad effects "$dir/house.yaml" --unit us
err_has "did you mean --units?"
run_bad efects "$dir/house.yaml"
err_has "did you mean 'dawnlow effects'?"
