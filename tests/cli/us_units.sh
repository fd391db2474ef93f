# --units us: the same run in Fahrenheit. F = 1.8 C + 32 (NIST SP 811, B.8, from memory); kWh stays.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml" --json
low_F=$(jq -r '[.nights[].tray_low_C] | min | . * 1.8 + 32 | . * 10 | round / 10' "$dir/out")
rock=$(jq -r '.nights[0].barrels_kWh * 10 | round / 10' "$dir/out")
run_ok nights "$dir/house.yaml" --units us
head -n 1 "$dir/out" | grep -q "below 32 F at the trays; .* Mar, $low_F F at " ||
    fail "the lowest is not $low_F F"
out_has "where tomato is damaged"
out_has "35.6 F" # 2 C
out_has "kWh"
out_lacks " C "
grep '^Sun 1-2 Mar' "$dir/out" | grep -q " $rock " || fail "kWh were changed: $rock is missing"
run_ok nights "$dir/house.yaml" --units metric
out_lacks " F "
run_ok weather "$dir/week.csv" --units us --latitude 47.5 --longitude 8.5
grep -q '^air .* F, mean' "$dir/out" || fail "no Fahrenheit"
run_bad nights "$dir/house.yaml" --units imperial
err_has "metric|us"
