# --html: one page that needs nothing else, well-formed, small enough to mail, with the decision of the
# text report. Prints each page's size.
. tests/support/small_nursery.sh

command -v xmllint >/dev/null || fail "xmllint (libxml2-utils) is missing"

# page FILE: what holds for every page.
page() {
    xmllint --noout --nonet "$1" 2>"$dir/err" || fail "$1 is not well-formed"
    size=$(wc -c <"$1")
    echo "# page $(basename "$1" .html): $size bytes"
    [ "$size" -lt 500000 ] || fail "$1 has $size bytes, more than a page may have"
    # nothing is fetched, nothing runs
    grep -nE '<script|<iframe|<link|<img|url\(|@import|javascript:|[a-z]+:\/\/' "$1" |
        grep -vE 'xmlns="http://www.w3.org/(1999/xhtml|2000/svg)"' >"$dir/out"
    [ ! -s "$dir/out" ] || fail "$1 leans on something outside"
    # every name once, and every link leads somewhere
    grep -oE ' id="[^"]*"' "$1" | sort >"$dir/ids"
    uniq -d "$dir/ids" >"$dir/out"
    [ ! -s "$dir/out" ] || fail "$1: one name for two elements"
    grep -oE 'href="#[^"]*"' "$1" | sed 's/.*#/ id="/' | sort -u | comm -23 - "$dir/ids" >"$dir/out"
    [ ! -s "$dir/out" ] || fail "$1: links to what is not there"
    # every picture has a title and a description of its own
    for part in svg title desc; do
        xmllint --xpath "count(//*[local-name()='svg']/descendant-or-self::*[local-name()='$part'])" \
            "$1" >"$dir/$part"
    done
    cmp -s "$dir/svg" "$dir/title" || fail "$1: pictures without a title"
    cmp -s "$dir/svg" "$dir/desc" || fail "$1: pictures without a description"
    [ "$(cat "$dir/svg")" -ge 1 ] || fail "$1: no picture"
    for word in viewport 'class="caution"' 'local building and electrical codes' 'carbon monoxide' \
        'Every value, yours and defaults' 'SUNDIALS CVODE' 'Left to chance'; do
        grep -q "$word" "$1" || fail "$1 lacks: $word"
    done
    xmllint --xpath 'string(//*[@id="decision"])' "$1" >"$dir/decision"
}

run_ok nights "$dir/house.yaml" --html "$dir/nights.html"
head -n 1 "$dir/out" >"$dir/first"
cp "$dir/out" "$dir/text"
page "$dir/nights.html"
cmp -s "$dir/first" "$dir/decision" || fail "the page decides otherwise than the text"
# The text is the same with and without a page; so is the page, made twice.
run_ok nights "$dir/house.yaml"
cmp -s "$dir/out" "$dir/text" || fail "--html changes the text"
run_ok nights "$dir/house.yaml" --html "$dir/again.html"
cmp -s "$dir/nights.html" "$dir/again.html" || fail "two pages of one run differ"

# A picture and its numbers for every night; the coldest's low is the one decided on.
[ "$(grep -c '<details id="night-2026-03-0' "$dir/nights.html")" -eq 7 ] || fail "not seven nights"
low=$(sed -n 's/.*; coldest .* Mar, \(-[0-9.]* C\) at.*/\1/p' "$dir/first")
grep -q "figcaption>.*: $low at the trays" "$dir/nights.html" || fail "no picture of the coldest night"

# The plotted numbers are those of the series, at the same moments (to the table's 0.1 C).
run_ok nights "$dir/house.yaml" --series "$dir/series.csv" --step "30 min" --html "$dir/both.html"
cmp -s "$dir/nights.html" "$dir/both.html" || fail "--series changes the page"
awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == "trays_C") at = i }
    $1 ~ /^2026-03-03T0[1-5]/ { printf "%s %.1f\n", substr($1, 12, 5), $at }' "$dir/series.csv" >"$dir/want"
[ "$(wc -l <"$dir/want")" -eq 10 ] || fail "no series to compare with"
xmllint --xpath '//*[@id="night-2026-03-02-numbers"]//*[local-name()="tbody"]/*' "$dir/nights.html" |
    sed 's/<\/tr>/\n/g' | sed -n 's/.*<td>\(0[1-5]:[03]0\)<\/td><td>\([-0-9.]*\)<.*/\1 \2/p' >"$dir/got"
cmp -s "$dir/want" "$dir/got" || fail "the page's numbers are not the run's: $(diff "$dir/want" "$dir/got")"

# The whole demo season, US units, one night, a house without trays, names with markup in them.
"$DAWNLOW" nights scenarios/alder-hollow.yaml --html "$dir/season.html" >/dev/null || fail "no season"
page "$dir/season.html"
grep -q 'The 21 coldest of 119 nights' "$dir/season.html" || fail "not said which nights are pictured"
run_ok nights "$dir/house.yaml" --units us --html "$dir/us.html"
head -n 1 "$dir/out" >"$dir/first"
page "$dir/us.html"
cmp -s "$dir/first" "$dir/decision" || fail "US: the page decides otherwise"
grep -q '>temperature (F)</text>' "$dir/us.html" || fail "not in Fahrenheit"
run_ok nights "$dir/house.yaml" --from 03-02 --to 03-03 --html "$dir/one.html"
page "$dir/one.html"
grep -q 'Night by night' "$dir/one.html" && fail "one night is pictured twice"
sed '/^trays:/,/^crops:/{/^crops:/!d;}; s/^name: .*/name: "A <b>\&amp; \\"x\\" ]]>"/' "$dir/house.yaml" \
    >"$dir/odd.yaml"
run_ok nights "$dir/odd.yaml" --html "$dir/odd.html"
page "$dir/odd.html"
xmllint --xpath 'string(//*[local-name()="head"]/*[local-name()="title"])' "$dir/odd.html" >"$dir/out"
grep -qF 'A <b>&amp; "x" ]]>: Nights' "$dir/out" || fail "the name was not kept as it is"

# The other pages.
run_ok effects "$dir/house.yaml" --from 03-02 --to 03-04 --html "$dir/effects.html"
head -n 1 "$dir/out" >"$dir/first"
page "$dir/effects.html"
cmp -s "$dir/first" "$dir/decision" || fail "effects: the page decides otherwise than the text"

# A study's first line may be broken for the screen; the page has it whole.
head -n 80 "$dir/week.csv" >"$dir/past.csv" # to 2026-03-04 06:00
{ head -n 1 "$dir/week.csv"; grep '^2026-03-0[4-7]' "$dir/week.csv"; } >"$dir/coming.csv"
days="--from 03-02 --to 03-04"
ahead="--weather $dir/coming.csv --history $dir/past.csv --members 20"
for study in "setpoint $days --on-least=18C --on-most=22C --on-step=4K" "worth $days" "forecast $ahead" \
    "tonight $ahead" "tonight $ahead --units us" "size $days --vary rock --goal=2C_at_air,never" \
    "sweep $days --vary rock.mass=4..8t/2 --vary fan.on_at=26C|30C"; do
    # Word splitting is wanted; '_' stands for a blank that is no end of a word.
    # shellcheck disable=SC2086
    set -- ${study#* }
    for word; do shift && set -- "$@" "$(case $word in --goal*) echo "$word" | tr _ ' ' ;; *) echo "$word" ;; esac)"; done
    run_ok "${study%% *}" "$dir/house.yaml" --quiet "$@" --html "$dir/${study%% *}.html"
    cp "$dir/out" "$dir/text"
    page "$dir/${study%% *}.html"
    tr -s ' \n' '  ' <"$dir/text" | grep -qF "$(cat "$dir/decision")" ||
        fail "$study: the page decides otherwise than the text"
done

# What chances were drawn with stands on the page; every plotted low is one of the JSON's.
grep -q '20 runs, drawn with seed 1;' "$dir/forecast.html" || fail "the seed is not told"
# shellcheck disable=SC2086
run_ok forecast "$dir/house.yaml" $ahead --quiet --json
cp "$dir/out" "$dir/chances.json"
xmllint --xpath '//*[@id="coming-numbers"]//*[local-name()="tbody"]/*' "$dir/forecast.html" |
    sed 's/<\/tr>/\n/g; s/<[^>]*>/ /g' | grep . >"$dir/got"
/usr/bin/python3 - "$dir/chances.json" "$dir/got" <<'END' || fail "the band is not the JSON's"
import json, sys
nights = json.load(open(sys.argv[1]))["nights"]
rows = [line.split() for line in open(sys.argv[2])]
assert len(rows) == len(nights) == 3, rows
for row, night in zip(rows, nights):
    low = night["leaf_low"]
    told = [low["middle_C"], low["tenth_C"], low["ninth_C"], night["outside_low"]["middle_C"]]
    for shown, value in zip(map(float, row[-4:]), told):
        assert abs(shown - value) <= 0.0501, (row, told)
END
# The nights as forecast are those of the run without errors, which the JSON has too (two engines).
/usr/bin/python3 - "$dir/chances.json" "$dir/forecast.html" <<'END' || fail "the curves are of another run"
import json, re, sys
told = [night["as_forecast_C"] for night in json.load(open(sys.argv[1]))["nights"]]
shown = re.findall(r"<figcaption>... [0-9]+ -&gt; .*?: (-?[0-9.]+) C at the trays", open(sys.argv[2]).read())
assert len(shown) == len(told) and all(abs(float(a) - b) < 0.11 for a, b in zip(shown, told)), (shown, told)
END
# A single night has no band to draw over days: its three lows are bars.
head -n 25 "$dir/coming.csv" >"$dir/one.csv"
{ cat "$dir/one.csv"; sed -n 26,40p "$dir/coming.csv"; } >"$dir/two.csv"
run_ok forecast "$dir/house.yaml" --weather "$dir/two.csv" --members 10 --quiet --html "$dir/single.html"
page "$dir/single.html"
grep -q '1 run in 10 is colder than' "$dir/single.html" || fail "one night is not told"
sed 's/mass: 10 t/mass: 4 t/' "$dir/house.yaml" >"$dir/less.yaml"
run_ok compare "$dir/house.yaml" "$dir/less.yaml" --weather "$dir/week.csv" --from 03-02 --to 03-04 \
    --html "$dir/compare.html"
cp "$dir/out" "$dir/text"
page "$dir/compare.html"
tr -s ' \n' '  ' <"$dir/text" | grep -qF "$(cat "$dir/decision")" || fail "compare: another decision"
run_bad compare "$dir/house.yaml" "$dir/less.yaml" --weather "$dir/week.csv" --html "$dir/less.yaml"
err_has "--html would write over"

# Two results are not one file, and nothing is written over.
run_bad nights "$dir/house.yaml" --html "$dir/x" --output "$dir/x"
err_has "--html and --output are one file"
run_bad nights "$dir/house.yaml" --html "$dir/week.csv"
err_has "--html would write over"
run_bad nights "$dir/house.yaml" --html "$dir/x" --means --series "$dir/y"
err_has "--means and --html"
if [ -c /dev/full ]; then
    run_bad nights "$dir/house.yaml" --html /dev/full --output "$dir/result"
    [ ! -e "$dir/result" ] || fail "a result although the page was lost"
fi
exit 0
