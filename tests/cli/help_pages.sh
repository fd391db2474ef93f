# --help: examples first, in 80 columns, and every example's options exist.
. tests/support/small_nursery.sh

run_ok --help
awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "wider than 80 columns"
sed -n '/^Commands/,/^$/s/^  \([a-z]*\) .*/\1/p' "$dir/out" >"$dir/commands"
[ "$(wc -l <"$dir/commands")" -ge 6 ] || fail "not all commands"
while IFS= read -r name; do
    [ "$name" = help ] && continue # is the page read above
    run_ok "$name" --help
    awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "$name: wider than 80 columns"
    out_has "For example"
    grep -oE '^  dawnlow .*' "$dir/out" | grep -oE -e ' --[a-z-]+' | sort -u >"$dir/used"
    while IFS= read -r option; do
        grep -Eq -e "^ +${option# }( |\$)" "$dir/out" || fail "$name: an example uses$option"
    done <"$dir/used"
    cp "$dir/out" "$dir/asked"
    [ "$name" = weather ] && continue # help weather is the topic of that name
    run_ok help "$name"
    cmp -s "$dir/out" "$dir/asked" || fail "help $name and $name --help differ"
done <"$dir/commands"
