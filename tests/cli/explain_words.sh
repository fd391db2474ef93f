# explain tells words of the reports and what a message means, copied from the screen or in part; a
# key goes before a word.
. tests/support/small_nursery.sh

run_ok explain "touch and go"
head -n 1 "$dir/out" | grep -qx 'touch and go' || fail "another word"
run_ok explain Tray
out_has "turning to ice"
run_ok explain rock # is a section
[ "$(grep -c '^rock\.' "$dir/out")" -ge 8 ] || fail "not the keys of rock"
run_ok explain Rock # is a column
out_has "from dusk to dawn"
run check "$dir/house.yaml" weather/alder-hollow-spring.csv --set "site.longitude=60 W"
message=$(grep -F 'another sun' "$dir/err" | head -n 1)
[ -n "$message" ] || fail "no message to explain"
run_ok explain "$message"
out_has "west of Greenwich"
run_ok explain "no weather file"
out_has "dawnlow help weather"
# Everything that goes wrong in everyday use can be asked about: what the screen said is copied whole.
explained() {
    run "$@"
    sed -n 's/^.*\(error\|warning\|note\): //p' "$dir/err" | head -n 1 >"$dir/message"
    [ -s "$dir/message" ] || fail "nothing went wrong: $*"
    run_ok explain "$(cat "$dir/message")"
}
house=$dir/house.yaml
explained nights "$dir/none.yaml"
explained nights "$house" --weather "$dir/none.csv"
explained nights "$house" --set "rock.mass=12"
explained nights "$house" --set "rock.mass=12 m"
explained nights "$house" --set "rock.mas=12 t"
explained nights "$house" --set "rock.mass=900 t"
explained nights "$house" --set "fan.on_at=95 C"
explained nights "$house" --from 13-45
explained nights "$house" --from 2027-01-01
explained nights "$house" --explain 12-01
explained nights "$house" --json --csv
explained nights "$house" --output "$dir/none/x"
explained nights "$house" --html "$dir/house.yaml"
explained nights "$house" --wether x
explained nihgts
explained nights
explained forecast "$house" --members 10
explained size "$house" --goal warm
explained sweep "$house" --vary x
explained new "$house"
explained plot "$house" --what heat
echo '{' >"$dir/bad.json"
explained plot "$dir/bad.json"
echo '{}' >"$dir/bad.json"
explained plot "$dir/bad.json"
printf 'dawnlow: 1\nname: [a]\n' >"$dir/bad.yaml"
explained check "$dir/bad.yaml"
explained nights "$house" --weather "$house"
run_bad explain "no such thing"
err_has "dawnlow help words"
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
