# show: figures a heating engineer would come to, computed here by hand, in both units; a sketch in
# 80 columns; every value that check shows.
. tests/support/small_nursery.sh

run_ok show "$dir/house.yaml"
awk '/^Key /{ exit } length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
LC_ALL=C grep -q '[^ -~]' "$dir/out" && fail "not plain ASCII in a pipe"
for mark in '/' '=' 'BB' 'o o' '::'; do out_has "$mark"; done
# 75 m2 of twin-wall: 0.156 + 0.14 m2K/W. 100 m3 of air at 1 /h: 100 1.2 1.006 / 3.6. 10 t of stone
# of 820 J/kgK; 800 L of water at 95 % and 72 kg of steel, all over 3.6e6 J/kWh.
figure() { # TITLE VALUE DECIMALS: the row of that title shows that number
    want=$(LC_ALL=C awk -v v="$2" -v d="$3" 'BEGIN { printf "%.*f", d, v }')
    grep -qE "^ +$1 +$want +[0-9]+ %$" "$dir/out" || fail "$1 is not $want"
}
figure glazing "$(awk 'BEGIN { print 75 / 0.296 }')" 0
figure leaks "$(awk 'BEGIN { print 100 * 1.2 * 1.006 / 3.6 }')" 0
figure rock "$(awk 'BEGIN { print 10000 * 820 / 3.6e6 }')" 2
figure barrels "$(awk 'BEGIN { print (760 * 4186 + 72 * 480) / 3.6e6 }')" 2
figure "bed soil" "$(awk 'BEGIN { print 12 * 0.3 * 2.3e6 / 3.6e6 }')" 2
out_has "rock      10.0 t on 12.0 m2: 833 kg/m2"
out_has "ask a licensed engineer"
out_has "never stacked"
grep -Eq '^rock\.mass +10 t +yours, line 28$' "$dir/out" || fail "values are missing"

# The same house in US units: 1 W/K is 1.8956 Btu/h F, 1 kg/m2 is 0.2048 lb/sq ft.
run_ok show "$dir/house.yaml" --units us
figure glazing "$(awk 'BEGIN { print 75 / 0.296 * 3600 / 1055.05585262 / 1.8 }')" 0
out_has "129 sq ft: 171 lb/sq ft"

# Leaks told by a word weigh as its rate, leaky 1.75 /h.
run_ok show "$dir/house.yaml" --set house.leakage=leaky
figure leaks "$(awk 'BEGIN { print 1.75 * 100 * 1.2 * 1.006 / 3.6 }')" 0
grep -Eq '^house\.air_changes +1\.75 /h \(from leakage\)' "$dir/out" || fail "leaks as told by a word"
grep -Eq '^house\.fan_test +not measured' "$dir/out" || fail "a fan test nobody made"

# 20 cm of settled snow, 200 kg/m3, on the roof.
run_ok show "$dir/house.yaml" --set "snow.+big.from=02-03" --set "snow.+big.depth=20 cm" \
    --set "snow.+big.density=200 kg/m3"
out_has "Weight on the roof"
out_has "40 kg/m2"
out_has "engineer to say"

# JSON holds the same figures, with and without rock.
run_ok show "$dir/house.yaml" --json
jq -e '.figures.rock_kg == 10000 and .figures.glazed_m2 == 75 and (.values | length) > 60' \
    "$dir/out" >/dev/null || fail "other JSON"
run_ok show scenarios/film-tunnel.yaml
out_lacks "Weight on the ground"
for scenario in $(shipped); do
    run_ok show "$scenario"
done
# Bare sizes at their ends do not break the picture.
for size in "house.width=0.5 m" "house.width=100 m" "house.height=15 m" "house.height=0.3 m"; do
    run_ok show "$dir/house.yaml" --set "$size" --set "barrels.1.count=1" --set "trays.area=0.1 m2" \
        --set "bed.area=0.1 m2"
    awk '/^Key /{ exit } length($0) > 80 { exit 1 }' "$dir/out" || fail "$size: too wide"
done
run_bad show "$dir/nowhere.yaml"
