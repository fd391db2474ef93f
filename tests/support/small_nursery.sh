# Read in by shell cases. Makes an invented house and an invented week of weather in an empty folder
# of its own, and says why a case fails.
#   $dir       the folder: house.yaml, week.csv
#   run ARGS   runs the program; $dir/out, $dir/err and $status hold what came of it
#   fail WHY   ends the case

DAWNLOW=${DAWNLOW:-build/dawnlow}
case $DAWNLOW in /*) ;; *) DAWNLOW=$PWD/$DAWNLOW ;; esac
dir=$(mktemp -d) || exit 1
trap 'rm -rf "$dir"' EXIT

fail() {
    echo "$*"
    [ -s "$dir/err" ] && sed 's/^/  stderr: /' "$dir/err" | head -n 20
    [ -s "$dir/out" ] && sed 's/^/  stdout: /' "$dir/out" | head -n 20
    exit 1
}

run() {
    status=0
    "$DAWNLOW" "$@" >"$dir/out" 2>"$dir/err" || status=$?
}

# run_ok ARGS: must end with 0. run_bad ARGS: must end with 2, with nothing on standard output.
run_ok() {
    run "$@"
    [ "$status" -eq 0 ] || fail "exit status $status, not 0: $*"
}
run_bad() {
    run "$@"
    [ "$status" -eq 2 ] || fail "exit status $status, not 2: $*"
    [ ! -s "$dir/out" ] || fail "a mistake, and yet a result: $*"
}

# out_has TEXT, err_has TEXT: fixed strings.
out_has() { grep -qF -e "$1" "$dir/out" || fail "no '$1' on standard output"; }
out_lacks() { ! grep -qF -e "$1" "$dir/out" || fail "there is '$1' on standard output"; }
err_has() { grep -qF -e "$1" "$dir/err" || fail "no '$1' on standard error"; }

# The nurseries that are shipped, as scenarios/README.md lists them: a grower's own may lie beside
# them.
shipped() { sed -n 's#^| `\([a-z-]*\.yaml\)` |.*#scenarios/\1#p' scenarios/README.md; }

cat >"$dir/house.yaml" <<'END'
dawnlow: 1
name: Test house
site:
  latitude: 47.5 N
  longitude: 8.5 E
  elevation: 450 m
  utc_offset: +1 h
house:
  length: 8 m
  width: 5 m
  height: 2.5 m
  air_changes: 1 /h
glazing:
  - name: roof
    area: 45 m2
    slope: 30 deg
    azimuth: S
    type: twinwall-8mm
  - name: ends
    area: 30 m2
    slope: 90 deg
    azimuth: S
    type: twinwall-8mm
bed:
  area: 12 m2
  depth: 30 cm
rock:
  mass: 10 t
fan:
  flow: 900 m3/h
  power: 80 W
barrels:
  - count: 4
    volume: 200 L
trays:
  area: 10 m2
crops:
  - name: tomato
    damage_below: 2 C
weather:
  file: week.csv
start:
  spin_up: 3 d
END

# Cold nights and dull days, colder from day to day: a cosine around -3 C and below, lowest at 6
# o'clock, and half a sine of sunlight from 7 to 18 o'clock.
LC_ALL=C awk 'BEGIN {
    print "time,air temperature (C),dew point (C),wind speed (m/s),cloud cover (%),ghi (W/m2)"
    pi = atan2(0, -1)
    for (h = 0; h <= 8 * 24; h++) {
        day = int(h / 24) + 1; hour = h % 24
        air = -3 - 0.8 * (day - 1) - 6 * cos(2 * pi * (hour - 6) / 24)
        light = hour > 7 && hour <= 18 ? 120 * sin(pi * (hour - 7.5) / 11) : 0
        printf "2026-03-%02dT%02d:00+01:00,%.2f,%.2f,%.1f,%d,%.1f\n",
            day, hour, air, air - 3, 1.5, 50, light
    }
}' >"$dir/week.csv"
