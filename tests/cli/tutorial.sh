#!/bin/sh
# dawnlow-tutorial(7) cannot drift: what it shows is run in an empty folder, as its reader does it,
# with the program found in PATH (tests/support/shown.sh).
set -u
DAWNLOW=${DAWNLOW:-build/dawnlow}
case $DAWNLOW in /*) ;; *) DAWNLOW=$PWD/$DAWNLOW ;; esac
top=$PWD
dir=$(mktemp -d) || exit 1
trap 'rm -rf "$dir"' EXIT
. tests/support/shown.sh
page=dawnlow-tutorial.7
shown_dir=$dir
mkdir "$dir/bin" "$dir/empty" || exit 1
ln -s "$DAWNLOW" "$dir/bin/dawnlow"
PATH=$dir/bin:$PATH
export PATH
cd "$dir/empty" || exit 1

# Blocks of .Bd -literal, without what guards them from being markup.
awk '/^\.Bd -literal/ { inside = 1; print "```"; next } /^\.Ed/ { inside = 0 }
    inside { gsub(/\\&/, ""); gsub(/\\-/, "-"); gsub(/\\e/, "\\"); print }' \
    "$top/src/cli/man/dawnlow-tutorial.7" >"$dir/blocks"
run_shown "$dir/blocks"
[ "$commands" -ge 8 ] || say "only $commands commands found"
exit $bad
