#!/usr/bin/python3
"""The figures of a bench as the table README.md shows, from tests/bench/results.csv.

usage: readme_table.py [--write] [RESULTS.csv]      --write: into README.md, between its two marks"""
import csv
import sys

BEGIN, END = "<!-- make bench -->\n", "<!-- /make bench -->\n"

# What is said, and the figures it is said with, by their keys.
ROWS = (
    ("start of the program, and a year of hourly weather read", "{start.year:.0f} ms"),
    ("the season of 120 days, from start to table", "{start.season:.0f} ms, {memory.season:.0f} MB"),
    ("nursery-years a second, the accurate engine, one after another", "{engines.cvode:.2f}"),
    ("nursery-years a second, the fast engine, side by side in {engines.lanes:.0f} lanes",
     "{engines.ensemble:.1f} ({engines.ratio:.1f} times as many)"),
    ("the fast engine's share of what its kernels could do at one step an hour", "{limit.share:.0f} %"),
    ("its night lows against the accurate engine at 1e-9, {lows.nights:.0f} nights",
     "99 of 100 within {lows.p99:.3f} K; below 5 C {lows.cold:.3f} K at most; "
     "{lows.above:.0f} above 0.05 K"),
    ("CVODE as its manual's first example has it, against ours, both at 1e-4", "{plain.ratio:.1f} times as long"),
    ("SciPy's BDF and LSODA with NumPy rates, against ours, both at 1e-4",
     "{scipy.BDF.ratio:.0f} and {scipy.LSODA.ratio:.0f} times as long"),
    ("two threads against one, 64 designs", "{threads.ratio:.2f} times as fast"),
    ("1,000 designs on two cores: a season; a year (reckoned from the 64)",
     "{designs.season:.0f} s; {designs.year:.0f} s"),
    ("200 members x 7 nights, `forecast`, on two cores, start to answer", "{forecast.two:.2f} s"),
    ("a day with {states.20:.0f}, {states.40:.0f}, {states.80:.0f}, {states.160:.0f} states, accurate engine",
     "{states.20.cvode:.1f}, {states.40.cvode:.1f}, {states.80.cvode:.1f}, {states.160.cvode:.1f} ms"),
    ("the same, fast engine", "{states.20.ensemble:.2f}, {states.40.ensemble:.2f}, "
     "{states.80.ensemble:.2f}, {states.160.ensemble:.2f} ms"),
    ("1, 10, 100 springs, fast engine", "{years.1:.1f}, {years.10:.1f}, {years.100:.0f} s"),
)


def read(path):
    """Figures by key; what is told in words stays words."""
    with open(path, newline="", encoding="utf-8") as stream:
        rows = {row["key"]: row["value"] for row in csv.DictReader(stream)}
    return {key: value if key.startswith("machine.") else float(value)
            for key, value in rows.items()}


def filled(template, figures):
    """{key:format} filled in by hand: keys have dots, and a figure may be missing."""
    parts = []
    for piece in template.split("{"):
        key, closed, rest = piece.partition("}")
        name, _, form = key.partition(":")
        parts.append((format(figures[name], form) if name in figures else "?") + rest
                     if closed else piece)
    return "".join(parts)


def table(figures):
    head = filled("On {machine.processor:s}, {machine.cores:s} cores, {machine.compiler:s}, "
                  "{machine.date:s}; Alder Hollow with all it has "
                  "({build.states:.0f} states), on one core unless it says otherwise:", figures)
    rows = [f"| {filled(what, figures)} | {filled(told, figures)} |" for what, told in ROWS]
    return "\n".join([head, "", "| what | measured |", "|---|---|", *rows]) + "\n"


def main():
    paths = [word for word in sys.argv[1:] if word != "--write"]
    text = table(read(paths[0] if paths else "tests/bench/results.csv"))
    if "--write" not in sys.argv[1:]:
        print(text, end="")
        return 0
    with open("README.md", encoding="utf-8") as stream:
        page = stream.read()
    before, rest = page.split(BEGIN)
    after = rest.split(END)[1]
    with open("README.md", "w", encoding="utf-8") as stream:
        stream.write(before + BEGIN + text + END + after)
    return 0


if __name__ == "__main__":
    sys.exit(main())
