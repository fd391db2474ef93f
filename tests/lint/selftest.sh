#!/bin/sh
# Every lint can fail: in a small clean tree all of them pass, and each planted fault is caught by
# the check that is there for it, by name.
set -u
. tests/lint/flags.sh
export WARN LANGUAGE INCLUDES
# A leftover of the build this runs in must not leak into the small tree.
unset DAWNLOW
home=$PWD
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
bad=0

clean_tree() {
    rm -rf "$work/tree"
    mkdir -p "$work/tree/tests" "$work/tree/src/base" "$work/tree/src/physics" "$work/tree/src/cli" \
        "$work/tree/src/weather" "$work/tree/include/dawnlow/physics"
    cp -R "$home/tests/lint" "$work/tree/tests/"
    cp "$home/.clang-format" "$home/.clang-tidy" "$work/tree/"
    cd "$work/tree" || exit 2
    cat >include/dawnlow/physics/sum.h <<'C'
/* A sum. */
#ifndef DAWNLOW_PHYSICS_SUM_H
#define DAWNLOW_PHYSICS_SUM_H

double dawn_sum_of(double a, double b);
const char *dawn_sum_word(void);

#endif
C
    cat >src/physics/sum.c <<'C'
/* getenv( and sprintf( in a comment, and "exit(" in a text, are nobody's business. */
#include "dawnlow/physics/sum.h"

double dawn_sum_of(double a, double b)
{
    return a + b;
}

const char *dawn_sum_word(void)
{
    return "strcpy(a, b) // argv";
}
C
}

# pass CHECK: it has nothing to say about the clean tree.
pass() {
    check=$1
    shift
    out=$(sh "tests/lint/$check" "$@" 2>&1) && return
    echo "$check complains about a clean tree: $out"
    bad=1
}
# caught CHECK WORDS: it fails now and says WORDS (grep -E). Then all is cleaned up.
caught() {
    check=$1 words=$2
    shift 2
    if out=$(sh "tests/lint/$check" "$@" 2>&1); then
        echo "$check let pass: $words"
        bad=1
    elif ! printf '%s\n' "$out" | grep -qE -e "$words"; then
        echo "$check did not say \"$words\" but: $out"
        bad=1
    fi
    clean_tree
}
compiled() { gcc -std=c17 -Iinclude -Isrc -c -o "$work/$(basename "$1" .c).o" "$1"; }

clean_tree
for check in layers words format warnings arm64 headers tidy cppcheck; do pass check_$check.sh; done
compiled src/physics/sum.c && pass check_symbols.sh "$work/sum.o"

# plant FILE LINE...: adds lines to a file.
plant() {
    file=$1
    shift
    mkdir -p "$(dirname "$file")"
    printf '%s\n' "$@" >>"$file"
}

# -- layers
plant src/base/text.c '#include "dawnlow/physics/sum.h"'
caught check_layers.sh 'src/base/text.c:1: base/ reaches right into physics/'
plant src/physics/sky.c '#include "cli/options.h"'
caught check_layers.sh 'physics/ reaches right into cli/'
plant src/weather/weather_read.c '#include "dawnlow/scenario.h"'
caught check_layers.sh 'weather/ and scenario/ do not see each other'
plant include/dawnlow/scenario.h '#include "dawnlow/weather.h"'
caught check_layers.sh 'scenario/ and weather/ do not see each other'
plant include/dawnlow/physics/sky.h '#include "dawnlow/nights.h"'
caught check_layers.sh 'physics/ reaches right into nights/'
plant include/dawnlow/nights.h '#include "nights/inner.h"'
caught check_layers.sh 'a public header opens public headers only'
plant src/weather/weather_read.c '#include <csv.h>'
caught check_layers.sh 'only base/ opens <csv.h>'
plant src/cli/main.c '#  include  <yaml.h>'
caught check_layers.sh 'only base/ opens <yaml.h>'
plant src/cli/main.c '#include <cvode/cvode.h>'
caught check_layers.sh 'only trajectory/ opens <cvode/cvode.h>'
plant src/physics/sky.c '#include <sunmatrix/sunmatrix_dense.h>'
caught check_layers.sh 'only trajectory/ opens <sunmatrix'
plant src/base/text.c '#include "dawnlow/dawnlow.h"'
caught check_layers.sh 'the umbrella header is for callers'
plant src/base/text.c '#include "text.h"'
caught check_layers.sh 'so that the room shows'
plant src/misc/text.c 'int x;'
caught check_layers.sh 'no such room: misc'
for call in 'getenv("HOME")' 'isatty(1)' 'exit(1)' 'printf("x")' 'sprintf(a, "x")' 'strcpy(a, b)' \
    'atoi(a)' 'gets(a)' 'setlocale(LC_NUMERIC, "")' 'setlocale(LC_ALL, "")' 'strtod(a, 0)' \
    'localtime(a)' 'rand()' 'malloc(3)'; do
    plant src/physics/sky.c 'int f(void)' '{' "    return 0 + $call;" '}'
    caught check_layers.sh 'src/physics/sky.c:3: .*(only cli/|banned|must not follow|numbers only)'
done
plant src/base/text.c 'static int n(char **argv);'
caught check_layers.sh 'src/base/text.c:1: only cli/ knows the process'
plant src/report/report_text.c 'int x = fputs("x", stdout);'
caught check_layers.sh 'src/report/report_text.c:1: only cli/ knows the process'
plant src/cli/options.c 'int x = sprintf(a, b);'
caught check_layers.sh 'src/cli/options.c:1: banned'
plant Makefile 'CFLAGS = -ffast-ma''th'
caught check_layers.sh 'Makefile:1:.*exactness'
plant notes.txt 'x'
caught check_layers.sh 'notes.txt: does not belong to the top level'

# -- symbols
plant src/physics/sky.c 'int sky_high(void);' 'int sky_high(void) { return 1; }'
compiled src/physics/sky.c
caught check_symbols.sh 'sky_high should start dawn_sky' "$work/sky.o"
plant src/physics/sky.c 'int dawn_sum_more = 1;'
compiled src/physics/sky.c
caught check_symbols.sh 'dawn_sum_more should start dawn_sky' "$work/sky.o"
caught check_symbols.sh 'is not built' "$work/none.o"
plant include/dawnlow/physics/sky.h '#define SKY_HIGH 1'
caught check_symbols.sh 'names in public headers' "$work/sum.o"
plant include/dawnlow/physics/sky.h 'struct sky {'
caught check_symbols.sh 'names in public headers' "$work/sum.o"

# -- words
plant src/base/sum.c 'int x;'
caught check_words.sh 'one name for two files'
plant src/base/text.c '/* see /wo''rk/notes */'
caught check_words.sh 'src/base/text.c:1:.*a path of one machine'
plant src/base/text.c '/* TO''DO */'
caught check_words.sh 'src/base/text.c:1:.*do it'
plant src/base/text.c 'int x; '
caught check_words.sh 'src/base/text.c:1:.*blank at the end'
plant src/README.md 'see [the rules](../RULES.md#one)'
caught check_words.sh 'src/README.md: links to ../RULES.md'

# -- outside checks
outside_tree() {
    plant tests/README.md '## Outside checks' '### Physics (`unit/physics/`)' '| `test_sum.c` | |'
    plant tests/unit/physics/test_sum.c 'cmocka_unit_test(test_adds), cmocka_unit_test(test_word),'
    plant tests/outside/sum.py ''
    plant tests/outside/checks.txt 'outside/sum.py' '  own: every line' 'unit/physics/test_sum.c' \
        '  closed form: test_adds'
}
outside_tree
plant tests/outside/checks.txt '  own: test_word'
pass check_outside.sh
clean_tree
outside_tree
caught check_outside.sh 'unit/physics/test_sum.c test_word: not in tests/outside/checks.txt'
outside_tree
plant tests/outside/checks.txt '  hearsay: test_word'
caught check_outside.sh 'no such kind: hearsay'
outside_tree
plant tests/outside/checks.txt '  own: test_word test_gone'
caught check_outside.sh 'test_sum.c test_gone: no such test case'
outside_tree
plant tests/outside/checks.txt '  own: test_word test_adds'
caught check_outside.sh 'test_sum.c test_adds: named twice'
outside_tree
plant tests/outside/checks.txt '  own: test_word'
plant tests/outside/more.py ''
caught check_outside.sh 'more.py: not in tests/outside/checks.txt'
outside_tree
plant tests/outside/checks.txt '  own: test_word' 'outside/sum.py' '  oracle: every line'
caught check_outside.sh 'outside/sum.py: no row in the table'
outside_tree
plant tests/outside/checks.txt '  own: test_word'
plant tests/exact/test_one.c 'x'
plant tests/README.md '| `exact/test_one.c` | |'
caught check_outside.sh 'exact/test_one.c: in the table of tests/README.md, but nothing'

# -- tools
plant src/base/text.c 'int   x;'
caught check_format.sh 'src/base/text.c:1'
plant src/base/text.c 'double dawn_text(int n);' 'double dawn_text(int n) { int m = 3.5; return n; }'
caught check_warnings.sh 'src/base/text.c:2.*error'
plant tests/unit/base/test_text.c 'void shows(void) {}'
caught check_warnings.sh 'tests/unit/base/test_text.c:1.*error'
if command -v aarch64-linux-gnu-gcc >/dev/null; then
    plant src/base/text.c '#include <immintrin.h>'
    caught check_arm64.sh 'src/base/text.c:1.*immintrin'
fi
plant include/dawnlow/physics/sky.h 'size_t dawn_sky_count(void);'
caught check_headers.sh 'sky.h: does not stand alone in C$'
plant include/dawnlow/physics/sky.h 'struct dawn_sky { int x; };'
caught check_headers.sh 'sky.h: does not stand alone in C$'
plant include/dawnlow/physics/sky.h '#ifndef A' '#define A' 'int dawn_sky(int class);' '#endif'
caught check_headers.sh 'sky.h: does not stand in C\+\+'
plant src/base/text.c 'int dawn_text(int n);' \
    'int dawn_text(int n) { int a[3] = {0}; for (int i = 0; i <= n; i++) ; { a[n > 2 ? 2 : 0] = 1; } return a[0]; }'
caught check_tidy.sh 'bugprone'
plant src/base/text.c 'int dawn_text(void);' 'int dawn_text(void) { int a[3] = {0}; a[3] = 1; return a[0]; }'
caught check_cppcheck.sh 'arrayIndexOutOfBounds'

[ "$bad" -eq 0 ] && echo "every check was seen to fail"
exit $bad
