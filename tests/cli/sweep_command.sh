# sweep: a row a nursery, as nights has it; parts, gathered, and a stopped sweep gone on with give the
# bytes of one undisturbed run.
. tests/support/small_nursery.sh

few="--from 03-02 --to 03-04 --quiet"
vary="--vary rock.mass=2..6t/3 --vary fan.on_at=27C|30C"
sweep() {
    # shellcheck disable=SC2086
    run_ok sweep "$dir/house.yaml" $few $vary "$@"
}
sweep --csv "$dir/whole.csv"
grep -q '^best coldest night: .* with rock.mass=' "$dir/out" || fail "no decision"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
[ "$(wc -l <"$dir/whole.csv")" -eq 7 ] || fail "not 6 rows and a heading"
[ ! -e "$dir/whole.csv.unfinished" ] || fail "the unfinished table is left behind"
sweep --json -j 1
cp "$dir/out" "$dir/one.json"

# The table is no more allowed to write over what is read, or over another result, than any other.
cp "$dir/house.yaml" "$dir/kept.yaml"
# shellcheck disable=SC2086
for wrong in "--csv $dir/house.yaml" "--csv $dir/same --output $dir/same" "--csv $dir/same --html $dir/same"; do
    run_bad sweep "$dir/house.yaml" $few $vary $wrong
    cmp -s "$dir/house.yaml" "$dir/kept.yaml" && [ ! -e "$dir/same" ] || fail "written all the same: $wrong"
done
sweep --json -j 2
cmp -s "$dir/out" "$dir/one.json" || fail "the number of threads shows"

# One after another: the same nights, whatever the threads.
sweep --csv "$dir/exact.csv" --engine accurate -j 1
sweep --csv "$dir/exact2.csv" --engine accurate -j 2
cmp -s "$dir/exact.csv" "$dir/exact2.csv" || fail "the number of threads shows in the accurate engine"
/usr/bin/python3 - "$dir" <<'PY' || fail "the fast engine has other nights"
import csv, sys
exact, fast = (list(csv.DictReader(open(sys.argv[1] + f, newline=""))) for f in ("/exact.csv", "/whole.csv"))
assert exact[0]["fingerprint"] != fast[0]["fingerprint"]
for a, b in zip(exact, fast):
    assert abs(float(a["coldest_C"]) - float(b["coldest_C"])) < 0.02, (a, b)
PY

# A row is what nights says of that nursery.
run_ok nights "$dir/house.yaml" --from 03-02 --to 03-04 --set "rock.mass=4 t" --set "fan.on_at=30 C" \
    --json
/usr/bin/python3 - "$dir" <<'PY' || fail "a row is not what nights says"
import csv, json, sys
rows = list(csv.DictReader(open(sys.argv[1] + "/exact.csv", newline="")))
row = [r for r in rows if r["rock.mass [t]"] == "4" and r["fan.on_at"] == "30C"]
nights = json.load(open(sys.argv[1] + "/out"))["nights"]
assert len(row) == 1 and len(rows) == 6, rows
assert abs(float(row[0]["coldest_C"]) - min(n["tray_low_C"] for n in nights)) < 1e-9
assert abs(float(row[0]["fan_h"]) - sum(n["fan_h"] for n in nights)) < 2e-3
assert [r["row"] for r in rows] == [str(i) for i in range(1, 7)]
assert len({r["fingerprint"] for r in rows}) == 1
rows = csv.DictReader(open(sys.argv[1] + "/whole.csv", newline=""))
made = json.load(open(sys.argv[1] + "/one.json"))["nurseries"]
assert [m["coldest_C"] for m in made] == [float(r["coldest_C"]) for r in rows]
PY

# Parts.
for part in 1 2 3; do
    sweep --csv "$dir/part$part.csv" --shard "$part/3"
done
run_ok gather "$dir/part2.csv" "$dir/part3.csv" "$dir/part1.csv" --output "$dir/gathered.csv"
cmp -s "$dir/gathered.csv" "$dir/whole.csv" || fail "the parts gathered are not the whole"
run_bad gather "$dir/part1.csv" "$dir/part3.csv"
err_has "2 of 6 rows are missing, the first of them row 2"
run_bad gather "$dir/part1.csv" "$dir/part1.csv" "$dir/part2.csv"
err_has "row 1 is there already"
run_bad gather "$dir/week.csv"
err_has "not the table of a sweep"

# Stopped: killed in the middle of its third row, so to speak.
head -n 3 "$dir/whole.csv" >"$dir/again.csv.unfinished"
printf '3,6,half a row' >>"$dir/again.csv.unfinished"
# shellcheck disable=SC2086
run_bad sweep "$dir/house.yaml" $few $vary --csv "$dir/again.csv"
err_has "not finished"
err_has "--resume"
sweep --csv "$dir/again.csv" --resume
cmp -s "$dir/again.csv" "$dir/whole.csv" || fail "gone on with, it is another table"
[ ! -e "$dir/again.csv.unfinished" ] || fail "the unfinished table is left behind"
# Rows that are there are not run again: a mark in one of them stays.
sed 's/,done,/,kept,/' "$dir/whole.csv" | head -n 6 >"$dir/marked.csv.unfinished"
sweep --csv "$dir/marked.csv" --resume
[ "$(grep -c ',kept,' "$dir/marked.csv")" -eq 5 ] || fail "rows were run again"
# Of another scenario, or of other keys.
cp "$dir/whole.csv" "$dir/other.csv.unfinished"
# shellcheck disable=SC2086
run_bad sweep "$dir/house.yaml" $few $vary --csv "$dir/other.csv" --resume --set "house.width=5.5 m"
err_has "belong to another sweep"
cmp -s "$dir/whole.csv" "$dir/other.csv.unfinished" || fail "the other sweep's rows were touched"

# Interrupted for real, once its first rows are kept: by Ctrl-C, and as by a power cut.
interrupt() {
    signal=$1
    shift
    rm -f "$dir/long.csv.unfinished"
    "$DAWNLOW" sweep "$dir/house.yaml" --from 03-02 --to 03-03 --quiet --csv "$dir/long.csv" "$@" \
        >"$dir/out" 2>"$dir/err" &
    pid=$!
    for _ in $(seq 600); do
        [ "$(wc -l 2>/dev/null <"$dir/long.csv.unfinished")" -gt 2 ] 2>/dev/null && break
        sleep 0.05
    done
    kill -s "$signal" "$pid"
    status=0
    wait "$pid" || status=$?
    [ ! -e "$dir/long.csv" ] || fail "a table that is not whole has the name of one"
    [ "$(wc -l <"$dir/long.csv.unfinished")" -gt 2 ] || fail "nothing finished was kept"
}
interrupt INT --vary rock.mass=2..6t/4000
[ "$status" -eq 130 ] || fail "exit status $status after Ctrl-C, not 130"
err_has "--resume goes on"
# One after another, that there is time between the first row and the last.
slow='--vary rock.mass=2..6t/60 --engine accurate'
# shellcheck disable=SC2086
interrupt KILL $slow
[ "$status" -eq 137 ] || fail "exit status $status after a power cut, not 137: it was done already"
# shellcheck disable=SC2086
run_ok sweep "$dir/house.yaml" --from 03-02 --to 03-03 $slow --csv "$dir/long.csv" --resume
# shellcheck disable=SC2086
run_ok sweep "$dir/house.yaml" --from 03-02 --to 03-03 $slow --csv "$dir/calm.csv"
cmp -s "$dir/long.csv" "$dir/calm.csv" || fail "killed and gone on with, it is another table"

# Samples: each of 4 slices of both ranges is used once (a Latin hypercube).
run_ok sweep "$dir/house.yaml" --from 03-02 --to 03-03 --vary rock.mass=2..6t --vary fan.on_at=26..30C \
    --samples 4 --seed 7 --csv "$dir/samples.csv"
/usr/bin/python3 - "$dir/samples.csv" <<'PY' || fail "the samples are no Latin hypercube"
import csv, sys
rows = list(csv.DictReader(open(sys.argv[1], newline="")))
for key, least in (("rock.mass [t]", 2), ("fan.on_at [C]", 26)):
    assert sorted(int((float(r[key]) - least) // 1) for r in rows) == [0, 1, 2, 3], key
PY

# Two years.
cp "$dir/week.csv" "$dir/week2.csv"
mkdir "$dir/years"
cp "$dir/week.csv" "$dir/week2.csv" "$dir/years"
run_ok sweep "$dir/house.yaml" --from 03-02 --to 03-04 --vary rock.mass=2..6t/2 \
    --weather "$dir/week.csv" --weather "$dir/week2.csv" --csv "$dir/twice.csv"
grep -q '^1,2,[0-9a-f]*,done,2,4,' "$dir/twice.csv" || fail "two years are not four nights"
run_ok sweep "$dir/house.yaml" --from 03-02 --to 03-04 --vary rock.mass=2..6t/2 \
    --weather "$dir/years" --csv "$dir/folder.csv"
cmp -s "$dir/twice.csv" "$dir/folder.csv" || fail "a folder is not its files"
out_has "1 year in 10: 2 years of weather are too few"
# Three: the low of one year in ten, by what, and how weak that is.
awk -F, -v OFS=, 'NF > 3 && $2 + 0 == $2 { $2 -= 3 } 1' "$dir/week.csv" >"$dir/years/week3.csv"
run_ok sweep "$dir/house.yaml" --from 03-02 --to 03-04 --vary rock.mass=2..6t/2 --weather "$dir/years"
tr -s '\n ' ' ' <"$dir/out" | grep -qF "1 year in 10: from the coldest night of each of 3 years, Gumbel's distribution by maximum likelihood; fewer than 10 years are weak" || fail "no method of the return level"
run_ok worth "$dir/house.yaml" --from 03-02 --to 03-03 --weather "$dir/years"
grep -q '^1 year in 10: as it is, below .* at the ' "$dir/out" || fail "worth has no return level"
# One long file is its calendar years: 450 days from January on are a year and a spring.
LC_ALL=C awk 'BEGIN { print "time,air temperature (C),dew point (C),wind speed (m/s),cloud cover (%)"
    split("31 28 31 30 31 30 31 31 30 31 30 31", days, " ")
    for (d = 0; d < 450; d++) {
        n = d; y = 2025; m = 1
        while (n >= days[m]) { n -= days[m]; if (++m > 12) { m = 1; y++ } }
        for (h = 0; h < 24; h++)
            printf "%d-%02d-%02dT%02d:00+01:00,%.1f,%.1f,2,50\n", y, m, n + 1, h, 9 - 8 * cos(6.2832 * (d - 20) / 365) - 4 * cos(0.2618 * (h - 5)), -9
    } }' >"$dir/long_past.csv"
sed '/^rock:/,/^  power:/d; /^barrels:/,/^    volume:/d' "$dir/house.yaml" >"$dir/plain.yaml"
run_ok sweep "$dir/plain.yaml" --vary "house.air_changes=1 /h|2 /h" --weather "$dir/long_past.csv" --engine fast --csv "$dir/long_row.csv"
/usr/bin/python3 - "$dir/long_row.csv" <<'PY' || fail "a long file is not cut into its years"
import csv, sys
rows = list(csv.DictReader(open(sys.argv[1], newline="")))
assert [(row["years"], row["nights"]) for row in rows] == [("2", "449")] * 2, rows
PY

# Mistakes: nothing is written.
bad() {
    says=$1
    shift
    run_bad sweep "$dir/house.yaml" --csv "$dir/none.csv" "$@"
    err_has "$says"
    [ ! -e "$dir/none.csv" ] && [ ! -e "$dir/none.csv.unfinished" ] || fail "something was written: $*"
}
mkdir "$dir/empty"
bad "nothing is varied"
bad "off_at" --vary "fan.on_at=20 C|30 C"
err_has "with fan.on_at=20 C"
bad "weight" --vary "rock.weight=1 t..2 t/2"
! grep -q -e '--set' "$dir/err" || fail "--set is spoken of, and --vary was written"
bad "the weather is read by it once" --vary "site.offset=0 K..3 K/2"
bad "range is empty" --vary "rock.mass=5 t..2 t/2"
bad "2 or more" --vary "rock.mass=1 t..2 t/1"
bad "does not say how many" --vary "rock.mass=1 t..2 t"
bad "same unit" --vary "rock.mass=1 t..2 kg/3"
bad "must be numbers" --vary "rock.mass=a..b/3"
bad "= between" --vary "rock.mass"
bad "I from 1 to N" --vary "rock.mass=1 t..2 t/2" --shard 3/2
bad "more than a million" --vary "rock.mass=1 t..2 t/5000" --vary "fan.on_at=20 C..30 C/5000"
bad "there is no weather year" --vary "rock.mass=1 t..2 t/2" --weather "$dir/empty"
exit 0
