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
sed "s|week.csv|$dir/week.csv|" house.yaml >sub/absolute.yaml
run_ok nights sub/absolute.yaml --csv
cmp -s "$dir/out" "$dir/want" || fail "another result"
