#!/bin/sh
# The dependency rule and its doors (DEVELOPERS.md), read from the sources. Run from the top.
#
#   base <- physics <- {weather, scenario} <- network <- trajectory <- nights <- studies <- report <- cli
#
# A file opens its own room and rooms to its left. A public header belongs to the room it is named
# after; problems.h and version.h belong to base, everything in physics/ to physics.
set -u
strip=tests/lint/strip.awk
found=$(mktemp) || exit 2
trap 'rm -f "$found"' EXIT
sources=$(find src include -name '*.[ch]' | sort)

# shellcheck disable=SC2086
awk -f $strip $sources </dev/null | awk -F: '
BEGIN {
    n = split("base physics weather,scenario network trajectory nights studies report cli", ranks, " ")
    for (i = 1; i <= n; i++) {
        m = split(ranks[i], names, ",")
        for (j = 1; j <= m; j++) rank[names[j]] = i
    }
}
function say(what) { print $1 ":" $2 ": " what }
# The room of a public header, from its name behind "dawnlow/".
function public_room(name) {
    sub(/\.h$/, "", name)
    sub(/\/.*/, "", name)
    return name == "problems" || name == "version" ? "base" : name
}
{
    public = $1 ~ /^include\/dawnlow\//
    room = $1
    if (public) { sub(/^include\/dawnlow\//, "", room); room = public_room(room) }
    else { sub(/^src\//, "", room); if (!sub(/\/.*/, "", room)) room = "(none)" }
    umbrella = $1 == "include/dawnlow/dawnlow.h"
    if (!(room in rank) && !umbrella) {
        if (!($1 in told)) say("no such room: " room)
        told[$1] = 1
        next
    }
    if ($3 !~ /^[ \t]*#[ \t]*include/) next
    dep = $0
    sub(/^[^<"]*[<"]/, "", dep)
    sub(/[>"].*/, "", dep)
    if (dep == "dawnlow/dawnlow.h") {
        if (room != "cli") say("the umbrella header is for callers of the library")
        next
    }
    if (dep ~ /^(arkode|cvodes?|idas?|kinsol|nvector|sun[a-z]+)\//) {
        if (room != "trajectory") say("only trajectory/ opens <" dep ">")
        next
    }
    if (dep == "csv.h" || dep == "yaml.h") {
        if (room != "base") say("only base/ opens <" dep ">")
        next
    }
    if (dep == "nlopt.h") {
        if (room != "studies") say("only studies/ opens <" dep ">")
        next
    }
    if (room == "physics" && dep == "stdio.h") say("physics/ takes and gives numbers only, no <stdio.h>")
    if (dep ~ /^dawnlow\//) { other = substr(dep, 9); other = public_room(other) }
    else if (dep ~ /\//) {
        if (public) say("a public header opens public headers only, not \"" dep "\"")
        other = dep
        sub(/\/.*/, "", other)
        if (other == "sys") next
    } else {
        if ($0 ~ /include[ \t]*"/) say("write \"room/" dep "\", so that the room shows")
        next
    }
    if (!(other in rank)) { say("no such room: " other); next }
    if (umbrella) next
    if (rank[other] > rank[room]) say(room "/ reaches right into " other "/")
    else if (rank[other] == rank[room] && other != room) say(room "/ and " other "/ do not see each other")
}' >"$found"

# ban PATHS PATTERN WHY: PATTERN in code, outside comments and texts; PATHS is a grep -E on the file.
# shellcheck disable=SC2086
code=$(awk -v texts=blank -f $strip $sources </dev/null)
ban() {
    printf '%s\n' "$code" | grep -E "^($1)" |
        grep -E "^[^:]*:[0-9]+:(.*[^A-Za-z0-9_])?($2)" |
        sed -E "s@^([^:]*:[0-9]+):(.*)@\1: $3: \2@" >>"$found"
}
# call NAME|NAME...: any of them called (or declared, or pointed to by its bare name and a bracket).
call() { printf '(%s)[ \\t]*\\(' "$1"; }
rooms_but_cli='src/[abd-z]|src/c[a-km-z]|include/'

ban "$rooms_but_cli" "$(call 'getenv|secure_getenv|isatty|exit|_exit|_Exit|quick_exit|atexit|abort|main')" \
    'only cli/ knows the process it runs in'
ban "$rooms_but_cli" '(argv|argc|environ|stdin|stdout|stderr)([^A-Za-z0-9_]|$)' \
    'only cli/ knows the process it runs in'
ban "$rooms_but_cli" "$(call 'printf|vprintf|puts|putchar|perror')" 'only cli/ knows the screen'
ban 'src/physics/' "$(call 'malloc|calloc|realloc|free|fopen')" 'physics/ takes and gives numbers only'
ban 'src/|include/' \
    "$(call 'sprintf|vsprintf|strcpy|strcat|gets|strtok|scanf|fscanf|sscanf|system|popen|alloca')" \
    'banned, it cannot be used safely'
ban 'src/|include/' "$(call 'atoi|atol|atoll|atof')" 'banned, it cannot tell an error from a nought'
ban 'src/|include/' "$(call 'localtime|localtime_r|mktime|tzset|strftime|strptime')" \
    'banned, it asks the zone or the locale; use base/civil.h'
ban 'src/|include/' "$(call 'rand|srand|random|srandom|drand48')" 'banned, a seed must give the same everywhere'
ban 'src/[ac-z]|src/b[b-z]|include/' "$(call 'strtod|strtof|strtold')" \
    'banned, it asks the locale; use base/text.h'
ban 'src/|include/' 'setlocale[ \t]*\([^,]*LC_(NUMERIC|ALL)([^A-Za-z0-9_]|$)' \
    'banned, numbers must not follow the locale'

# Flags that let the compiler change what a sum comes to (written apart, to not find themselves).
# shellcheck disable=SC2046
grep -nE -e '-(fast-ma''th|ffast-ma''th|Ofa''st|funsafe-ma''th[a-z-]*|ffinite-ma''th-only)' \
    Makefile $(find src tests .ci -name '*.mk' -o -name '*.sh' -o -name '*.[ch]' 2>/dev/null) /dev/null |
    sed 's/$/: the compiler must not trade exactness for speed/' >>"$found"

# The top level is for its users; everything else has a room of its own.
if git rev-parse --is-inside-work-tree >/dev/null 2>&1; then
    top=$(git ls-files --cached --others --exclude-standard | sed 's|/.*||' | sort -u)
else
    top=$(ls -A)
fi
for name in $top; do
    case $name in
    README.md | DEVELOPERS.md | Makefile | LICENSE | src | include | tests | weather | scenarios | .* | \
        build) ;;
    *) echo "$name: does not belong to the top level" >>"$found" ;;
    esac
done

cat "$found"
[ ! -s "$found" ]
