# dawnlow plot and nights --plot: a picture for a file, and one for the terminal.
. tests/support/small_nursery.sh
unset LC_ALL LC_CTYPE LANG

# The title names the night that the decision names.
run_ok nights "$dir/house.yaml"
night=$(sed -n '1s/.*; coldest \(.*\), \(-[0-9.]* C\) at.*/\1: \2 at the trays/p' "$dir/out")
cp "$dir/out" "$dir/table"
run_ok plot "$dir/house.yaml"
[ "$(head -n 1 "$dir/out")" = "$night" ] || fail "not the coldest night: $night"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
LC_ALL=C grep -q '[^ -~]' "$dir/out" && fail "not plain ASCII without a UTF-8 locale"
cp "$dir/out" "$dir/ascii"
run_ok nights "$dir/house.yaml" --plot
{ cat "$dir/table"; echo; cat "$dir/ascii"; } | cmp -s - "$dir/out" || fail "--plot is not table and picture"
run_ok nights "$dir/house.yaml" --plot --explain 03-02
grep -q '^Mon 2 -> Tue 3 Mar: ' "$dir/out" || fail "--plot does not show the night explained"
run_ok plot "$dir/house.yaml" --night 03-02 --units us
grep -q '^Mon 2 -> Tue 3 Mar: .* F at the trays$' "$dir/out" || fail "not the night asked for"
run_ok plot "$dir/house.yaml" --what lows

# Braille on a terminal whose locale speaks UTF-8; script(1) lends one. In a pipe never: the same bytes
# everywhere.
screen() {
    script -qec "$1" /dev/null </dev/null | tr -d '\r' >"$dir/screen"
    grep -q 'trays' "$dir/screen" || fail "no picture: $1"
}
screen "LC_ALL=C.UTF-8 '$DAWNLOW' plot '$dir/house.yaml' --quiet"
LC_ALL=C grep -q "$(printf '\342\240')" "$dir/screen" || fail "no braille on a UTF-8 terminal"
screen "LC_ALL=C '$DAWNLOW' plot '$dir/house.yaml' --quiet"
LC_ALL=C grep -q '[^ -~]' "$dir/screen" && fail "not plain ASCII on a plain terminal"
LC_ALL=C.UTF-8 "$DAWNLOW" plot "$dir/house.yaml" --quiet | cmp -s - "$dir/ascii" || fail "braille in a pipe"

# Never wider than the terminal.
for columns in 30 57 132; do
    screen "stty cols $columns; '$DAWNLOW' plot '$dir/house.yaml' --quiet"
    awk -v most="$columns" 'length($0) > most { print; exit 1 }' "$dir/screen" ||
        fail "wider than $columns columns"
done

# SVG: well-formed, and what the standard's own grammar allows (SVG 1.1, its DTD in Debian's
# w3c-sgml-lib). role and aria-... came with SVG 2 and are taken out before.
svg_dtd=/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd
[ -e "$svg_dtd" ] || fail "w3c-sgml-lib is missing"
for what in night lows heat; do
    run_ok plot "$dir/house.yaml" --what "$what" --svg "$dir/$what.svg"
    [ ! -s "$dir/out" ] || fail "the picture went to standard output too"
    sed -E 's/ (role|aria-labelledby)="[^"]*"//g' "$dir/$what.svg" >"$dir/plain.svg"
    xmllint --noout --nonet --dtdvalid "$svg_dtd" "$dir/plain.svg" 2>"$dir/err" || fail "$what: no valid SVG"
    grep -q '<style' "$dir/$what.svg" || fail "$what: no style of its own"
done
grep -q ">$(sed -n '1s/.* Mar, \(-[0-9.]* C at [0-9:]*\).*/\1/p' "$dir/table")</text>" "$dir/night.svg" ||
    fail "the low is not marked"

# The covers of a night are shaded.
cat "$dir/house.yaml" - >"$dir/covered.yaml" <<'END'
covers:
  - name: fleece
    over: trays
    area: 8 m2
END
run plot "$dir/covered.yaml" --svg "$dir/covered.svg"
if [ "$status" -eq 0 ]; then
    grep -q '>fleece</text>' "$dir/covered.svg" || fail "the cover is not shaded"
else
    fail "no picture of a covered house"
fi

run_bad plot "$dir/house.yaml" --what heat
err_has "add --svg FILE"
run_bad plot "$dir/house.yaml" --night 04-02
err_has "no night begins on the evening of 04-02"
run_bad plot "$dir/house.yaml" --svg "$dir/week.csv"
err_has "--svg would write over"
run_bad nights "$dir/house.yaml" --plot --json
err_has "--plot goes with the table only"
exit 0
