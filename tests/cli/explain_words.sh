# explain tells words of the reports and what a message means, copied from the screen or in part; a
# key goes before a word.
. tests/support/small_nursery.sh

run_ok explain "touch and go"
head -n 1 "$dir/out" | grep -qx 'touch and go' || fail "another word"
run_ok explain Tray
out_has "turning to ice"
run_ok explain rock # is a section
[ "$(grep -c '^rock\.' "$dir/out")" -ge 8 ] || fail "not the keys of rock"
run_ok explain Rock # is a column
out_has "from dusk to dawn"
run check "$dir/house.yaml" weather/alder-hollow-spring.csv --set "site.longitude=60 W"
message=$(grep -F 'another sun' "$dir/err" | head -n 1)
[ -n "$message" ] || fail "no message to explain"
run_ok explain "$message"
out_has "west of Greenwich"
run_ok explain "no weather file"
out_has "dawnlow help weather"
run_bad explain "no such thing"
err_has "dawnlow help words"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
