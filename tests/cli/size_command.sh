# size: what to build comes first; nights holds it to its word; wrong plans are told apart.
. tests/support/small_nursery.sh

size() { run_ok size scenarios/alder-hollow.yaml --from 03-12 --to 03-13 --set "start.spin_up=3 d" --vary "barrels=0..4" --goal "-1 C at air, never" "$@"; }
size
tr -s '\n ' ' ' <"$dir/out" | grep -Eq '^(build |nothing that may be varied holds this)' || fail "no decision"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
out_has "how it was found"
# Inside what is usually built (Mazria 1979, from memory; common practice), or why not.
grep -q '^rock, m3 for each m2 of glazing to the sun .* 0.25-0.45 ' "$dir/out" || fail "nothing beside the usual rock"
grep -q '^air, m3/h for each m2 of floor .* 30-75 ' "$dir/out" || fail "nothing beside the usual air"
! grep -Eq '(less|more) than usual$' "$dir/out" || grep -q '^why: ' "$dir/out" || fail "unusual, and no reason"
tr -s '\n ' ' ' <"$dir/out" | grep -q "licensed engineer" || fail "no caution"
size --json -j 1
cp "$dir/out" "$dir/one.json"
size --json -j 2
cmp -s "$dir/out" "$dir/one.json" || fail "the number of threads shows"
/usr/bin/python3 - "$dir/one.json" "$DAWNLOW" <<'END' || fail "nights does not hold it"
import json, subprocess, sys
ours = json.load(open(sys.argv[1]))
answer = ours["answer"] if ours["met"] else ours["nearest"]
command = [sys.argv[2], "nights", "scenarios/alder-hollow.yaml", "--from", "03-12", "--to", "03-13", "--json", "--set", "start.spin_up=3 d"]
for setting in answer["set"]:
    command += ["--set", setting]
nights = json.loads(subprocess.run(command, check=True, capture_output=True).stdout)["nights"]
assert abs(min(night["air_low_C"] for night in nights) - answer["low_C"]) < 0.0011
assert ours["met"] == (answer["low_C"] >= -1)
END
# Three springs: how sure, by a fit to their coldest nights.
mkdir "$dir/springs"
for k in 1 2 3; do
    awk -F, -v OFS=, -v k="$k" '/^[0-9]/ { $2 += 0.7 * k } 1' weather/alder-hollow-spring.csv >"$dir/springs/$k.csv"
done
size --weather "$dir/springs"
tr -s '\n ' ' ' <"$dir/out" | grep -Eq 'by the coldest night of each of 3 springs, 1 spring in 10 goes below .*give or take .*; Gumbel.*fewer than ten springs are weak' ||
    fail "how sure is not told"
# The curve's band is the same guess: the level of one spring in ten and its error either way.
size --weather "$dir/springs" --json
/usr/bin/python3 - "$dir/out" <<'END' || fail "the band is not how sure it is"
import json, sys
ours = json.load(open(sys.argv[1]))
sure, answer = ours["how_sure"], ours["answer"] if ours["met"] else ours["nearest"]
assert ours["band"]["one_in_years"] == 10 and ours["band"]["years"] == 3
assert abs(answer["band_low_C"] + sure["one_in_10_years_error_K"] - sure["one_in_10_years_C"]) < 0.0021
assert abs(answer["band_high_C"] - sure["one_in_10_years_error_K"] - sure["one_in_10_years_C"]) < 0.0021
assert sure["one_in_10_years_error_K"] > 0.1 and all(design["band_low_C"] < design["band_high_C"] for design in ours["curve"])
END
mkdir "$dir/nothing"
wrong() { run_bad size scenarios/alder-hollow.yaml "$@" --output "$dir/none"; [ ! -e "$dir/none" ] || fail "something was written"; }
wrong --goal "warm"
err_has "neither a temperature at a place nor a crop"
wrong --vary "gravel"
err_has "nothing of that name can be varied"
wrong --vary "rock=20..4 t"
err_has "the range is empty"
wrong --vary ""
err_has "there is nothing in it"
wrong --goal "0 C at trays" --weather "$dir/nothing"
err_has "there is no weather year"
wrong --budget -5
err_has "budget"
run_bad size scenarios/film-tunnel.yaml --vary rock --weather weather/alder-hollow-spring.csv
err_has "needs sections 'rock:' and 'fan:'"
run_bad size scenarios/film-tunnel.yaml
err_has "weather"

# Spells may be colder to a nursery than all the weather: what comes nearest by them is an answer all
# the same where all the weather holds the line.
run_ok size scenarios/alder-hollow.yaml --from 03-12 --to 03-14 --set "start.spin_up=3 d" \
    --vary "barrels=6..8" --goal "0.1 C at leaves, never" --json --quiet
cp "$dir/out" "$dir/spell.json"
/usr/bin/python3 - "$dir/spell.json" "$DAWNLOW" <<'END' || fail "an answer is called none, or its band holds other nights"
import json, subprocess, sys
ours = json.load(open(sys.argv[1]))
answer = ours["answer"] if ours["met"] else ours["nearest"]
assert ours["met"] == (answer["slack_K"] >= 0), ours["decision"]
# One season: the band goes from the coldest night to the third, or the last there is.
design = ours["curve"][-1]
command = [sys.argv[2], "nights", "scenarios/alder-hollow.yaml", "--from", "03-12", "--to", "03-14", "--json", "--set", "start.spin_up=3 d"]
for setting in design["set"]:
    command += ["--set", setting]
nights = json.loads(subprocess.run(command, check=True, capture_output=True).stdout)["nights"]
lows = sorted(night["leaf_low_C"] for night in nights)
assert ours["band"] == {"of": "coldest nights", "nights": 3} and len(lows) > 1
assert abs(design["band_low_C"] - lows[0]) < 0.03 and abs(design["band_high_C"] - lows[-1]) < 0.03 and lows[-1] - lows[0] > 0.1, (design, lows)
END
