#!/bin/sh
# All of the bench, one part after another: shows every figure and writes them as bench.csv into the
# build folder. It judges nothing: the figures belong to the machine they were taken on, which should
# have nothing else to do. Usage: run_bench.sh [PART...], from the top of the tree, after a build.
#
# How it is measured: by the clock on the wall, on one core unless it says otherwise. What is compared
# takes turns, and of each the smallest time counts (race.h). Nurseries and weather are those that are
# shipped, each at its own place; a year is the demo's 120 days to and fro (lay_years.py). A
# nursery-year is a year of weather lived through by one nursery, the spin-up included.
set -u
build=${BUILD:-build}
here=tests/bench
folder=$build/bench
mkdir -p "$folder"

DAWNLOW=$build/dawnlow
DAWNLOW_BENCH_CSV=$build/bench.csv
DAWNLOW_BENCH_YEAR=$folder/year.csv
PYTHONDONTWRITEBYTECODE=1
export DAWNLOW DAWNLOW_BENCH_CSV DAWNLOW_BENCH_YEAR PYTHONDONTWRITEBYTECODE

about() {
    printf '%s,%s,,"%s"\n' "$1" "$2" "$3" >> "$DAWNLOW_BENCH_CSV"
}

echo "key,value,unit,what" > "$DAWNLOW_BENCH_CSV"
processor=$(sed -n 's/^model name[^:]*: *//p' /proc/cpuinfo 2>/dev/null | head -n 1 | tr -d ',"')
about machine.processor "${processor:-unknown}" "processor ($(uname -m))"
about machine.cores "$(getconf _NPROCESSORS_ONLN)" "cores at hand"
about machine.compiler "$(${CC:-gcc} --version | head -n 1 | tr -d ',"') ${CFLAGS:-}" "compiler and its flags"
about machine.date "$(date +%Y-%m-%d)" "date"
about machine.version "$("$DAWNLOW" --version | head -n 1 | tr -d ',"')" "version"

/usr/bin/python3 $here/lay_years.py weather/alder-hollow-spring.csv 365 > "$DAWNLOW_BENCH_YEAR" || exit 1
begun=$(date +%s)
bad=0
[ $# -gt 0 ] || set -- start seasons engines lows limit studies growth scipy
for part in "$@"; do
    echo "$part"
    case $part in
    scipy) /usr/bin/python3 $here/scipy_peers.py || bad=1 ;;
    *) "$build/$here/bench_$part" || bad=1 ;;
    esac
done
about machine.took "$(($(date +%s) - begun))" "seconds the bench took"
echo "also in $DAWNLOW_BENCH_CSV; to keep it:"
echo "    cp $DAWNLOW_BENCH_CSV $here/results.csv && $here/readme_table.py --write"
exit $bad
