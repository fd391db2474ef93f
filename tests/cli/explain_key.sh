# explain: every key that check shows can be looked up, and the table says the same as the reader.
. tests/support/small_nursery.sh

run_ok explain rock.mass
head -n 1 "$dir/out" | grep -qx 'rock.mass' || fail "another key"
out_has "kg"
out_has "default"
run_ok explain "glazing[roof].area"
head -n 1 "$dir/out" | grep -qx 'glazing.area' || fail "another key"
# As --set takes it: an item's name or its number between section and key.
for asked in "glazing.roof.area" "glazing.1.area" "glazing. south roof .area" "glazing.no. 2.area"; do
    run_ok explain "$asked"
    head -n 1 "$dir/out" | grep -qx 'glazing.area' || fail "another key for $asked"
done
run_ok explain "barrels.north row.count"
head -n 1 "$dir/out" | grep -qx 'barrels.count' || fail "another key"
for asked in "walls.north.layers.2.thickness" "walls[north].layers[2].thickness" "walls.layers.thickness"; do
    run_ok explain "$asked"
    head -n 1 "$dir/out" | grep -qx 'walls.layers.thickness' || fail "another key for $asked"
done
run_bad explain "barrels.north row.cuont"
err_has "did you mean barrels.count?"
run_bad explain "fan.1.on_at" # is no list
run_ok explain fan
[ "$(grep -c '^fan\.' "$dir/out")" -ge 5 ] || fail "not all keys of the fan"
run_ok explain area
grep -q '^glazing.area$' "$dir/out" || fail "area of the glazing is missing"
grep -q '^trays.area$' "$dir/out" || fail "area of the trays is missing"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"

run_ok explain
cut -d ' ' -f 1 "$dir/out" >"$dir/keys"
while IFS= read -r key; do
    run_ok explain "$key"
    grep -qx "$key" "$dir/out" || fail "explain $key shows something else"
    awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "$key: wider than 80 columns"
done <"$dir/keys"
[ "$(wc -l <"$dir/keys")" -gt 50 ] || fail "only $(wc -l <"$dir/keys") keys"

# A limit that explain prints is the limit that is enforced.
run_ok explain house.length
most=$(awk '$1 == "possible" { print $4 }' "$dir/out")
unit=$(awk '$1 == "possible" { print $5 }' "$dir/out")
run_bad check "$dir/house.yaml" --set "house.length=${most}1 $unit"
