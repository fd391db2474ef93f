#!/bin/sh
# cppcheck's second opinion.
set -u
. tests/lint/flags.sh
need_tool cppcheck
cppcheck -q -j "$JOBS" --enable=warning,performance,portability,style --std=c11 --inline-suppr \
    --suppress=missingIncludeSystem --suppress=variableScope --error-exitcode=1 -D__STDC_VERSION__=201710L -Iinclude -Isrc src 2>&1
