#!/bin/sh
# gcc and clang both take every source without a warning.
set -u
. tests/lint/flags.sh
bad=0
for compiler in gcc clang; do
    need_tool "$compiler"
    # The flags are lists of words.
    # shellcheck disable=SC2086
    find src -name '*.c' | each "$compiler" $LANGUAGE $WARN $INCLUDES -O2 -fsyntax-only || bad=1
    # shellcheck disable=SC2086
    find tests -name '*.c' | each "$compiler" $LANGUAGE $WARN $INCLUDES -Itests -O2 -fsyntax-only || bad=1
done
exit $bad
