#!/bin/sh
# What `make install` lays down is enough: a program that knows only the installed headers and
# library compiles, links and runs; the program finds what it needs; uninstall leaves nothing; and the
# Debian package holds the same and is the same each time it is built.
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
# The manual, the completions and the examples are there, and the installed program finds its weather.
for file in share/man/man1/dawnlow.1 share/man/man5/dawnlow-scenario.5 \
    share/man/man5/dawnlow-weather.5 share/man/man7/dawnlow-tutorial.7 \
    share/bash-completion/completions/dawnlow share/zsh/site-functions/_dawnlow \
    share/fish/vendor_completions.d/dawnlow.fish share/dawnlow/scenarios/alder-hollow.yaml; do
    [ -s "$root/usr/$file" ] || { echo "install does not lay down $file"; exit 1; }
done
PATH=$root/usr/bin:$PATH
(cd "$root" && dawnlow new own.yaml --answer barrels=4 >/dev/null && dawnlow check own.yaml |
    grep -q "can be used with $root/usr/share/dawnlow/weather/") ||
    { echo "the installed program does not find its weather"; exit 1; }
dawnlow nights "$root/usr/share/dawnlow/scenarios/alder-hollow.yaml" --from 03-12 --to 03-13 \
    >/dev/null || exit 1

# The Debian package holds the same program, and names the libraries it needs.
deb=$(${MAKE:-make} -s BUILD="${BUILD:-build}" deb 2>"$root/log") || { cat "$root/log"; exit 1; }
dpkg-deb -x "$deb" "$root/unpacked" || exit 1
"$root/unpacked/usr/bin/dawnlow" --version | grep -qxF "$from_program" || exit 1
dpkg-deb -f "$deb" Depends | grep -q 'libc6.*libsundials-cvode' ||
    { echo "the package depends on: $(dpkg-deb -f "$deb" Depends)"; exit 1; }
cp "$deb" "$root/first.deb"
${MAKE:-make} -s BUILD="${BUILD:-build}" deb >/dev/null 2>&1
cmp "$root/first.deb" "$deb" || exit 1

${MAKE:-make} -s PREFIX=/usr DESTDIR="$root" uninstall || exit 1
left=$(find "$root/usr" -type f)
[ -z "$left" ] && exit 0
echo "uninstall leaves: $left"
exit 1
