#!/bin/sh
# Every header stands alone: compiled by itself in C, twice in one unit, and, when it is public and
# a C++ compiler is here, in C++ inside extern "C" as its users would.
set -u
. tests/lint/flags.sh
need_tool gcc
plus=
for compiler in g++ clang++ clang; do
    command -v "$compiler" >/dev/null && { plus=$compiler; break; }
done
bad=0
# shellcheck disable=SC2086
for header in $(find include src -name '*.h' | sort); do
    name=${header#include/}
    name=${name#src/}
    printf '#include "%s"\n#include "%s"\nextern int dawn_alone;\n' "$name" "$name" |
        gcc $LANGUAGE $WARN $INCLUDES -x c -fsyntax-only - || { echo "$header: does not stand alone in C"; bad=1; }
    case $header in include/*) ;; *) continue ;; esac
    [ -n "$plus" ] || continue
    printf 'extern "C" {\n#include "%s"\n}\n' "$name" |
        "$plus" -Wall -Wextra -Werror -Iinclude -x c++ -fsyntax-only - || { echo "$header: does not stand in C++"; bad=1; }
done
exit $bad
