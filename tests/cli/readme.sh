#!/bin/sh
# README.md cannot drift: what it shows is run in a tree of its own (tests/support/shown.sh).
set -u
DAWNLOW=${DAWNLOW:-build/dawnlow}
case $DAWNLOW in /*) ;; *) DAWNLOW=$PWD/$DAWNLOW ;; esac
top=$PWD
dir=$(mktemp -d) || exit 1
trap 'rm -rf "$dir"' EXIT
. tests/support/shown.sh
page=README.md
shown_dir=$dir
mkdir "$dir/tree" "$dir/tree/build" || exit 1
cp -R scenarios weather "$dir/tree" || exit 1
ln -s "$DAWNLOW" "$dir/tree/build/dawnlow"
cd "$dir/tree" || exit 1

# The first paragraph states the job.
awk '/^#/ || (!text && /^$/) { next } /^$/ { exit } { text = 1; print }' "$top/README.md" >"$dir/first"
for word in fan rock barrels; do
    grep -qw "$word" "$dir/first" || say "no '$word' in the first paragraph"
done

awk '/^```/ { inside = !inside; print "```"; next } inside' "$top/README.md" >"$dir/blocks"
run_shown "$dir/blocks"

# A README in another shape must not pass for want of anything to try.
[ "$commands" -ge 10 ] || say "only $commands commands found"
exit $bad
