# The scenario's own weather file is looked for beside the scenario, --weather from where one stands.
. tests/support/small_nursery.sh

mkdir "$dir/sub" "$dir/elsewhere"
sed 's|week.csv|../week.csv|' "$dir/house.yaml" >"$dir/sub/house.yaml"
run_ok nights "$dir/house.yaml" --csv
cp "$dir/out" "$dir/want"
cd "$dir/elsewhere" || exit 1
run_ok nights ../sub/house.yaml --csv
cmp -s "$dir/out" "$dir/want" || fail "another result"
run_bad nights ../sub/house.yaml --weather week.csv
run_ok nights ../sub/house.yaml --weather ../week.csv --csv
cmp -s "$dir/out" "$dir/want" || fail "another result"
cd "$dir" || exit 1
run_ok nights house.yaml --csv
cmp -s "$dir/out" "$dir/want" || fail "another result"
# A way down and up again is left out of what is shown, unless the folder is a link: from there ".."
# leads elsewhere.
run_ok check sub/house.yaml
head -n 1 out | grep -qx 'sub/house.yaml can be used with week.csv' || fail "the path is not short"
run_ok nights sub/house.yaml --json
jq -e '.weather.path == "week.csv"' out >/dev/null || fail "the path in JSON is not short"
sed 's|week.csv|../missing.csv|' house.yaml >sub/astray.yaml
run_bad nights sub/astray.yaml
grep -q '^missing.csv: error: ' err || fail "the path of what is missing is not short"
grep -q '^sub/astray.yaml:[0-9]*: note: the weather file is named here' err || fail "the line is not told"
mkdir far far/away
sed 's|week.csv|../week.csv|' house.yaml >far/away/house.yaml
sed 's/,[^,]*$/,0.0/; 1s/,0\.0$/,ghi (W\/m2)/' week.csv >far/week.csv
ln -s far/away link
run_ok check link/house.yaml
head -n 1 out | grep -qx 'link/house.yaml can be used with link/../week.csv' || fail "the link is not kept"
sed "s|week.csv|$dir/week.csv|" house.yaml >sub/absolute.yaml
run_ok nights sub/absolute.yaml --csv
cmp -s "$dir/out" "$dir/want" || fail "another result"
