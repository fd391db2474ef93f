#!/bin/sh
# clang-format finds nothing to change (make format makes it so).
set -u
command -v clang-format >/dev/null || { echo "clang-format is not installed"; exit 1; }
find src include tests -name '*.[ch]' -print0 | xargs -0 -r clang-format --dry-run --Werror 2>&1 |
    grep -E 'error:|warning:' && exit 1
exit 0
