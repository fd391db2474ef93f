#!/bin/sh
# How many outside checks ran and agreed, by what they are held against: one line, from
# tests/outside/checks.txt and what the tests said. Usage: outside.sh RESULTS
set -u
awk -v results="$1" '
    # How often a pattern stands in what a test said.
    function said(section, file, pattern,   log_file, line, count) {
        sub(/\.c$/, "", file)
        gsub("/", "_", file)
        log_file = results "/" section "/tests_" file ".log"
        while ((getline line < log_file) > 0)
            if (line ~ pattern) count++
        close(log_file)
        return count + 0
    }
    /^#/ || /^$/ { next }
    /^[a-z]/ { file = $1; next }
    {
        if (match($0, /^  [a-z ]+:/)) {
            kind = substr($0, 3, RLENGTH - 3)
            $0 = substr($0, RLENGTH + 1)
            if (!(kind in seen) && kind != "own") { seen[kind] = 1; order[++kinds] = kind }
        }
        if (kind == "own") next
        if (file ~ /\.py$/) {
            good = said("outside", file, "^ok ")
            ran[kind] += good
            missing += !good
            next
        }
        for (i = 1; i <= NF; i++) {
            good = said("unit", file, "^ok [0-9]+ - " $i "$") > 0
            ran[kind] += good
            missing += !good
        }
    }
    END {
        for (i = 1; i <= kinds; i++) {
            all += ran[order[i]]
            list = list (i > 1 ? ", " : "") ran[order[i]] " " order[i]
        }
        printf "outside checks: %d ran and agreed (%s)", all, list
        printf missing ? "; %d did not\n" : "\n", missing
    }' tests/outside/checks.txt
