# 0 done, 2 the user can mend it; what was asked for is on standard output, complaints are not.
. tests/support/small_nursery.sh

for ask in "--help" "-h" "help" "--version" "help nights" "nights --help" "weather -h" "check --help" \
    "network --help" "explain --help" "explain"; do
    # Word splitting is wanted.
    # shellcheck disable=SC2086
    run_ok $ask
    [ -s "$dir/out" ] || fail "nothing on standard output: $ask"
    [ ! -s "$dir/err" ] || fail "something on standard error: $ask"
done
for wrong in "" "nights" "weather" "check" "network" "nights a b c" "explain a b" "--nonsense" "nights --from"; do
    # shellcheck disable=SC2086
    run_bad $wrong
    [ -s "$dir/err" ] || fail "no word on standard error: $wrong"
done
run_ok nights "$dir/house.yaml"
run_ok nights --json "$dir/house.yaml"
run_ok nights --from=03-02 --to 03-05 -- "$dir/house.yaml"
head -n 1 "$dir/out" | grep -q "of 3 nights" || fail "not three nights"
run_bad nights -- --from "$dir/house.yaml"

run_ok --version
out_has "dawnlow $(sed -n 's/^#define DAWN_VERSION "\(.*\)"/\1/p' include/dawnlow/version.h)"
out_has "SUNDIALS CVODE "
