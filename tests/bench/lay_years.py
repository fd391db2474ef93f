#!/usr/bin/python3
"""A year or more of hourly weather for the bench: the demo's invented spring laid end to end under
dates that go on. Its sun then stands elsewhere than its light says; for a timing that is no matter.

usage: lay_years.py WEATHER.csv DAYS > LONG.csv"""
import datetime
import sys


def main():
    with open(sys.argv[1], encoding="utf-8") as stream:
        lines = stream.read().splitlines()
    first = next(i for i, line in enumerate(lines) if not line.startswith("#")) + 1
    head, rows = lines[:first], [line.split(",", 1) for line in lines[first:]]
    begin = datetime.datetime.strptime(rows[0][0], "%Y-%m-%d %H:%M")
    print("\n".join(head))
    for hour in range(24 * int(sys.argv[2])):
        moment = begin + datetime.timedelta(hours=hour)
        print(f"{moment:%Y-%m-%d %H:%M},{rows[hour % len(rows)][1]}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
