#!/bin/sh
# Installs the Debian packages that a Make target needs and that are missing.
# Usage: tests/support/need.sh demo|test|fuzz
#
# Nothing is fetched when everything is there, so a second run works without a network. Set
# DAWNLOW_NEED=skip to leave the system alone, for those who bring the libraries themselves.
set -u

# libsundials-dev brings MPI, PETSc and a Fortran compiler along: Debian packs SUNDIALS as one piece.
demo='gcc libc6-dev libsundials-dev libnlopt-dev libcsv-dev libyaml-dev'
test='libcmocka-dev clang clang-format clang-tidy cppcheck gcovr valgrind jq libxml2-utils
chromium poppler-utils w3c-sgml-lib
gcc-aarch64-linux-gnu libc6-dev-arm64-cross
locales mandoc zsh fish dpkg-dev python3 python3-numpy python3-scipy python3-vega-datasets'

case ${1:-} in
demo) wanted=$demo ;;
test) wanted="$demo $test" ;;
fuzz) wanted="$demo clang libclang-rt-dev" ;;
*)
    echo "usage: $0 demo|test|fuzz" >&2
    exit 2
    ;;
esac

[ "${DAWNLOW_NEED:-}" = skip ] && exit 0

wanted=$(echo "$wanted" | tr '\n' ' ')

if ! command -v dpkg-query >/dev/null 2>&1 || ! command -v apt-get >/dev/null 2>&1; then
    echo "This is not a Debian system, so nothing is installed by itself. What is needed goes under" >&2
    echo "these names in Debian 12; if the next step fails, install their like: $wanted" >&2
    exit 0
fi

missing=
for package in $wanted; do
    state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)
    [ "$state" = installed ] || missing="${missing:+$missing }$package"
done
[ -n "$missing" ] || exit 0

as_root=
if [ "$(id -u)" -ne 0 ]; then
    as_root=sudo
    if ! command -v sudo >/dev/null 2>&1; then
        echo "These Debian packages are missing and only root can install them (there is no sudo here)." >&2
        echo "As root, run:  apt-get update && apt-get install --no-install-recommends $missing" >&2
        exit 1
    fi
    if ! sudo -n true 2>/dev/null && ! [ -t 0 ]; then
        echo "These Debian packages are missing and sudo needs a password, which nobody can type here." >&2
        echo "Run once:  sudo apt-get update && sudo apt-get install --no-install-recommends $missing" >&2
        exit 1
    fi
fi

echo "Installing from Debian (once): $missing"
log=$(mktemp) || exit 1
trap 'rm -f "$log"' EXIT

# A list that cannot be refreshed is no reason to give up: the install tells whether it mattered.
apt() {
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get -o Dpkg::Use-Pty=0 -qq "$@" >>"$log" 2>&1
}
apt update || echo "  (apt-get update had complaints; going on with the lists that are there)"
# The list holds one package a word.
# shellcheck disable=SC2086
if ! apt install -y --no-install-recommends $missing; then
    tail -n 15 "$log" >&2
    echo "apt-get could not install: $missing" >&2
    echo "The lines above say why; without a network or with a full disk, mend that and try again." >&2
    exit 1
fi
