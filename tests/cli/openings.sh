# Vents and doors: a closing hour keeps the evening's warmth, a ridge and a side opening together let
# out more than both alone, a forgotten vent costs the night.
. tests/support/small_nursery.sh

# The demo's weather: warm days, and nights that are not.
may="--weather weather/alder-hollow-spring.csv --from 05-10 --to 05-13"

# nursery OPENINGS: the small house with a list of openings.
nursery() {
    { cat "$dir/house.yaml"; printf '%s\n' "$1"; } >"$dir/open.yaml"
}
warmest() {
    run_ok nights "$dir/open.yaml" $may --series "$dir/air.csv" --step '30 min'
    col=$(head -n 1 "$dir/air.csv" | tr -d '\r' | tr , '\n' | grep -nx 'air_C' | cut -d : -f 1)
    [ -n "$col" ] || fail "no column of the air"
    tail -n +2 "$dir/air.csv" | cut -d , -f "$col" | sort -g | tail -n 1
}
low() {
    run_ok nights "$dir/open.yaml" $may --json
    jq '[.nights[].air_low_C] | min' "$dir/out"
}
less() { jq -en --argjson a "$1" --argjson b "$2" '$a < $b' >"$dir/less" || fail "$3: $1, $2"; }

ridge='  - name: flap
    area: 0.5 m2
    place: ridge
    opens_at: 15 C'
side='  - name: door
    area: 0.5 m2
    place: side
    opens_at: 15 C'
nursery ''
shut=$(warmest)
cold=$(low)
nursery "openings:
$ridge"
one=$(warmest)
nursery "openings:
$ridge
$side"
both=$(warmest)
nursery "openings:
$(printf '%s\n' "$ridge" | sed 's/0.5 m2/1 m2/')"
larger=$(warmest)
less "$one" "$shut" "an opening does not cool the day"
less "$both" "$larger" "ridge and side together pass no more than one of the same area"

# By the clock: open from noon to one in the night, or shut at three.
by_clock() { nursery "openings:
  - area: 0.4 m2
    place: side
    from: 12:00
    until: $1"; }
by_clock 01:00
late=$(low)
by_clock '3 pm'
early=$(low)
less "$late" "$early" "shutting early does not keep warmth"

# A flap that was forgotten, by --set.
nursery "openings:
$ridge"
run_ok nights "$dir/open.yaml" $may --json --set openings.flap.least_open=100%
less "$(jq '[.nights[].air_low_C] | min' "$dir/out")" "$cold" "a forgotten vent costs nothing"

# What cannot be meant.
nursery 'openings:
  - area: 1 m2
    place: side'
run_bad check "$dir/open.yaml" --weather weather/alder-hollow-spring.csv
err_has "nothing ever opens opening"
by_clock 12:00
run_bad check "$dir/open.yaml" --weather weather/alder-hollow-spring.csv
err_has "at the same time of day"
