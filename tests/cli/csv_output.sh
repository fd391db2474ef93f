# --csv after RFC 4180: a heading, CR LF, as many fields in every record, the same figures as JSON.
. tests/support/small_nursery.sh

run_ok nights "$dir/house.yaml" --csv
cp "$dir/out" "$dir/nights.csv"
[ "$(wc -l <"$dir/out")" -eq 8 ] || fail "not a heading and seven nights"
[ "$(grep -c "$(printf '\r')\$" "$dir/out")" -eq 8 ] || fail "lines do not end in CR LF"
awk -F, 'NR == 1 { n = NF } NF != n { exit 1 }' "$dir/out" || fail "records differ in length"
run_ok nights "$dir/house.yaml" --json

# Python's csv and json modules read both; what they see must agree.
/usr/bin/python3 - "$dir/nights.csv" "$dir/out" <<'END' || fail "CSV and JSON differ"
import csv, json, sys
rows = list(csv.DictReader(open(sys.argv[1], newline="")))
nights = json.load(open(sys.argv[2]))["nights"]
assert len(rows) == len(nights) == 7
for row, night in zip(rows, nights):
    assert list(row) == list(night), (list(row), list(night))
    for key, value in night.items():
        if value is None:
            assert row[key] == ""
        elif isinstance(value, str):
            assert row[key] == value
        else:
            assert abs(float(row[key]) - value) < 1e-9, key
END

run_bad nights "$dir/house.yaml" --csv --json
err_has "--json and --csv"
run_bad nights "$dir/house.yaml" --csv --explain 03-03
err_has "--explain has no CSV form"
run_ok weather "$dir/week.csv" --csv --latitude 47.5 --longitude 8.5
[ "$(wc -l <"$dir/out")" -eq 194 ] || fail "not a heading and 193 hours"
awk -F, 'NR == 1 { n = NF } NF != n { exit 1 }' "$dir/out" || fail "records differ in length"
