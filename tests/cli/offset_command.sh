# offset: what is put between two files comes out as keys that a scenario takes.
. tests/support/small_nursery.sh

LC_ALL=C awk -F, 'BEGIN { OFS = "," } /^#/ { print; next } /^time/ { print "time,temperature (C)"; next }
    { printf "%s,%.2f\n", $1, $2 - 2.5 }' weather/alder-hollow-spring.csv >"$dir/log.csv"
run_ok offset --mine "$dir/log.csv" --station weather/alder-hollow-spring.csv
out_has "your nights are 2.5 K colder than the station's, 2.5 K to 2.5 K, in 119 nights"
out_has "  offset: 2.5 K"
out_has "  offset_clear_calm: 0.0 K"
grep '^  offset' "$dir/out" >"$dir/keys"
run_ok offset --mine "$dir/log.csv" --station weather/alder-hollow-spring.csv --units us
out_has "  offset: 4.5 F"
run_ok offset --mine "$dir/log.csv" --station weather/alder-hollow-spring.csv --json
/usr/bin/python3 -c 'import json, sys; assert json.load(open(sys.argv[1]))["offset_K"] == 2.5' "$dir/out" || fail "not 2.5"

# The keys make the nights colder outdoors by just that, and are part of every run.
outside() {
    run_ok nights "$1" --from 03-02 --to 03-03 --json
    /usr/bin/python3 -c 'import json, sys; print(json.load(open(sys.argv[1]))["nights"][0]["outside_low_C"])' "$dir/out"
}
sed "/^  utc_offset/r $dir/keys" "$dir/house.yaml" >"$dir/hollow.yaml"
awk -v there="$(outside "$dir/house.yaml")" -v here="$(outside "$dir/hollow.yaml")" \
    'BEGIN { exit !(there - here > 2.499 && there - here < 2.501) }' || fail "not colder by 2.5 K"

run_bad offset --mine "$dir/log.csv"
err_has "both --mine and --station are needed"
sed '/2026-02-0[5-9]/,$d' "$dir/log.csv" >"$dir/short.csv"
run_bad offset --mine "$dir/short.csv" --station weather/alder-hollow-spring.csv
err_has "whole nights are both in it and in"
