#!/bin/sh
# Builds the Debian package of the program below $BUILD/deb, from what `make install` lays down, and
# prints its name. Called by `make deb`. What it depends on is found by dpkg-shlibdeps. The same
# source gives the same package: no clock, files belong to root.
set -eu
build=${BUILD:-build}
version=$(sed -n 's/^#define DAWN_VERSION "\(.*\)"/\1/p' include/dawnlow/version.h)
architecture=$(dpkg --print-architecture)
# The day of the words in the manual pages stands for all files, unless the caller names one.
SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH:-$(date -u -d "$(sed -n \
    's/^#define MANUAL_DATE "\(.*\)"/\1/p' src/cli/mdoc.c)" +%s)}
export SOURCE_DATE_EPOCH
work=$build/deb
root=$work/dawnlow_${version}_$architecture
rm -rf "$work"
mkdir -p "$root/DEBIAN" "$work/debian"
umask 022

# The static library and its headers are for those who build; the package is for growers.
${MAKE:-make} -s BUILD="$build" PREFIX=/usr DESTDIR="$root" \
    ZSH_PLACE=share/zsh/vendor-completions/_dawnlow install-program >&2
strip --strip-unneeded "$root/usr/bin/dawnlow"
doc=$root/usr/share/doc/dawnlow
install -d "$doc"
install -m 644 README.md "$doc/README.md"
{
    echo 'Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/'
    echo 'Upstream-Name: dawnlow'
    echo
    echo 'Files: *'
    sed -n 's/^Copyright.*(c) \(.*\)/Copyright: \1/p; s/^Copyright (C) \(.*\)/Copyright: \1/p' LICENSE |
        head -n 1
    echo 'License: Expat'
    sed '1,/^Copyright/d; s/^$/./; s/^/ /' LICENSE | sed '1{/^ \.$/d;}'
} >"$doc/copyright"
printf 'dawnlow (%s) stable; urgency=medium\n\n  * See README.md.\n\n -- dawnlow <dawnlow@localhost>  %s\n' \
    "$version" "$(date -u -R -d "@$SOURCE_DATE_EPOCH")" | gzip -9n >"$doc/changelog.gz"
find "$root/usr/share/man" -type f -exec gzip -9n {} +

# dpkg-shlibdeps wants a source package around it.
printf 'Source: dawnlow\n\nPackage: dawnlow\nArchitecture: any\n' >"$work/debian/control"
program=$(realpath "$root/usr/bin/dawnlow")
depends=$(cd "$work" && dpkg-shlibdeps -O "$program" 2>/dev/null | sed -n 's/^shlibs:Depends=//p')
[ -n "$depends" ] || { echo "dpkg-shlibdeps found no library that the program needs" >&2; exit 1; }
cat >"$root/DEBIAN/control" <<END
Package: dawnlow
Version: $version
Architecture: $architecture
Maintainer: dawnlow <dawnlow@localhost>
Installed-Size: $(du -sk --exclude=DEBIAN "$root" | cut -f 1)
Depends: $depends
Section: science
Priority: optional
Description: how low the nights go in an unheated nursery
 From a description of a glazed nursery without a heater - its rock bed and
 fan, its barrels of water - and hourly weather, dawnlow tells for every night
 how low it goes at the trays, at the leaves, in the air and at the roots, how
 near to freezing that is, and what would help.
END
(cd "$root" && find usr -type f -exec md5sum {} + | LC_ALL=C sort -k 2) >"$root/DEBIAN/md5sums"
find "$root" -exec touch -h -d "@$SOURCE_DATE_EPOCH" {} +
dpkg-deb --root-owner-group --build "$root" "$work" >&2
echo "$work/dawnlow_${version}_$architecture.deb"
