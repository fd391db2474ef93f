#!/bin/sh
# clang-tidy with the checks of .clang-tidy finds nothing in src/.
set -u
. tests/lint/flags.sh
need_tool clang-tidy
# shellcheck disable=SC2086
tidy() { clang-tidy --quiet "$1" -- $LANGUAGE $INCLUDES; }
if [ "${1:-}" = --file ]; then
    found=$(tidy "$2" 2>/dev/null)
    [ -z "$found" ] && exit 0
    printf '%s\n' "$found"
    exit 1
fi
find src -name '*.c' | sort | each "$0" --file
