#!/bin/sh
# What `make install` lays down is enough: a program that knows only the installed headers and
# library compiles, links and runs.
set -u
. tests/lint/flags.sh
root=$(mktemp -d) || exit 2
trap 'rm -rf "$root"' EXIT
${MAKE:-make} -s BUILD="${BUILD:-build}" PREFIX=/usr DESTDIR="$root" install >"$root/log" 2>&1 ||
    { cat "$root/log"; exit 1; }
cat >"$root/user.c" <<'C'
#include <dawnlow/dawnlow.h>
#include <stdio.h>
int main(void)
{
    struct dawn_problems problems = {0};
    struct dawn_scenario *unused = NULL;
    (void)unused;
    dawn_problems_release(&problems);
    return printf("dawnlow %s\n", DAWN_VERSION) < 0;
}
C
libs=$(sed -n 's/^Libs: -L[^ ]* -ldawnlow //p' "$root/usr/lib/pkgconfig/dawnlow.pc")
# shellcheck disable=SC2086
gcc $LANGUAGE -Wall -Werror -I"$root/usr/include" -o "$root/user" "$root/user.c" \
    -L"$root/usr/lib" -ldawnlow $libs || exit 1
from_header=$("$root/user") || exit 1
from_program=$("$root/usr/bin/dawnlow" --version | head -n 1) || exit 1
[ "$from_header" = "$from_program" ] || {
    echo "the header says \"$from_header\", the program says \"$from_program\""
    exit 1
}
${MAKE:-make} -s PREFIX=/usr DESTDIR="$root" uninstall || exit 1
left=$(find "$root/usr" -type f)
[ -z "$left" ] && exit 0
echo "uninstall leaves: $left"
exit 1
