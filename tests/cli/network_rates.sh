# network --rates: a record a state and part, after RFC 4180, the same for the same seed. That the
# figures are right is for tests/outside/network_rates.py.
. tests/support/small_nursery.sh

rates() { run_ok network "$dir/house.yaml" --rates "$@"; }
run_ok network "$dir/house.yaml" --json
parts=$(jq '.nodes | length' "$dir/out")

rates --states 4 --seed 7
[ "$(head -n 1 "$dir/out" | tr -d '\r')" = "sample,time,fan_on,node,y_C,temperature_C,rate_K_s" ] || fail "heading"
[ "$(wc -l <"$dir/out")" -eq $((4 * parts + 1)) ] || fail "not 4 times $parts records"
[ "$(grep -c "$(printf '\r')\$" "$dir/out")" -eq $((4 * parts + 1)) ] || fail "lines do not end in CR LF"
tail -n +2 "$dir/out" | cut -d, -f1,3 | sort -u | tr '\n' ' ' >"$dir/fan"
[ "$(cat "$dir/fan")" = "1,0 2,1 3,0 4,1 " ] || fail "the fan is not off and on in turn"
[ "$(tail -n +2 "$dir/out" | cut -d, -f2 | sort -u | wc -l)" -eq 4 ] || fail "not four moments"
cp "$dir/out" "$dir/first"
rates --states 4 --seed 7
cmp -s "$dir/out" "$dir/first" || fail "the same seed, and yet other states"
rates --states 4 --seed 8
cmp -s "$dir/out" "$dir/first" && fail "another seed, and yet the same states"

# 06:30 by the house's clock is 05:30 UTC.
rates --states 2 --at 2026-03-04T06:30 --fan-on
[ "$(tail -n +2 "$dir/out" | cut -d, -f2,3 | sort -u)" = "2026-03-04T05:30:00+00:00,1" ] || fail "not then, fan on"
rates --no-fan --states 2
tail -n +2 "$dir/out" | cut -d, -f3 | grep -q 1 && fail "no fan, and yet on"

bad() { run_bad network "$dir/house.yaml" "$@"; }
bad --states 4
err_has "add --rates"
bad --rates --json
err_has "--rates and --json"
bad --rates --fan-on --no-fan
err_has "--fan-on and --no-fan"
bad --rates --states 0
err_has "outside what is possible (1 to 10000)"
bad --rates --states 2.5
err_has "--states takes a whole number, not '2.5'"
bad --rates --seed x
err_has "--seed takes a whole number"
bad --rates --at 2026-05-01T06:00
err_has "--at 2026-05-01T06:00 is not in the weather"
bad --rates --at 06:30
err_has "YYYY-MM-DDTHH:MM"
bad --rates --at 2026-03-04T24:00
err_has "YYYY-MM-DDTHH:MM"
bad --rate
err_has "did you mean --rates?"
sed '/^fan:/,/^barrels:/{/^barrels:/!d;}' "$dir/house.yaml" >"$dir/still.yaml"
run_bad network "$dir/still.yaml" --rates --fan-on
err_has "no fan that could run"
