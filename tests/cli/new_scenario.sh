# new: from an empty folder to the nights of a nursery, with answers through a pipe, from a file and
# from the command line; nothing is overwritten, and a wrong answer writes nothing.
. tests/support/small_nursery.sh

# As it lies in the tree, whatever build it is of: the program finds its weather one folder up.
mkdir -p "$dir/tree/build"
cp "$DAWNLOW" "$dir/tree/build/dawnlow"
ln -s "$PWD/weather" "$dir/tree/weather"
DAWNLOW=$dir/tree/build/dawnlow
empty=$dir/empty
mkdir "$empty" || exit 1
cd "$empty" || exit 1

# piped ANSWERS ARGS...: a line each on standard input.
piped() {
    lines=$1
    shift
    status=0
    printf '%b' "$lines" | "$DAWNLOW" new "$@" >"$dir/out" 2>"$dir/err" || status=$?
}

# Enter throughout, then the two commands that new names.
piped '\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n\n'
[ "$status" -eq 0 ] || fail "exit status $status"
[ -s nursery.yaml ] || fail "no nursery.yaml"
out_has "dawnlow check nursery.yaml"
out_has "dawnlow nights nursery.yaml --from 03-08 --to 03-22"
out_has "INVENTED"
out_has "glazed "
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
run_ok check nursery.yaml
head -n 1 "$dir/out" | grep -q 'nursery.yaml can be used with .*alder-hollow-spring.csv$' ||
    fail "not in order"
run_ok nights nursery.yaml --from 03-08 --to 03-22
grep -q 'of 14 nights below 0 C' "$dir/out" || fail "no nights"
decision=$(head -n 1 "$dir/out" | sed 's/>/\&gt;/g')
run_ok nights nursery.yaml --from 03-08 --to 03-22 --html page.html
grep -qF -e "$decision" page.html || fail "the page does not say: $decision"

# Never overwritten, however it is asked for.
cp nursery.yaml before
piped '\n'
[ "$status" -eq 2 ] || fail "exit status $status, not 2"
err_has "is there already and is not overwritten"
run_bad new nursery.yaml --answer barrels=4
ln -s nowhere dangling.yaml
run_bad new dangling.yaml --answer barrels=4
cmp -s nursery.yaml before || fail "overwritten all the same"

# A pipe that ends early leaves defaults; help and going back work in it too.
piped '?\n45 N 7 E\n<\n46 N 7 E\n' short.yaml
[ "$status" -eq 0 ] || fail "exit status $status"
grep -q '^  latitude: 46 N$' short.yaml || fail "did not go back"
out_has "Hold a finger on"
err_has "the answers ended before '"

# No answers at all are no answer: nothing is drawn up that nobody asked for.
piped '' nobody.yaml
[ "$status" -eq 2 ] || fail "exit status $status, not 2"
err_has "standard input holds no answers, so nothing was written"
[ ! -e nobody.yaml ] || fail "written all the same"
run_ok new nobody.yaml --answers /dev/null
[ ! -s "$dir/err" ] || fail "defaults that were asked for are complained of"

# Far from the invented valley no weather is named.
piped '44 N 73 W 350 ft\n' far.yaml
grep -q '^weather:' far.yaml && fail "weather of another sun"
out_has "dawnlow nights far.yaml --weather"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
run_ok check far.yaml

# A wrong answer stops a pipe: what follows would answer the wrong questions.
piped '\n\n\nten metres\n' wrong.yaml
[ "$status" -eq 2 ] || fail "exit status $status, not 2"
err_has "size: 'ten metres' is one measure, two are wanted"
[ ! -e wrong.yaml ] || fail "written all the same"

# A file of answers; the command line is laid over it.
cat >answers.txt <<'END'
# our tunnel
shape: tunnel
size: 30 m x 8 m   # along the ridge first
rock: 3 loads of 10 tons
ton: short
barrels: 6 of 55 gal
END
run_ok new tunnel.yaml --answers answers.txt --answer "barrels=none" --units us
grep -q '^  mass: 30 short ton$' tunnel.yaml || fail "another mass"
grep -q '^barrels:' tunnel.yaml && fail "barrels"
run_ok check tunnel.yaml
run_ok show tunnel.yaml --units us
# Mistakes of a file are told by line, all of them.
printf 'size: 10 m x 6 m\nbarels: 4\nsize: 3 m x 3 m\nnonsense\n' >bad.txt
run_bad new bad.yaml --answers bad.txt
err_has "bad.txt:2"
err_has "did you mean barrels?"
err_has "bad.txt:3"
err_has "bad.txt:4"
printf 'rock: 20 tons\n' >ton.txt
run_bad new bad.yaml --answers ton.txt
err_has "ton: this has to be answered here"
printf '\nheights: 3 m x 2 m\n' >low.txt
run_bad new bad.yaml --answers low.txt
err_has "low.txt:2: error: heights: "
run_bad new bad.yaml --answer size
err_has "--answer takes QUESTION=ANSWER, not 'size'"
run_bad new bad.yaml --answers nowhere.txt
[ ! -e bad.yaml ] || fail "written all the same"
# An answer that nobody asked for is said to be of no use.
run_ok new unused.yaml --answer "stone=3 in"
err_has "'stone' was not asked after the other answers"

# The list of questions is a file of answers that gives the defaults.
run_ok new --questions
cp "$dir/out" template.txt
[ "$(grep -cE '^(# )?[a-z]+: ' template.txt)" -ge 20 ] || fail "questions are missing"
run_ok new template.yaml --answers template.txt
run_ok new plain.yaml --answer "shape=gable"
for file in template plain; do grep -v '^name: ' $file.yaml >$file.rest; done
cmp -s template.rest plain.rest || fail "the template gives another house"

# Seen from another folder, the weather is still found; a name with blanks and quotes too.
cp "$dir/week.csv" "own's \"week\".csv"
mkdir other
run_ok new "other/my house.yaml" --answer "weather=own's \"week\".csv" --answer "clock=+1 h" \
    --answer "place=47.5 N 8.5 E 450 m"
out_has 'dawnlow nights "other/my house.yaml"'
run_ok check "other/my house.yaml"
grep -q '^name: "my house"$' "other/my house.yaml" || fail "another name"
