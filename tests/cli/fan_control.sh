# A fan that runs at least so long starts less often; a thermostat in the sun starts the fan early.
spring="scenarios/alder-hollow.yaml --from 03-08 --to 03-12"
. tests/support/small_nursery.sh

# What a minute by minute series tells of the fan: how often it starts, how long it runs, its first
# minute, its shortest run.
of_fan() { tail -n +2 "$2" | tr -d '\r' | awk -F, -v c="$column" "$1"; }
starts() { of_fan '$c == 1 && was == 0 { n++ } { was = $c } END { print n + 0 }' "$1"; }
runs() { of_fan '$c == 1 { n++ } END { print n + 0 }' "$1"; }
first() { of_fan '$c == 1 { print NR; exit }' "$1"; }
shortest() {
    of_fan '$c == 1 { n++ } $c == 0 && n > 0 { if (least == "" || n < least) least = n; n = 0 }
        END { print least + 0 }' "$1"
}
series() {
    to=$dir/$1.csv
    shift
    # shellcheck disable=SC2086
    run_ok nights $spring --series "$to" --step '1 min' "$@"
    column=$(head -n 1 "$to" | tr -d '\r' | tr , '\n' | grep -nx fan_on | cut -d : -f 1)
    [ -n "$column" ] || fail "no column of the fan"
}
quick='fan.off_at=19.5 C'
series plain --set "$quick" --set 'fan.sensor_lag=1 min'
series least --set "$quick" --set 'fan.least_run=90 min'
[ "$(shortest "$dir/least.csv")" -ge 89 ] || fail "a run shorter than 90 minutes"
[ "$(shortest "$dir/plain.csv")" -lt 89 ] || fail "the fan runs so long anyway"
[ "$(starts "$dir/least.csv")" -le "$(starts "$dir/plain.csv")" ] ||
    fail "with a least run the fan starts more often"

# Day runs only: a bulb in the sun believes in warmth before there is any.
day="--set fan.night_on_at=never --set fan.night_off_at=never"
# shellcheck disable=SC2086
series shade $day
# shellcheck disable=SC2086
series sun $day --set fan.sensor_sun=100%
[ "$(first "$dir/sun.csv")" -lt "$(first "$dir/shade.csv")" ] || fail "a sunlit bulb starts no earlier"
[ "$(runs "$dir/sun.csv")" -gt "$(runs "$dir/shade.csv")" ] || fail "a sunlit bulb runs no longer"
# shellcheck disable=SC2086
run_ok effects $spring --csv --set fan.sensor_sun=50%
out_has "sensor_sun,sun on the thermostat"
# shellcheck disable=SC2086
run_bad check scenarios/alder-hollow.yaml --set fan.sensor_sun=50% --set fan.senses=bed
err_has "stands in no sun"

# The night run the other way: an effect of its own, told as what it is.
# shellcheck disable=SC2086
run_ok effects $spring --csv --set fan.night_way=reversed --set fan.senses=air
out_has "night_way,the night run's reversed air"
run_ok check scenarios/alder-hollow.yaml --set fan.night_way=reversed
err_has "where the thermostat hangs"
