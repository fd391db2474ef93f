# Every command, option, key and exit status stands in the help, in the manual and in the completion
# of each shell: all are written from the same tables, and this holds them to it.
. tests/support/small_nursery.sh

run_ok --help
sed -n '/^Commands/,/^$/s/^  \([a-z]*\) .*/\1/p' "$dir/out" >"$dir/commands"
cp "$dir/out" "$dir/overview"
run_ok manual dawnlow
tr -d '\\' <"$dir/out" | sed 's/\&//g' >"$dir/manual"
for shell in bash zsh fish; do
    run_ok completion "$shell"
    cp "$dir/out" "$dir/$shell"
done

while IFS= read -r name; do
    grep -qx ".Ss $name" "$dir/manual" || fail "$name is not in the manual"
    grep -qE "^    $name\)$" "$dir/bash" || fail "bash does not complete $name"
    grep -qE "^    $name\)$" "$dir/zsh" || fail "zsh does not complete $name"
    grep -q -- "-a $name -d" "$dir/fish" || fail "fish does not complete $name"
    [ "$name" = help ] && continue # its --help is the overview
    "$DAWNLOW" "$name" --help >"$dir/help" || fail "$name --help"
    sed -nE 's/^ +(-[a-z], )?--([a-z-]+).*/\2/p' "$dir/help" | sort -u >"$dir/options"
    [ -s "$dir/options" ] || fail "no options in $name --help"
    sed -n "/^\.Ss $name\$/,/^\.S[hs]/p; /^\.Sh COMMANDS/,/^\.Ss/p" "$dir/manual" >"$dir/section"
    sed -n "/^    $name)\$/,/;;\$/p" "$dir/bash" >"$dir/bash_part"
    sed -n "/^    $name)\$/,/;;\$/p" "$dir/zsh" >"$dir/zsh_part"
    while IFS= read -r option; do
        grep -qE -e "^\.It .*--$option( |\$)" "$dir/section" ||
            fail "--$option of $name is not in the manual"
        grep -qE -e "options=.*--$option " "$dir/bash_part" || fail "bash: no --$option of $name"
        grep -qF -e "--$option[" "$dir/zsh_part" || fail "zsh: no --$option of $name"
        grep -qE -e "from $name' -l $option( |\$)" "$dir/fish" || fail "fish: no --$option of $name"
    done <"$dir/options"
done <"$dir/commands"
[ "$(wc -l <"$dir/commands")" -ge 12 ] || fail "only $(wc -l <"$dir/commands") commands"

# Exit statuses.
run_ok help exit-status
for status in 0 2 3; do
    grep -q "^  $status  " "$dir/out" || fail "help lacks exit status $status"
    grep -qx ".It $status" "$dir/manual" || fail "the manual lacks exit status $status"
    grep -qE "Exit status: .*\b$status " "$dir/overview" || fail "--help lacks exit status $status"
done

# Keys.
run_ok manual dawnlow-scenario
tr -d '\\' <"$dir/out" | sed 's/\&//g' >"$dir/keys_page"
run_ok explain
cut -d ' ' -f 1 "$dir/out" >"$dir/keys"
while IFS= read -r key; do
    section=${key%.*}
    case $key in *.*) ;; *) section='At the top' ;; esac
    sed -n "/^\.Ss $section\$/,/^\.S[hs]/p" "$dir/keys_page" | grep -qx ".It ${key##*.}" ||
        fail "$key is not in the manual"
    for shell in bash zsh fish; do
        grep -qF -e "$key " "$dir/$shell" || fail "$shell does not complete $key"
    done
done <"$dir/keys"
[ "$(wc -l <"$dir/keys")" -gt 80 ] || fail "only $(wc -l <"$dir/keys") keys"

# Words and complaints can be asked for; a complaint stands in the sources as it is explained.
run_ok help words
grep -v '^ ' "$dir/out" >"$dir/words"
while IFS= read -r word; do
    run_ok explain "$word"
done <"$dir/words"
[ "$(wc -l <"$dir/words")" -ge 25 ] || fail "only $(wc -l <"$dir/words") words"
run_ok help complaints
sed -n '/^$/q; /^[^ ]/p' "$dir/out" >"$dir/complaints"
cat src/*/*.c include/dawnlow/*.h | tr -d '\n' | sed 's/"[ \t]*"//g' >"$dir/sources"
while IFS= read -r words; do
    run_ok explain "$words"
    [ "$(grep -oF -e "$words" "$dir/sources" | wc -l)" -ge 2 ] || fail "nobody says '$words'"
done <"$dir/complaints"
[ "$(wc -l <"$dir/complaints")" -ge 12 ] || fail "only $(wc -l <"$dir/complaints") complaints"

# Topics, in 80 columns.
for topic in scenario weather units exit-status cautions words complaints; do
    run_ok help "$topic"
    awk 'length($0) > 80 { exit 1 }' "$dir/out" || fail "help $topic: wider than 80 columns"
done
run_bad help cautoins
err_has "did you mean"

# The cautions are the README's, word for word.
tr -d '*' <README.md | tr '\n' ' ' | sed 's/  */ /g' >"$dir/readme"
run_ok help cautions
tr -d '*' <"$dir/out" | awk 'BEGIN { RS = "\n "; } { print }' | tr '\n' ' ' | sed 's/  */ /g' >"$dir/said"
grep -qF -e "Residual-current protection for every circuit" "$dir/said" || fail "no cautions"
for start in "Residual-current" "Rock weighs" "A full 208 L" "Snow loads" "Fuel heaters make" \
    "Covers left on" "Frost can harm" "dawnlow is no substitute"; do
    sentence=$(grep -oE -e "$start[^.:]*[.:]" "$dir/said" | head -n 1)
    [ -n "$sentence" ] || fail "no caution '$start'"
    grep -qF -e "$sentence" "$dir/readme" || fail "README.md does not say: $sentence"
done
