# --output: the result as a file, whole or not at all; inputs are never written over.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml" --json
cp "$dir/out" "$dir/want"
run_ok nights "$dir/house.yaml" --json --output "$dir/result.json"
[ ! -s "$dir/out" ] || fail "something on standard output as well"
cmp -s "$dir/result.json" "$dir/want" || fail "the file differs from standard output"

# A mistake leaves the old result as it was.
run_bad nights "$dir/house.yaml" --output "$dir/result.json" --set "rock.mass=much"
cmp -s "$dir/result.json" "$dir/want" || fail "a mistake changed the file"
run_bad nights "$dir/house.yaml" --output "$dir/new" --explain 07-07
[ ! -e "$dir/new" ] || fail "a file after a mistake"

cp "$dir/house.yaml" "$dir/kept.yaml"
run_bad nights "$dir/house.yaml" --output "$dir/house.yaml"
err_has "would write over"
run_bad nights "$dir/house.yaml" --output "$dir/week.csv"
err_has "would write over"
run_bad nights "$dir/house.yaml" --series "$dir/../$(basename "$dir")/week.csv"
err_has "would write over"
cmp -s "$dir/house.yaml" "$dir/kept.yaml" || fail "the scenario was changed"
run_bad nights "$dir/house.yaml" --output "$dir"
run_bad nights "$dir/house.yaml" --output "$dir/nowhere/x"
err_has "folder"
left=$(find "$dir" -name '*.part')
[ -z "$left" ] || fail "left behind: $left"
