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

# The weather may be named as the other commands want it, but not twice.
run_ok check "$dir/house.yaml" "$dir/week.csv"
cp "$dir/out" "$dir/want"
run_ok check "$dir/house.yaml" --weather "$dir/week.csv"
cmp -s "$dir/out" "$dir/want" || fail "--weather says something else"
run_bad check "$dir/house.yaml" "$dir/week.csv" --weather "$dir/week.csv"
err_has "named twice"

# Rock that no fan feeds is warned of, and only that.
sed '/^fan:/,/^barrels:/{/^barrels:/!d;}' "$dir/house.yaml" >"$dir/still.yaml"
run_ok check "$dir/still.yaml"
grep -q 'still\.yaml:27:1: warning: rock without a fan stores little: ' "$dir/err" || fail "no warning"
head -n 1 "$dir/out" | grep -q '1 warning to look at$' || fail "the warning is not counted"
run_ok check "$dir/house.yaml"
! grep -q warning "$dir/err" || fail "a warning of a house in order"

# The night run is switched off by both of its temperatures.
night="--set fan.night_on_at=6C --set fan.night_off_at=8C"
# Word splitting is wanted.
# shellcheck disable=SC2086
run_ok check "$dir/house.yaml" $night
# shellcheck disable=SC2086
run_bad check "$dir/house.yaml" $night --set fan.night_on_at=never
err_has "night_off_at is 8 C, but night_on_at is never"
err_has "hint: set both to never"
# shellcheck disable=SC2086
run_ok check "$dir/house.yaml" $night --set fan.night_on_at=never --set fan.night_off_at=never

# Without any weather the scenario alone is looked over.
sed '/^weather:/,/^start:/{/^start:/!d;}' "$dir/house.yaml" >"$dir/bare.yaml"
run_ok check "$dir/bare.yaml"
head -n 1 "$dir/out" | grep -q 'bare.yaml can be used$' || fail "no verdict"

# Every shipped scenario passes; a file that one names beside its folder is shown without the way
# down and up again.
for scenario in $(shipped); do
    run_ok check "$scenario"
    out_lacks "/../"
done
[ "$(shipped | wc -l)" -ge 4 ] || fail "scenarios/README.md lists only $(shipped | wc -l)"
