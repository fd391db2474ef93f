#!/bin/sh
# tests/outside/checks.txt against the tests it names and against the table of outside checks in
# tests/README.md: whatever looks outside is classed, named in both, and is there.
set -u
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT

# "FILE KIND CASE" a line; a kind's blanks become dashes.
awk '/^#/ || /^$/ { next }
    /^[a-z]/ { file = $1; next }
    { if (match($0, /^  [a-z ]+:/)) {
          kind = substr($0, 3, RLENGTH - 3); gsub(" ", "-", kind); $0 = substr($0, RLENGTH + 1) }
      if (file ~ /\.py$/) { print file, kind, "-"; next }
      for (i = 1; i <= NF; i++) print file, kind, $i }' tests/outside/checks.txt >"$work/listed"
# "FILE CASE" of every test there is.
for file in $(find tests -name 'test_*.c' | sort); do
    grep -oE 'cmocka_unit_test[a-z_]*\([ ]*[a-z0-9_]+' "$file" | sed "s|.*(|${file#tests/} |"
done | sort -u >"$work/there"
# Files with a row in the table: the first column's names, below the folder of the heading.
awk -F'|' '/^## Outside checks/ { on = 1 } !on { next }
    /^### / { folders = ""; line = $0
        while (match(line, /unit\/[a-z]+\//)) {
            folders = folders " " substr(line, RSTART, RLENGTH); line = substr(line, RSTART + RLENGTH) } }
    /^\|/ { line = $2
        while (match(line, /`[a-z0-9_\/]+\.(c|py)`/)) {
            name = substr(line, RSTART + 1, RLENGTH - 2); line = substr(line, RSTART + RLENGTH)
            if (name ~ /\//) print name
            else { n = split(folders, folder, " "); for (i = 1; i <= n; i++) print folder[i] name } } }' \
    tests/README.md | while read -r file; do [ -e "tests/$file" ] && echo "$file"; done |
    sort -u >"$work/table"

{
    awk '$2 !~ /^(measured|standard|published|oracle|closed-form|law-of-nature|common-practice|own)$/ {
        print $1 ": no such kind: " $2 }' "$work/listed"
    awk '{ print $1, $3 }' "$work/listed" | sort | uniq -d | sed 's/$/: named twice/'
    awk '$1 ~ /\.c$/ { print $1, $3 }' "$work/listed" | sort -u | comm -23 - "$work/there" |
        sed 's/$/: no such test case/'
    grep -E '^(exact|law|unit/physics)/' "$work/there" >"$work/all"
    awk '{ print $1, $3 }' "$work/listed" | sort -u | comm -13 - "$work/all" |
        sed 's/$/: not in tests\/outside\/checks.txt; say what it is held against, or "own"/'
    for file in tests/outside/[a-z]*.py; do
        grep -q "^${file#tests/} " "$work/listed" || echo "$file: not in tests/outside/checks.txt"
    done
    awk '$2 != "own" { print $1 }' "$work/listed" | sort -u >"$work/outside"
    comm -23 "$work/outside" "$work/table" | sed 's/$/: no row in the table of tests\/README.md/'
    comm -13 "$work/outside" "$work/table" |
        sed 's/$/: in the table of tests\/README.md, but nothing of it in tests\/outside\/checks.txt/'
} >"$work/wrong"
cat "$work/wrong"
[ ! -s "$work/wrong" ]
