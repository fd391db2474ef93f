# --from is the first evening, --to the last morning; the year may be left to the weather.
. tests/support/small_nursery.sh

evenings() { jq -r '[.nights[].evening] | join(" ")' "$dir/out"; }
run_ok nights "$dir/house.yaml" --json --from 03-02 --to 03-04
[ "$(evenings)" = "2026-03-02 2026-03-03" ] || fail "other nights: $(evenings)"
jq -e '.run.from == "2026-03-02T12:00:00+01:00" and .run.to == "2026-03-04T12:00:00+01:00"' \
    "$dir/out" >/dev/null || fail "not from noon to noon"
cp "$dir/out" "$dir/short"
run_ok nights "$dir/house.yaml" --json --from 2026-03-02 --to 2026-03-04
cmp -s "$dir/out" "$dir/short" || fail "the year changes the result"
run_ok nights "$dir/house.yaml" --json --from 03-06
[ "$(evenings)" = "2026-03-06 2026-03-07" ] || fail "other nights: $(evenings)"

# What came before: the days before --from as far as the weather reaches, the first days again and
# again for what is missing. The week begins on 1 March at 0 o'clock, a run at noon.
past() {
    run_ok nights "$dir/house.yaml" --json --set "start.spin_up=$1" --from "$2"
    jq -e ".run.lead_days == $3 and .run.spin_up_days == $4" "$dir/out" >/dev/null ||
        fail "another past: $(jq -c '.run | [.lead_days, .spin_up_days]' "$dir/out")"
    cp "$dir/out" "$dir/json"
    run_ok nights "$dir/house.yaml" --set "start.spin_up=$1" --from "$2"
    tr -s '\n ' '  ' <"$dir/out" | grep -qF "assumed: $5; estimated" || fail "not said: $5"
}
past "3 d" 03-06 3 0 "the house had lived through the 3 days of weather before"
past "3 d" 03-02 1 2 "the house had lived through the 1 day of weather before; before that, the first 3 days were repeated for 2 days"
past "3 d" 03-01 0 3 "the first 3 days were repeated for 3 days"
past "36 h" 03-06 1.5 0 "the house had lived through the 1.5 days of weather before"
past "0 d" 03-06 0 0 "nothing came before the first day"

# It gets colder from day to day. A house that lived through the milder days before is nearer to the
# one of the whole week than one that is taken to have had the last, coldest days all the time.
low() { jq '.nights[] | select(.evening == "2026-03-07").tray_low_C' "$1"; }
past "5 d" 03-07 5 0 "the house had lived through the 5 days of weather before"
lived=$(low "$dir/json")
run_ok nights "$dir/house.yaml" --json --set "start.spin_up=5 d"
whole=$(low "$dir/out")
awk -F, 'NR == 1 || $1 >= "2026-03-07T12"' "$dir/week.csv" >"$dir/end.csv"
run_ok nights "$dir/house.yaml" --json --set "start.spin_up=5 d" --weather "$dir/end.csv"
repeated=$(low "$dir/out")
awk -v w="$whole" -v l="$lived" -v r="$repeated" 'BEGIN { exit !(r < l && (l - w) ^ 2 < (r - w) ^ 2 / 4) }' ||
    fail "whole week $whole, days before lived through $lived, last days repeated $repeated"

run_bad nights "$dir/house.yaml" --from 03-04 --to 03-02
err_has "no night between --from and --to"
run_bad nights "$dir/house.yaml" --from 04-01
err_has "--from 04-01 is not in the weather"
err_has "from 2026-03-01 to 2026-03-09"
run_bad nights "$dir/house.yaml" --to 2025-03-04
err_has "--to 2025-03-04 is not in the weather"
run_bad nights "$dir/house.yaml" --from 2026-02-30
err_has "YYYY-MM-DD"
run_bad nights "$dir/house.yaml" --from 02.03.2026
err_has "YYYY-MM-DD"
