# Every example of dawnlow(1), which are those of --help too, runs as it stands, in a folder that has the
# files it names. Each ends as a command that did its work and says so on its stream or in its file.
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

"$DAWNLOW" manual dawnlow | sed -n '/^\.Sh EXAMPLES/,/^\.Sh [^E]/s/^\.Dl //p' |
    sed 's/\\&//g; s/\\-/-/g; s/\\(dq/"/g' >"$dir/examples"
count=0
while IFS= read -r example; do
    # An example with days needs a month that has them; one that begins a nursery, an empty folder.
    case $example in
    "dawnlow new"*) place=$dir/empty.$count && mkdir "$place" && cp "$dir/days/answers.txt" "$place" ;;
    *03-*) place=$dir/month ;;
    *) place=$dir/days ;;
    esac
    status=0
    (cd "$place" && yes '' | head -n 40 | sh -c "$example") >"$dir/out" 2>"$dir/err" || status=$?
    case "$status $example" in
    "0 "* | "10 "*--fail-above*) ;;
    *) fail "exit status $status: $example" ;;
    esac
    grep 'error:' "$dir/err" && fail "complains: $example"
    # What is not told is in the file that the example names.
    told=$(echo "$example" | sed -n 's/.*\(--svg\|--output\|--csv\|>\) *\([^ -][^ ]*\)$/\2/p' | sed "s|^~|$HOME|")
    [ -s "$dir/out" ] || { [ -n "$told" ] && [ -s "$place/$told" ]; } || [ -s "$told" ] || fail "says nothing: $example"
    count=$((count + 1))
done <"$dir/examples"
[ "$count" -ge 60 ] || fail "only $count examples"
exit 0
