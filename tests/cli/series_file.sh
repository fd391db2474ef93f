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

# Means of the hour: as the minutes of that hour say; the fan's is the share of it that it ran.
run_ok nights "$dir/house.yaml" --series "$dir/means.csv" --step "1 h" --means --from 03-02 --to 03-04
run_ok nights "$dir/house.yaml" --series "$dir/minutes.csv" --step "1 min" --from 03-02 --to 03-04
[ "$(wc -l <"$dir/means.csv")" -eq 49 ] || fail "$(wc -l <"$dir/means.csv") means, not 48"
sed -n 2p "$dir/means.csv" | grep -q '^2026-03-02T13:00:00+01:00,' || fail "no stamp at its end"
tr -d '\r' <"$dir/minutes.csv" | LC_ALL=C awk -F, -v means="$dir/means.csv" '
    NR == 1 { columns = NF; next }
    { for (i = 2; i <= NF; i++) { sum[i] += $i - 0.5 * ((NR - 2) % 60 == 0 ? $i : 0)
          if (NR > 2 && (NR - 2) % 60 == 0) { mean[(NR - 2) / 60, i] = sum[i] / 60; sum[i] = $i / 2 } } }
    END { row = -1
        while ((getline line < means) > 0) { row++; sub("\r", "", line); split(line, got, ",")
            for (i = 2; row > 0 && i <= columns; i++) { d = got[i] - mean[row, i]
                if (d < 0) d = -d
                if (i < columns && d > worst) worst = d
                if (i == columns && d > fan) fan = d } }
        # Half a minute of the trapezoid over rows of 0.001 K; the fan switches within a minute.
        exit !(row == 48 && worst < 0.004 && fan < 0.026) }' || fail "a mean is not that of its minutes"

run_bad nights "$dir/house.yaml" --means
err_has "--means is for --series"
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
