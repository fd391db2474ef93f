# No line of what people read ends in a blank, and none has a blank before a semicolon.
. tests/support/small_nursery.sh

tidy() {
    run_ok "$@"
    grep -n ' $' "$dir/out" && fail "a blank at the end of a line: $*"
    grep -n ' ;' "$dir/out" && fail "a blank before a semicolon: $*"
    return 0
}
tidy --help
tidy --version
for name in nights check weather network explain help; do
    tidy help "$name"
done
tidy nights "$dir/house.yaml" --explain 03-03 --set "house.heat=100 W"
tidy nights "$dir/house.yaml" --units us
tidy check "$dir/house.yaml"
tidy weather "$dir/week.csv" --latitude 47.5 --longitude 8.5
tidy network "$dir/house.yaml"
tidy network "$dir/house.yaml" --json
tidy explain
cut -d ' ' -f 1 "$dir/out" >"$dir/keys"
[ "$(wc -l <"$dir/keys")" -gt 50 ] || fail "only $(wc -l <"$dir/keys") keys"
while IFS= read -r key; do
    tidy explain "$key"
done <"$dir/keys"
