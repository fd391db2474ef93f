# Mistyped commands, options and keys are answered with the nearest one.
. tests/support/small_nursery.sh

run_bad nigths "$dir/house.yaml"
err_has "unknown command 'nigths'"
err_has "dawnlow nights"
run_bad night "$dir/house.yaml"
err_has "dawnlow nights"
run_bad frobnicate
err_has "dawnlow --help"
run_bad --verison
err_has "unknown option '--verison'"
run_bad nights "$dir/house.yaml" --wether x.csv
err_has "unknown option '--wether'"
err_has "--weather"
[ "$(grep -c ': error: ' "$dir/err")" -eq 1 ] || fail "one slip, several complaints"
run_bad nights "$dir/house.yaml" --jsn
err_has "--json"
run_bad nights "$dir/house.yaml" --nofan
err_has "--no-fan"
run_bad explain fan.on_att
err_has "fan.on_at"
run_bad explain rokc
err_has "rock"
run_bad help nigths
err_has "nights"
