#!/bin/sh
# The manual pages are good mdoc, and the completions are good bash, zsh and fish.
set -u
program=${DAWNLOW:-${BUILD:-build}/dawnlow}
[ -x "$program" ] || { echo "$program is not built"; exit 1; }
dir=$(mktemp -d) || exit 2
trap 'rm -rf "$dir"' EXIT
bad=0
for page in $("$program" manual); do
    "$program" manual "${page%.*}" >"$dir/$page" || bad=1
done
cp src/cli/man/*.[1-8] "$dir" || bad=1
[ "$(find "$dir" -name '*.[1-8]' | wc -l)" -ge 4 ] || { echo "pages are missing"; bad=1; }
# That the pages are not installed where it looks for cross references is no fault of theirs.
mandoc -T lint "$dir"/*.[1-8] 2>&1 | grep -v 'referenced manual not found: Xr dawnlow' && bad=1
for shell in bash zsh fish; do
    "$program" completion $shell >"$dir/$shell" && $shell -n "$dir/$shell" || bad=1
done
exit $bad
