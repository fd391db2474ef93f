# tonight: one screen, the same weather for every action, the cheapest that is enough marked.
. tests/support/small_nursery.sh

head -n 68 "$dir/week.csv" >"$dir/past.csv" # to 2026-03-03 18:00
{ head -n 1 "$dir/week.csv"; grep '^2026-03-0[3-5]' "$dir/week.csv"; } >"$dir/coming.csv"
# actions NAME...: the house with some of its actions, the same in every file otherwise.
actions() {
    file=$1
    shift
    {
        sed '/^weather:/,$d; s/damage_below: 2 C/damage_below: -1 C/' "$dir/house.yaml"
        echo "actions:"
        for name in "$@"; do
            echo "  - name: $name"
            case $name in
            heater) printf '    heater: 4000 W\n    cost: 9\n    at: 20:30\n' ;;
            stove) printf '    heater: 6000 W\n    cost: 12\n    work: 15 min\n' ;;
            fleece) printf '    cover: heavy-fleece\n    cover_layers: 2\n    work: 10 min\n' ;;
            jugs) printf '    hot_water: 200 L\n    hot_water_at: 90 C\n    cost: 2\n' ;;
            blower) printf '    fan: all night\n    vents: shut\n' ;;
            shed) printf '    carry_in: yes\n    work: 2 h\n' ;;
            esac
        done
        sed -n '/^weather:/,$p' "$dir/house.yaml"
    } >"$dir/$file"
}
night="--weather $dir/coming.csv --history $dir/past.csv --members 20"
actions all.yaml heater stove fleece jugs blower shed
# shellcheck disable=SC2086
run_ok tonight "$dir/all.yaml" $night
[ "$(wc -l <"$dir/out")" -le 40 ] || fail "more than 40 lines"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
out_has "hang an alarm thermometer"
out_has "carbon monoxide"
out_has "no water near"
out_has "if fan or power fails now:"
out_has "should read"
out_has "uncover: by"
grep -qiw "safe" "$dir/out" && fail "a chance called safe"
# shellcheck disable=SC2086
run_ok tonight "$dir/all.yaml" $night --json
cp "$dir/out" "$dir/all.json"
# shellcheck disable=SC2086
run_ok tonight "$dir/all.yaml" $night --json -j 1
cmp -s "$dir/out" "$dir/all.json" || fail "threads show"
# shellcheck disable=SC2086
run_ok tonight "$dir/all.yaml" $night --csv
cp "$dir/out" "$dir/all.csv"

# Each action run alone has the chance and the lows it has among the others.
alone=
for name in heater stove fleece jugs blower; do
    actions "$name.yaml" "$name"
    # shellcheck disable=SC2086
    run_ok tonight "$dir/$name.yaml" $night --json
    cp "$dir/out" "$dir/$name.json"
    alone="$alone $dir/$name.json"
done
# Doing nothing is what forecast says of that night.
# shellcheck disable=SC2086
run_ok forecast "$dir/all.yaml" $night --json
# shellcheck disable=SC2086
/usr/bin/python3 - "$dir/all.json" "$dir/all.csv" "$dir/out" $alone <<'END' || fail "they differ"
import csv, json, sys
told = json.load(open(sys.argv[1]))
rows = {row["action"]: row for row in told["actions"]}
assert len(rows) == 7 and rows["shed"]["carried_out"]
for path in sys.argv[4:]:
    other = json.load(open(path))
    for row in other["actions"]:
        assert row == rows[row["action"]], (path, row, rows[row["action"]])
    assert other["fan_fails"] == told["fan_fails"]
chances = [row["chance_harmed"] for row in told["actions"]]
assert chances == sorted(chances), chances
text = open(sys.argv[2], newline="").read()
assert text.count("\n") == text.count("\r\n")
for line, row in zip(csv.DictReader(text.splitlines()), told["actions"], strict=True):
    assert line["action"] == row["action"]
    assert float(line["chance_harmed"]) == row["chance_harmed"]
low = lambda name: rows[name]["leaf_low"]["middle_C"]
assert low("stove") > low("heater") > low("nothing")
assert low("jugs") > low("nothing")
enough = [row for row in told["actions"] if row["enough"]]
assert all(row["chance_harmed"] <= told["accepted_risk"] for row in enough)
least = min(enough, key=lambda row: (row["cost"], row["work_min"]))
assert told["least"] == least["action"], (told["least"], least["action"])
night = json.load(open(sys.argv[3]))["nights"][0]
nothing = rows["nothing"]
assert nothing["chance_harmed"] == night["chance_any_harmed"]
for ours, theirs in (("place_low", "tray_low"), ("leaf_low", "leaf_low")):
    for key in nothing[ours]:
        # The weather is cut off behind the night, which the ground below notices a little.
        assert abs(nothing[ours][key] - night[theirs][key]) < 0.2, (ours, key)
END

# shellcheck disable=SC2086
run tonight "$dir/all.yaml" $night --brief --fail-above 0
[ "$status" -eq 10 ] || fail "no alarm: $status"
[ "$(wc -l <"$dir/out")" -eq 1 ] || fail "not one line"
# shellcheck disable=SC2086
run_ok tonight "$dir/all.yaml" $night --brief --fail-above 100%
# shellcheck disable=SC2086
run_ok tonight "$dir/house.yaml" $night
out_has "list yours under actions:"

# Mistakes.
run_bad tonight "$dir/all.yaml" --weather "$dir/coming.csv" --at 2026-03-01T18:00
err_has "after now"
actions none.yaml idle
# shellcheck disable=SC2086
run_ok tonight "$dir/none.yaml" $night
err_has "it does nothing"
sed '/^rock:/,/mass/d; /^fan:/,/power/d' "$dir/blower.yaml" >"$dir/still.yaml"
run check "$dir/still.yaml"
err_has "there is no fan that blows through rock"

# Crops of the table need no line; others do.
run_ok crops
out_has "tomato"
run_ok crops --json
/usr/bin/python3 -c 'import json, sys; assert any(crop["name"] == "lettuce" and crop["damage_below_C"] == -1 for crop in json.load(open(sys.argv[1]))["crops"])' "$dir/out" || fail "no lettuce"
sed 's/^    damage_below: 2 C//; s/name: tomato/name: lettuce/' "$dir/house.yaml" >"$dir/lettuce.yaml"
run_ok nights "$dir/lettuce.yaml" --json
grep -q '"damage_below_C": -1.000' "$dir/out" || grep -q -- '-1.0*,*$' "$dir/out" || fail "not the table's line"
sed 's/lettuce/moonflower/' "$dir/lettuce.yaml" >"$dir/moon.yaml"
run_bad check "$dir/moon.yaml"
err_has "the table of crops does not know it"
