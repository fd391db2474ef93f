#!/bin/sh
# Names and words: a file's name is found once in the whole tree, and no text speaks of the machine
# it was written on or of work left undone.
set -u
bad=0
tree() { find . -path ./.git -prune -o -path "./${BUILD:-build}" -prune -o -path ./build -prune -o -type f -print; }

# What is many of a kind by nature: pages about a folder, the inputs of fuzzers.
twice=$(find src tests -type f ! -name README.md ! -path '*/corpus/*' ! -path '*/__pycache__/*' |
    sed 's|.*/||' | sort | uniq -d)
for name in $twice; do
    echo "$(find src tests -name "$name" | sort | tr '\n' ' '): one name for two files"
    bad=1
done

# Written apart so that this file does not find itself.
machine='(^|[^A-Za-z0-9_.])/wo''rk/|/tmp/(h[a-z]*_ru''les|build-[a-z]|tool''ing|clean-ro''ot|bash_jo''bs)|\.\./sha''red'
undone='(^|[^A-Za-z])(TO''DO|FIX''ME|XX''X|HA''CK)([^A-Za-z]|$)'
hits=$(tree | xargs grep -InE -e "$machine" /dev/null | sed 's/$/   <- a path of one machine/')
hits="$hits
$(tree | grep -v '/corpus/' | xargs grep -InE -e "$undone" /dev/null | sed 's/$/   <- do it, or write it in an issue/')"
hits=$(printf '%s\n' "$hits" | sed '/^$/d')
[ -n "$hits" ] && { printf '%s\n' "$hits"; bad=1; }

# Pages link to what is there.
links=$(tree | grep '\.md$' | while IFS= read -r page; do
    grep -oE '\]\([^):#]+[)#]' "$page" | sed 's/^](//; s/[)#]$//' | while IFS= read -r target; do
        [ -e "$(dirname "$page")/$target" ] || echo "$page: links to $target, which is not there"
    done
done)
[ -n "$links" ] && { printf '%s\n' "$links"; bad=1; }

# Blanks at line ends and missing last newlines make diffs speak of nothing.
ends=$(tree | grep -E '\.(c|h|sh|py|md|yaml|awk)$|Makefile$|/\.[a-z-]+$' | xargs grep -InE -e '[ 	]+$' /dev/null |
    grep -v '\.md:.*[^ ]  $')
[ -n "$ends" ] && { printf '%s\n' "$ends" | sed 's/$/   <- blank at the end of the line/'; bad=1; }
exit $bad
