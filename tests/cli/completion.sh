# Tab in bash, zsh and fish: commands, options, their words, files, keys. zsh is asked at a
# pseudo-terminal, as it completes nowhere else; fish by its own "complete -C"; of bash the function.
. tests/support/small_nursery.sh
mkdir "$dir/bin" "$dir/functions" "$dir/here" "$dir/home"
ln -s "$DAWNLOW" "$dir/bin/dawnlow"
for shell in bash zsh fish; do
    command -v $shell >/dev/null || fail "$shell is missing"
    run_ok completion $shell
    cp "$dir/out" "$dir/$shell"
done
cp "$dir/zsh" "$dir/functions/_dawnlow"
: >"$dir/here/my house.yaml"
: >"$dir/here/nursery.yaml"
HOME=$dir/home
export HOME dir

# What is typed before Tab, and the word that comes of it.
cat >"$dir/asked" <<'END'
dawnlow che|check
dawnlow nights --un|--units
dawnlow nights nur|nursery.yaml
dawnlow nights x --units u|us
dawnlow explain fan.on_|fan.on_at
dawnlow help uni|units
dawnlow nights x --set rock.ma|rock.mass=
dawnlow sweep x --vary fan.on_|fan.on_at=
dawnlow plot x --what lo|lows
END
cd "$dir/here" || exit 1

while IFS='|' read -r typed wanted; do
    # shellcheck disable=SC2016
    got=$(bash -c 'compopt() { :; }
        . "$dir/bash"
        read -ra COMP_WORDS <<<"$1"
        COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
        _dawnlow
        printf %s "${COMPREPLY[*]}"' - "$typed")
    [ "$got" = "$wanted" ] || fail "bash: '$typed' becomes '$got', not '$wanted'"
    got=$(fish -N -c "source $dir/fish; complete -C '$typed'" 2>/dev/null | cut -f 1)
    [ "$got" = "$wanted" ] || fail "fish: '$typed' becomes '$got', not '$wanted'"
done <"$dir/asked"
# A blank in a name.
# shellcheck disable=SC2016
got=$(bash -c '. "$dir/bash"; COMP_WORDS=(dawnlow check my); COMP_CWORD=2; _dawnlow; printf "%s|" "${COMPREPLY[@]}"')
[ "$got" = "my house.yaml|" ] || fail "bash: a file with a blank becomes '$got'"

# A key of its own completes and tells the line.
cat >"$dir/home/.zshrc" <<'END'
fpath=($dir/functions $fpath) path=($dir/bin $path)
autoload -Uz compinit && compinit -u -D
tell() { zle complete-word; print -r -- "$BUFFER" >>$dir/lines; BUFFER= }
zle -N tell && bindkey '^T' tell
: >$dir/lines
END
cat >"$dir/ask.zsh" <<'END'
zmodload zsh/zpty
until_lines() { # waits half a minute at most
    for (( i = 0; i < 600; i++ )); do
        zpty -r -t shell heard
        [[ -e $dir/lines && $(wc -l <$dir/lines) -ge $1 ]] && return
        sleep 0.05
    done
}
zpty shell zsh -d -i
until_lines 0
count=0
for typed in ${(f)"$(cut -d '|' -f 1 $dir/asked)"}; do
    zpty -w -n shell $typed$'\x14'
    until_lines $(( ++count ))
done
zpty -d shell
END
ZDOTDIR=$HOME zsh -f "$dir/ask.zsh" >/dev/null 2>"$dir/err"
[ -e "$dir/lines" ] || fail "zsh did not start"
sed 's/|/ /' "$dir/asked" | awk '{ $(NF - 1) = ""; $0 = $0; $1 = $1; print }' >"$dir/wanted"
sed 's/ *$//' "$dir/lines" >"$dir/out"
cmp -s "$dir/out" "$dir/wanted" || { diff "$dir/wanted" "$dir/out"; fail "zsh completes something else"; }
exit 0
