#!/bin/sh
# README.md cannot drift: every command it shows ("$ ..." in a code block) runs, in order, in a tree
# of its own, and every line shown below one is printed by it. Figures may differ, words may not:
# compilers and better physics move a tenth of a degree, and nobody should fear them for that.
set -u
DAWNLOW=${DAWNLOW:-build/dawnlow}
case $DAWNLOW in /*) ;; *) DAWNLOW=$PWD/$DAWNLOW ;; esac
top=$PWD
dir=$(mktemp -d) || exit 1
trap 'rm -rf "$dir"' EXIT
mkdir "$dir/tree" "$dir/tree/build" || exit 1
cp -R scenarios weather "$dir/tree" || exit 1
ln -s "$DAWNLOW" "$dir/tree/build/dawnlow"
cd "$dir/tree" || exit 1
bad=0
say() {
    echo "README.md: $*"
    bad=1
}

# The first paragraph states the job.
awk '/^#/ || (!text && /^$/) { next } /^$/ { exit } { text = 1; print }' "$top/README.md" >"$dir/first"
for word in fan rock barrels; do
    grep -qw "$word" "$dir/first" || say "no '$word' in the first paragraph"
done

# Every number is 0 and every run of blanks one.
masked() { sed -E 's/-?[0-9][-0-9.:]*(e-?[0-9]+)?/0/g; s/ +/ /g; s/ $//' "$@"; }

run() {
    commands=$((commands + 1))
    sh -c "$1" >"$dir/out" 2>&1 </dev/null
    status=$?
    masked "$dir/out" >"$dir/masked"
    [ "$status" -eq 0 ] && return
    say "exit status $status: $1"
    head -n 5 "$dir/out"
}
shown() {
    printf '%s\n' "$1" | masked >"$dir/line"
    grep -qxF -f "$dir/line" "$dir/masked" || say "not printed by $command: $1"
}

commands=0
command=
awk '/^```/ { inside = !inside; print "```"; next } inside' "$top/README.md" >"$dir/blocks"
while IFS= read -r line; do
    case $line in
    '```') command= ;;
    '$ '*)
        command=${line#??}
        run "$command"
        ;;
    '...' | '' | 'make '*) ;;
    *) if [ -n "$command" ]; then shown "$line"; else say "no command ('$ ...') above: $line"; fi ;;
    esac
done <"$dir/blocks"

# A README in another shape must not pass for want of anything to try.
[ "$commands" -ge 10 ] || say "only $commands commands found"
exit $bad
