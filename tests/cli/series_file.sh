# --series: all temperatures, step by step, and never a half file.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml" --series "$dir/series.csv" --step "1 h" --from 03-02 --to 03-04
head -n 1 "$dir/out" | grep -q 'of 2 nights' || fail "the report is missing"
head -n 1 "$dir/series.csv" | grep -q '^time,outside_C,.*,fan_on' || fail "no heading"
# Noon to noon over two days: 48 hours and both ends.
[ "$(wc -l <"$dir/series.csv")" -eq 50 ] || fail "$(wc -l <"$dir/series.csv") lines, not 50"
sed -n 2p "$dir/series.csv" | grep -q '^2026-03-02T12:00:00+01:00,' || fail "does not start at noon"
tail -n 1 "$dir/series.csv" | grep -q '^2026-03-04T12:00:00+01:00,' || fail "does not end at noon"
awk -F, 'NR == 1 { n = NF } NF != n { exit 1 }' "$dir/series.csv" || fail "records differ in length"

# Outdoor air at a whole hour is what the weather file says: 2 March 12:00 is row 36 behind the heading.
want=$(awk -F, 'NR == 38 { print $2 }' "$dir/week.csv")
got=$(sed -n 2p "$dir/series.csv" | cut -d , -f 2)
awk -v a="$want" -v b="$got" 'BEGIN { exit !(a - b < 0.0006 && b - a < 0.0006) }' ||
    fail "outside $got, the file says $want"

run_ok nights "$dir/house.yaml" --series "$dir/usual.csv" --from 03-02 --to 03-04
[ "$(wc -l <"$dir/usual.csv")" -eq 290 ] || fail "not a row every ten minutes"

run_bad nights "$dir/house.yaml" --step "1 h"
err_has "--series"
run_bad nights "$dir/house.yaml" --series "$dir/x" --output "$dir/./x"
err_has "--series and --output are one file"
run_bad nights "$dir/house.yaml" --series "$dir/none/x"
[ ! -e "$dir/x" ] || fail "a file after a mistake"
run_bad nights "$dir/house.yaml" --series "$dir/x" --step 10
err_has "unit"
run_bad nights "$dir/house.yaml" --series "$dir/x" --explain 07-07
[ ! -e "$dir/x" ] || fail "a file after a mistake"
left=$(find "$dir" -name '*.part')
[ -z "$left" ] || fail "left behind: $left"
