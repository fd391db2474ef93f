# A reader that goes away, a closed standard output, a full disk: told, status 2, no crash.
. tests/support/small_nursery.sh

# More than a pipe holds (64 KiB on Linux, pipe(7)), so that the writer must notice.
{
    code=0
    "$DAWNLOW" weather "$dir/week.csv" --json --latitude 47.5 --longitude 8.5 2>"$dir/err" || code=$?
    echo "$code" >"$dir/code"
} | head -c 10 >/dev/null
[ "$(cat "$dir/code")" = 2 ] || fail "status $(cat "$dir/code") when the reader goes away"
err_has "cannot write to the standard output"

status=0
"$DAWNLOW" nights "$dir/house.yaml" >&- 2>"$dir/err" || status=$?
[ "$status" -eq 2 ] || fail "status $status with standard output closed"
err_has "cannot write to the standard output"

# With standard output closed, nothing of the report may end up in the series.
status=0
"$DAWNLOW" nights "$dir/house.yaml" --series "$dir/series.csv" >&- 2>"$dir/err" || status=$?
[ "$status" -eq 2 ] || fail "status $status with standard output closed"
[ ! -e "$dir/series.csv" ] || fail "a series although the report was lost"

# /dev/full takes nothing: full(4). Not every system has it.
if [ -c /dev/full ]; then
    for ask in "nights $dir/house.yaml" "check $dir/house.yaml" "explain" "--help" "--version" "nights --help" \
        "network $dir/house.yaml --json"; do
        status=0
        # Word splitting is wanted.
        # shellcheck disable=SC2086
        "$DAWNLOW" $ask >/dev/full 2>"$dir/err" || status=$?
        [ "$status" -eq 2 ] || fail "status $status on a full disk: $ask"
        err_has "No space left"
    done
    status=0
    "$DAWNLOW" nights "$dir/house.yaml" --series "$dir/series.csv" >/dev/full 2>"$dir/err" || status=$?
    [ "$status" -eq 2 ] || fail "status $status on a full disk"
    [ ! -e "$dir/series.csv" ] || fail "a series although the disk was full"
    status=0
    "$DAWNLOW" nights "$dir/house.yaml" --series /dev/full --output "$dir/result" 2>"$dir/err" || status=$?
    [ "$status" -eq 2 ] || fail "status $status on a full disk"
    [ ! -e "$dir/result" ] || fail "a result although the series was lost"
fi
exit 0
