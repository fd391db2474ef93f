#!/usr/bin/python3
"""A year or more of hourly weather for the bench: the days of the demo's invented spring onward and
backward in turns, so that no day is followed by one of another season, under dates that go on. Its
sun then stands elsewhere than its light says; for a timing that is no matter.

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
    days = len(rows) // 24
    for hour in range(24 * int(sys.argv[2])):
        moment = begin + datetime.timedelta(hours=hour)
        turn, day = divmod(hour // 24, days)
        row = 24 * (day if turn % 2 == 0 else days - 1 - day) + hour % 24
        print(f"{moment:%Y-%m-%d %H:%M},{rows[row][1]}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
