# worth: what is worth its money comes first, alike as text, CSV and JSON; nights keeps the promise.
. tests/support/small_nursery.sh

worth() { run_ok worth "$dir/house.yaml" --from 03-02 --to 03-04 "$@"; }
worth
tr -s '\n ' ' ' <"$dir/out" | grep -Eq '^(most for the money: |no single improvement)' || fail "no decision"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
out_has "measure next: "
out_has "1 more barrel"
out_has "halve the leaks"
tr -s '\n ' ' ' <"$dir/out" | grep -q "shore a trench" || fail "no word of care"
worth --units us --set prices.currency=USD
out_has "USD"
out_has " F for "
worth --json -j 1
cp "$dir/out" "$dir/one.json"
worth --json -j 2
cmp -s "$dir/out" "$dir/one.json" || fail "the number of threads shows"
worth --csv
cp "$dir/out" "$dir/rows.csv"
/usr/bin/python3 - "$dir/one.json" "$dir/rows.csv" "$DAWNLOW" "$dir/house.yaml" <<'END' || fail "they differ"
import csv, json, subprocess, sys
ours = json.load(open(sys.argv[1]))
rows = list(csv.DictReader(open(sys.argv[2], newline="")))
assert [row["key"] for row in rows[1:]] == [way["improvement"] for way in ours["improvements"]] + [guess["guess"] for guess in ours["guesses"]]
best = ours["improvements"][0]
command = [sys.argv[3], "nights", sys.argv[4], "--from", "03-02", "--to", "03-04", "--json"]
for setting in best["set"]:
    command += ["--set", setting]
nights = json.loads(subprocess.run(command, check=True, capture_output=True).stdout)["nights"]
assert abs(min(night["air_low_C"] for night in nights) - best["lows"]["air_coldest_C"]) < 0.02  # what the fast engine promises
assert ours["improvements"][0]["gain_K"] > 0
END
# A bare tunnel has room for barrels and covers too.
run_ok worth scenarios/film-tunnel.yaml --weather weather/alder-hollow-spring.csv --from 03-12 --to 03-13 --set "start.spin_up=3 d"
out_has "1 more barrel"
out_lacks "more rock"
run_bad worth "$dir/house.yaml" --from 05-01
err_has "not in the weather"
run_bad worth "$dir/house.yaml" --line "2 m"
err_has "temperature"
