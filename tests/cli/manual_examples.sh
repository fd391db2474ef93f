# Every example of dawnlow(1), which are those of --help too, runs as it stands, in a folder that has the
# files it names, and prints what the manual shows of it (tests/support/shown.sh).
. tests/support/small_nursery.sh
PATH=$dir/bin:$PATH
export PATH
mkdir "$dir/bin" "$dir/days" "$dir/month"
ln -s "$DAWNLOW" "$dir/bin/dawnlow"
season=$PWD/weather/alder-hollow-spring.csv

# files FOLDER ROWS: what the examples name, with so much weather.
files() {
    sed 's/week.csv/march.csv/' "$dir/house.yaml" >"$1/nursery.yaml"
    sed "/^#/p; /^time/p; $2!d" "$season" | awk '!seen[$0]++' >"$1/march.csv"
    (
        cd "$1" || exit 1
        for name in spring 2024 2025 2026 week; do cp march.csv "$name.csv"; done
        awk -F, 'BEGIN { OFS = "," } /^#/ { print; next } /^time/ { print "time,temperature (C)"; next }
            { printf "%s,%.2f\n", $1, $2 - 2.5 }' march.csv >log.csv
        for name in as-it-is a b c; do cp nursery.yaml "$name.yaml"; done
        sed 's/mass: 10 t/mass: 12 t/' nursery.yaml >with-rock.yaml
        dawnlow new --questions >answers.txt
    ) || exit 1
}
files "$dir/days" "/^2026-03-\(0[89]\|1[0-3]\)/"
files "$dir/month" "/^2026-03/"
(
    cd "$dir/days" || exit 1
    sed '/^#/d' march.csv >station.csv
    dawnlow nights nursery.yaml --json --quiet --output result.json
    for part in 1 2 3; do
        dawnlow sweep nursery.yaml --vary "rock.mass=6 t..24 t/3" --shard $part/3 --csv part$part.csv --quiet
    done
) >/dev/null || fail "no files for the examples"
HOME=$dir/home
export HOME
mkdir -p "$HOME/.local/share/bash-completion/completions" "$HOME/.config/fish/completions"

# Blocks of .Bd -literal are what the example above them prints.
"$DAWNLOW" manual dawnlow | sed -n '/^\.Sh EXAMPLES/,/^\.Sh [^E]/p' |
    sed 's/\\&//g; s/\\-/-/g; s/\\(dq/"/g; s/\\e/\\/g; /^\.Sh/d; /^\.Bd/d; /^\.Ed/d; s/^\.Dl /$ /' >"$dir/examples"

. tests/support/shown.sh
page="dawnlow(1)"
shown_dir=$dir/shown
mkdir "$shown_dir"
# In a place that has the files; it ends as a command that did its work and says so.
run_here() {
    # An example with days needs a month that has them; one that begins a nursery, an empty folder.
    case $1 in
    "dawnlow new"*) place=$dir/empty.$commands && mkdir "$place" && cp "$dir/days/answers.txt" "$place" ;;
    *03-*) place=$dir/month ;;
    *) place=$dir/days ;;
    esac
    status=0
    (cd "$place" && yes '' | head -n 40 | sh -c "$1") >"$shown_dir/out" 2>"$dir/err" || status=$?
    case "$status $1" in "10 "*--fail-above*) status=0 ;; esac
    grep 'error:' "$dir/err" && say "complains: $1"
    # What is not told is in the file that the example names.
    told=$(echo "$1" | sed -n 's/.*\(--svg\|--output\|--csv\|>\) *\([^ -][^ ]*\)$/\2/p' | sed "s|^~|$HOME|")
    [ -s "$shown_dir/out" ] || { [ -n "$told" ] && [ -s "$place/$told" ]; } || [ -s "$told" ] || say "says nothing: $1"
}
run_shown "$dir/examples"
[ "$commands" -ge 60 ] || say "only $commands examples"
[ "$(grep -c '^\.\.\.$' "$dir/examples")" -ge 10 ] || say "hardly any shows what it prints"

# So do the pages of help: what looks like a command is one, and the nursery shown is one.
page="help TOPIC"
for topic in $("$DAWNLOW" help | sed -n '/^Topics/{n;p;}'); do
    "$DAWNLOW" help "$topic"
done >"$dir/topics"
sed -n 's/^  \(dawnlow .*[^ ]\)   .*/$ \1/p' "$dir/topics" >"$dir/examples"
cp "$dir/days/march.csv" "$dir/days/station.csv" # theirs tells its clock
commands=0
run_shown "$dir/examples"
[ "$commands" -ge 2 ] || say "only $commands examples"
"$DAWNLOW" help scenario | sed -n 's/^  \(.*\)/\1/p' >"$dir/days/shown.yaml"
(cd "$dir/days" && dawnlow check shown.yaml march.csv --quiet) >"$dir/out" 2>"$dir/err" || fail "the nursery of help scenario is none"
exit $bad
