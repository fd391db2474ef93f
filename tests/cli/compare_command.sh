# compare: only what differs, with the figures of nights; a kelvin's price; other weather is told.
. tests/support/small_nursery.sh

few="--from 03-02 --to 03-04"
sed 's/mass: 10 t/mass: 4 t/; s/name: Test house/name: Less rock/' "$dir/house.yaml" >"$dir/less.yaml"
# shellcheck disable=SC2086
run_ok compare "$dir/house.yaml" "$dir/less.yaml" --weather "$dir/week.csv" $few
head -n 1 "$dir/out" | grep -Eq '^(house|less) is warmest in its coldest night' || fail "no decision"
grep -Eq '^rock.mass  +10 t  +4 t$' "$dir/out" || fail "the mass is not told"
out_lacks "house.length"
out_lacks "stone_size"
grep -Eq '^to build, [A-Z]+ ' "$dir/out" || fail "no cost"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"

# shellcheck disable=SC2086
run_ok compare "$dir/house.yaml" "$dir/less.yaml" --weather "$dir/week.csv" $few --json -j 1
cp "$dir/out" "$dir/one.json"
# shellcheck disable=SC2086
run_ok compare "$dir/house.yaml" "$dir/less.yaml" --weather "$dir/week.csv" $few --json -j 2
cmp -s "$dir/out" "$dir/one.json" || fail "the number of threads shows"
# shellcheck disable=SC2086
run_ok nights "$dir/less.yaml" --weather "$dir/week.csv" $few --json
/usr/bin/python3 - "$dir" <<'PY' || fail "the figures are not those of nights"
import json, sys
made = json.load(open(sys.argv[1] + "/one.json"))
nights = json.load(open(sys.argv[1] + "/out"))["nights"]
less = made["nurseries"][1]
assert less["name"] == "less" and less["differs"] == {"rock.volume": less["differs"]["rock.volume"], "rock.mass": "4 t"}, less["differs"]
assert abs(less["results"]["coldest_C"] - min(n["tray_low_C"] for n in nights)) < 1e-9
assert made["nurseries"][0]["cost"] > less["cost"]
PY
# shellcheck disable=SC2086
run_ok compare "$dir/house.yaml" "$dir/less.yaml" --weather "$dir/week.csv" $few --csv
grep -q '^result,coldest_C,' "$dir/out" || fail "no results in the CSV"

# A part that one house lacks: its given values, not its defaults.
sed '/^rock:/,/mass:/d; /^fan:/,/power:/d' "$dir/house.yaml" >"$dir/bare.yaml"
# shellcheck disable=SC2086
run_ok compare "$dir/house.yaml" "$dir/bare.yaml" --weather "$dir/week.csv" $few
grep -Eq '^rock.mass  +10 t  +-$' "$dir/out" || fail "the lacking part is not told"
out_lacks "rock.density"

# Two skies.
sed 's/^\(2026-03-02T0[0-9]:00[^,]*\),[^,]*/\1,-12/' "$dir/week.csv" >"$dir/cold.csv"
if ! cmp -s "$dir/week.csv" "$dir/cold.csv"; then
    sed -i 's/file: week.csv/file: cold.csv/' "$dir/less.yaml"
    # shellcheck disable=SC2086
    run_ok compare "$dir/house.yaml" "$dir/less.yaml" $few
    err_has "under different weather"
else
    fail "the test's second weather is not another"
fi

run_bad compare "$dir/house.yaml"
err_has "SCENARIO SCENARIO..."
run_bad compare "$dir/house.yaml" "$dir/nothing.yaml" --weather "$dir/week.csv"
err_has "nothing.yaml"
run_bad compare "$dir/house.yaml" "$dir/less.yaml" --output "$dir/less.yaml"
err_has "write over"
exit 0
