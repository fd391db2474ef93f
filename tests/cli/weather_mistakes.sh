# Mistakes in a weather file: file, line and column, a hint, status 2 and no file.
. tests/support/small_nursery.sh
cp "$dir/week.csv" "$dir/good.csv"

# mistake PLACE SED TEXT: week.csv changed by SED must be refused with PLACE and TEXT.
mistake() {
    sed "$2" "$dir/good.csv" >"$dir/week.csv"
    cmp -s "$dir/good.csv" "$dir/week.csv" && fail "nothing was changed by: $2"
    run_bad nights "$dir/house.yaml" --output "$dir/result" --series "$dir/series"
    { [ -e "$dir/result" ] || [ -e "$dir/series" ]; } && fail "a file in spite of: $2"
    grep -Eq "week\.csv$1: error: " "$dir/err" || fail "no place $1: $2"
    grep -qi -e "$3" "$dir/err" || fail "not said: $3"
}

mistake ':50:[0-9]+' '50s/,[^,]*/,85.0/' '85'                # what a broken probe says
mistake ':60:[0-9]+' '60s/,[^,]*/,mild/' 'mild'              # no number
mistake ':70:[0-9]+' '70s/^[^,]*/noon/' 'noon'               # no time
mistake ':80(:[0-9]+)?' '80s/T[0-9:]*+/T02:00+/' ''          # time runs backwards
mistake '(:[0-9]+)*' '1s/air temperature (C)/grass/' 'temperature' # the one column it needs
mistake '(:[0-9]+)*' '30,70d' 'hours'                        # a gap of almost two days
mistake '(:[0-9]+)*' '3,200d' 'hour'                         # one hour only
mistake '(:[0-9]+)*' '1,200d' ''                              # nothing in it
mistake ':90:[0-9]+' '90s/,[^,]*$/,5000/' '5000'             # more light than the sun has
mistake ':100:[0-9]+' '100s/,[^,]*,/,-120,/' '120'           # colder than it gets

err_has "hint: "
cp "$dir/good.csv" "$dir/week.csv"
run_bad nights "$dir/house.yaml" --weather "$dir/nowhere.csv"
err_has "nowhere.csv"
run_bad nights "$dir/house.yaml" --weather "$dir"
head -c 2000 /dev/urandom >"$dir/noise.csv"
run_bad nights "$dir/house.yaml" --weather "$dir/noise.csv"
LC_ALL=C tr -d '\11\12\15\40-\176\200-\377' <"$dir/err" | grep -q . && fail "control characters on standard error"

# No weather anywhere: say how to name one.
sed '/^weather:/,/^start:/{/^start:/!d;}' "$dir/house.yaml" >"$dir/bare.yaml"
run_bad nights "$dir/bare.yaml"
err_has "no weather file is named"
err_has "--weather"
