#!/bin/sh
# A name tells its file: every exported symbol is dawn_ + first word of the file's name (+ rest),
# main() in main.c excepted. And public headers add no name to a program that is not dawn's.
# Usage: check_symbols.sh [OBJECT...]; without, the objects of the build in $BUILD.
set -u
if [ $# -eq 0 ]; then
    # One object a word.
    # shellcheck disable=SC2046
    set -- $(${MAKE:-make} -s BUILD="${BUILD:-build}" list-objects)
fi
[ $# -gt 0 ] || { echo "no objects: build first"; exit 1; }
bad=0
for object in "$@"; do
    [ -f "$object" ] || { echo "$object: is not built"; bad=1; continue; }
    file=$(basename "$object" .o)
    word=${file%%_*}
    for symbol in $(nm -g --defined-only "$object" | awk '$2 ~ /[A-TV-Z]/ { print $3 }'); do
        case $symbol in
        "dawn_$word" | "dawn_${word}_"*) continue ;;
        main) [ "$file" = main ] && continue ;;
        # What the compiler's own instruments add.
        __asan_* | __ubsan_* | __odr_asan* | __gcov* | __llvm* | *.constprop.* | *.part.* | .gomp_*) continue ;;
        esac
        echo "$object: $symbol should start dawn_$word, or be static"
        bad=1
    done
done

# shellcheck disable=SC2046
awk -v texts=blank -f tests/lint/strip.awk $(find include -name '*.h') </dev/null |
    grep -E ':[ \t]*(# *define +|(struct|enum|union) +)[A-Za-z]' |
    grep -vE ':[ \t]*(# *define +DAWN(LOW)?_|(struct|enum|union) +dawn_)' &&
    { echo "the lines above: names in public headers start dawn_ or DAWN_"; bad=1; }
exit $bad
