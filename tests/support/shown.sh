# Read in by shell cases that hold a page to what the program prints: every command the page shows
# ("$ ..." in its blocks) runs, in order, and every line below one is printed by it. Figures may
# differ, words may not: compilers and better physics move a tenth of a degree.
#   $page            its name, for messages
#   run_shown FILE   the blocks; a line "```" begins or ends one; $commands counts what was run. Each
#                    is called by run_here, which a case may write anew: it leaves $status, and what
#                    was printed in $shown_dir/out
#   $shown_dir       a folder of its own for what comes of the commands
#   $bad             1 when something was wrong
bad=0
commands=0
say() {
    echo "$page: $*"
    bad=1
}

# Every number is 0 and every run of blanks one.
masked() { sed -E 's/-?[0-9][-0-9.:]*(e-?[0-9]+)?/0/g; s/ +/ /g; s/ $//' "$@"; }

run_here() {
    sh -c "$1" >"$shown_dir/out" 2>&1 </dev/null
    status=$?
}
try() {
    commands=$((commands + 1))
    run_here "$1"
    masked "$shown_dir/out" >"$shown_dir/masked"
    [ "$status" -eq 0 ] && return
    say "exit status $status: $1"
    head -n 5 "$shown_dir/out"
}
shown() {
    printf '%s\n' "$1" | masked >"$shown_dir/line"
    grep -qxF -f "$shown_dir/line" "$shown_dir/masked" || say "not printed by $command: $1"
}
run_shown() {
    command=
    while IFS= read -r line; do
        case $line in
        '```') command= ;;
        '$ '*)
            command=${line#??}
            try "$command"
            ;;
        '...' | '' | 'make '*) ;;
        *) if [ -n "$command" ]; then shown "$line"; else say "no command ('$ ...') above: $line"; fi ;;
        esac
    done <"$1"
}
