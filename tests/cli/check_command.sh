# check: what was understood, and whether it is yours or a default.
. tests/support/small_nursery.sh

run_ok check "$dir/house.yaml"
head -n 1 "$dir/out" | grep -q "house.yaml can be used with .*week.csv" || fail "no verdict"
grep -Eq '^rock\.mass +10 t +yours, line 28$' "$dir/out" || fail "rock.mass is not yours"
grep -Eq '^fan\.on_at +.* default$' "$dir/out" || fail "fan.on_at is not a default"
grep -q '^hours  *193' "$dir/out" || fail "the weather is not shown"
run_ok check "$dir/house.yaml" "$dir/week.csv" --units us
grep -q '^air .* F' "$dir/out" || fail "no Fahrenheit"
run_bad check "$dir/house.yaml" "$dir/nowhere.csv"
err_has "nowhere.csv"

# Without any weather the scenario alone is looked over.
sed '/^weather:/,/^start:/{/^start:/!d;}' "$dir/house.yaml" >"$dir/bare.yaml"
run_ok check "$dir/bare.yaml"
head -n 1 "$dir/out" | grep -q 'bare.yaml can be used$' || fail "no verdict"

# Every shipped scenario passes.
for scenario in scenarios/*.yaml; do
    run_ok check "$scenario"
done
