#!/bin/sh
# Every source is taken without a warning by a compiler for another kind of processor, arm64, with
# the lanes of the processor as plain C. DEVELOPERS.md tells how to link and run it, too.
set -u
. tests/lint/flags.sh
compiler=aarch64-linux-gnu-gcc
# Where Debian has no such package, as in a small archive, there is nothing to ask.
command -v "$compiler" >/dev/null || { echo "skipped: $compiler cannot be had here"; exit 0; }
printf '#include <math.h>\n' | "$compiler" -fsyntax-only -x c - 2>/dev/null ||
    { echo "skipped: the C library's headers for arm64 (libc6-dev-arm64-cross) cannot be had here"; exit 0; }
# The libraries' headers are the same for all processors; the C library's own come first.
# The flags are lists of words.
# shellcheck disable=SC2086
find src -name '*.c' | each "$compiler" $LANGUAGE $WARN $INCLUDES -idirafter /usr/include -O2 -fsyntax-only
