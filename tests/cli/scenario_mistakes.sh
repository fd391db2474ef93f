# Mistakes in a scenario: file, line and column, what was found, a hint, status 2 and no file.
. tests/support/small_nursery.sh
cp "$dir/house.yaml" "$dir/good.yaml"

# mistake LINE SED TEXT: house.yaml changed by SED must be refused at LINE with TEXT.
mistake() {
    sed "$2" "$dir/good.yaml" >"$dir/house.yaml"
    cmp -s "$dir/good.yaml" "$dir/house.yaml" && fail "nothing was changed by: $2"
    run_bad nights "$dir/house.yaml" --output "$dir/result" --series "$dir/series"
    { [ -e "$dir/result" ] || [ -e "$dir/series" ]; } && fail "a file in spite of: $2"
    grep -Eq "house\.yaml:$1:[0-9]+: error: " "$dir/err" || fail "no place at line $1: $2"
    grep -qi -e "$3" "$dir/err" || fail "not said: $3"
    run check "$dir/house.yaml"
    [ "$status" -eq 2 ] || fail "check finds nothing: $2"
}

mistake 5 's/longitude:/longitude_deg:/' 'longitude'            # an unknown key
mistake 28 's/mass: 10 t/mas: 10 t/' 'mass'                     # a slip of the pen
mistake 28 's/mass: 10 t/mass: 10/' 'unit'                      # no unit
mistake 28 's/mass: 10 t/mass: 10 m3/' 'm3'                     # a volume for a mass
mistake 9 's/length: 8 m/length: -8 m/' '8'                     # impossible
mistake 18 's/twinwall-8mm/twinwal-8mm/' 'twinwall-8mm'         # an unknown word
mistake 10 's/^  width/	width/' 'tab'                            # a tab
mistake 11 's/height: 2.5 m/height: tall/' 'tall'               # no number
mistake 11 's/  width: 5 m/&\n  width: 6 m/' 'line 10'             # twice
mistake 4 's/47.5 N/95 N/' '95'                                 # no such latitude
mistake 33 's/count: 4/count: 4.5/' '4.5'                       # half a barrel

mistake 5 's/longitude: .*/longitude: 8 N/' 'E and W with longitude'   # the other angle's letter

# What a word can be is told once.
sed 's/twinwall-8mm/brick/' "$dir/good.yaml" >"$dir/house.yaml"
run_bad check "$dir/house.yaml"
[ "$(grep -c 'it is one of: ' "$dir/err")" -eq 1 ] || fail "a list of words told twice"

# Many at once are told at once, in the order of the lines.
sed 's/47.5 N/95 N/; s/mass: 10 t/mass: 10/; s/count: 4/count: many/' "$dir/good.yaml" >"$dir/house.yaml"
run_bad check "$dir/house.yaml"
[ "$(grep -c ': error: ' "$dir/err")" -eq 3 ] || fail "not three mistakes"
grep ': error: ' "$dir/err" | cut -d : -f 2 >"$dir/lines"
sort -n "$dir/lines" | cmp -s - "$dir/lines" || fail "not in the order of the lines"

# The line and a caret are shown.
grep -q '^ *mass: 10$' "$dir/err" || fail "the line is not shown"
grep -q '^ *^$' "$dir/err" || fail "no caret"
err_has "hint: "

run_bad nights "$dir/nowhere.yaml"
err_has "nowhere.yaml"
cp "$dir/good.yaml" "$dir/house.yaml"
run_bad nights "$dir/house.yaml" --set "rock.mas=3 t"
err_has "mass"
run_bad nights "$dir"
