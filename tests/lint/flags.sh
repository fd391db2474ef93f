# The compiler flags of the build for the checks that compile; to be read in with `.`.
# Standing alone (not called by tests/run.sh), the checks ask the Makefile.
# shellcheck shell=sh
[ -n "${WARN:-}" ] || eval "$(${MAKE:-make} -s list-flags)"
JOBS=${JOBS:-$(nproc 2>/dev/null || echo 2)}
need_tool() { command -v "$1" >/dev/null || { echo "$1 is not installed"; exit 1; }; }
# each COMMAND...: runs it on every file named on standard input, some at a time.
each() { xargs -r -P "$JOBS" -n 1 "$@"; }
