#!/usr/bin/python3
"""An hourly file of somebody else's making through the whole chain: temperature and nothing else.

seattle-temps.csv comes with Debian's python3-vega-datasets: hourly temperatures of Seattle, 2010,
in tenths of a degree Fahrenheit, smooth as means of many years are (values of NOAA, in the public
domain as works of the United States' government: from memory). Its stamps are taken as local
standard time, UTC - 8 h: one hour of 14 March is missing because it has no place on a summer-time
clock, but the daily course does not jump there.

Sources, beside each sum: Fahrenheit to Celsius (t - 32) / 1.8, exact; sun by the low-precision
formulas of Meeus, Astronomical Algorithms, ch. 25, sunset at -0.833 deg; light of a day from its
range of temperature, 0.16 sqrt(Tmax - Tmin) of the extraterrestrial, FAO-56 eq. 50 (Allen et al.
1998, Hargreaves & Samani, inland). All computed here, nothing taken from our C.
"""
import csv
import datetime
import importlib.util
import json
import math
import os
import subprocess
import sys

PROGRAM = os.environ.get("DAWNLOW", "build/dawnlow")
SCENARIO = "scenarios/lean-to-with-barrels.yaml"
LATITUDE, LONGITUDE, OFFSET_H = 47.45, -122.31, -8
HOUR = 3600
DAY = 86400
ZONE = datetime.timezone(datetime.timedelta(hours=OFFSET_H))
failed = 0


def check(what, right, detail=""):
    global failed
    failed += not right
    print(("ok - " if right else "not ok - ") + what)
    if not right and detail:
        print("# " + str(detail))


def locate():
    """The data file of the package, as Python or as Debian knows it."""
    spec = importlib.util.find_spec("vega_datasets")
    folders = list(spec.submodule_search_locations) if spec else []
    listed = subprocess.run(["dpkg", "-L", "python3-vega-datasets"], capture_output=True, text=True,
                            check=False).stdout.splitlines()
    names = [os.path.join(folder, "_data", "seattle-temps.csv") for folder in folders]
    names += [name for name in listed if name.endswith("/seattle-temps.csv")]
    return next((name for name in names if os.path.exists(name)), None)


def read(path):
    """Seconds UTC -> C, straight from the file."""
    hours = {}
    with open(path, newline="", encoding="ascii") as file:
        for row in csv.DictReader(file):
            stamp = datetime.datetime.strptime(row["date"], "%Y/%m/%d %H:%M").replace(tzinfo=ZONE)
            hours[int(stamp.timestamp())] = (float(row["temp"]) - 32) / 1.8
    return hours


def ask(*words):
    """What the program says: its answer and its remarks."""
    done = subprocess.run([PROGRAM, *words], capture_output=True, text=True, check=False)
    check("dawnlow " + words[0] + " ends with 0", done.returncode == 0, done.stderr)
    if done.returncode != 0:
        sys.exit(1)
    return done.stdout, done.stderr


def seconds(stamp):
    return int(datetime.datetime.fromisoformat(stamp).timestamp())


# ---- the sun ----

def altitude_deg(t_s):
    days = t_s / DAY + 2440587.5 - 2451545.0
    anomaly = math.radians(357.52911 + 0.98560028 * days)
    longitude = math.radians(280.46646 + 0.98564736 * days + 1.914602 * math.sin(anomaly)
                             + 0.019993 * math.sin(2 * anomaly))
    tilt = math.radians(23.439291 - 3.563e-7 * days)
    declination = math.asin(math.sin(tilt) * math.sin(longitude))
    ascension = math.atan2(math.cos(tilt) * math.sin(longitude), math.cos(longitude))
    sidereal = math.radians(280.46061837 + 360.98564736629 * days + LONGITUDE)
    latitude = math.radians(LATITUDE)
    return math.degrees(math.asin(
        math.sin(latitude) * math.sin(declination)
        + math.cos(latitude) * math.cos(declination) * math.cos(sidereal - ascension)))


def crossing(low, high):
    """When the sun's upper edge meets the horizon between two moments of different sign."""
    low_is_up = altitude_deg(low) > -0.833
    while high - low > 1:
        middle = 0.5 * (low + high)
        if (altitude_deg(middle) > -0.833) == low_is_up:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def day_light_MJ_m2(date):
    """Above the air on the level: FAO-56's 0.0820 MJ/m2 a minute and distance (eq. 23), the sun's
    path itself in place of eq. 24, whose declination is up to a degree off."""
    start = datetime.datetime(date.year, date.month, date.day, tzinfo=ZONE).timestamp()
    distance = 1 + 0.033 * math.cos(2 * math.pi * date.timetuple().tm_yday / 365)
    return 0.0820 * distance * 10 * sum(
        max(0.0, math.sin(math.radians(altitude_deg(start + 600 * k + 300)))) for k in range(144))


# ---- what is asked ----

def check_weather(path, hours):
    out, remarks = ask("weather", path, "--temperature-unit", "F", f"--utc-offset={OFFSET_H}",
                       "--latitude", str(LATITUDE), "--longitude", str(LONGITUDE), "--elevation",
                       "130 m", "--json")
    data = json.loads(out)
    got = {seconds(hour["time"]): hour for hour in data["hours"]}
    whole = list(range(min(hours), max(hours) + 1, HOUR))
    missing = [t for t in whole if t not in hours]
    check("the file is the one described: 8759 hours, one of them missing",
          len(hours) == 8759 and len(missing) == 1, (len(hours), missing))
    check("every hour of the year is there once",
          sorted(got) == whole and len(data["hours"]) == len(whole), len(data["hours"]))
    check("the missing hour is counted", data["filled_hours"] == len(missing), data["filled_hours"])
    check("and said", "1 h missing" in remarks and "2010-03-14 03:00" in remarks, remarks)
    # Three decimals are written.
    worst = max(abs(got[t]["air_C"] - hours[t]) for t in hours)
    check("each hour's temperature is the file's", worst <= 0.00051, worst)
    between = [abs(got[t]["air_C"] - 0.5 * (hours[t - HOUR] + hours[t + HOUR])) for t in missing]
    check("the missing hour lies halfway between its neighbours", max(between) <= 0.00051, between)
    check_estimates(data, remarks)
    check_light(data, hours)


def check_estimates(data, remarks):
    estimated = {entry["quantity"]: entry["how"] for entry in data["estimated"]}
    check("light is reported as estimated from the range of temperature",
          "range of temperature" in estimated.get("daylight", ""), estimated)
    check("wind, humidity and the sky are reported as estimated, air is not",
          {"wind", "humidity", "sky long-wave"} <= set(estimated)
          and not any("air temperature" == name for name in estimated), estimated)
    check("a warning says that there is no light in the file",
          any("warning" in line and "solar radiation" in line for line in remarks.splitlines()),
          remarks)


def by_date(pairs):
    days = {}
    for t_s, value in pairs:
        days.setdefault(datetime.datetime.fromtimestamp(t_s, ZONE).date(), []).append(value)
    return days


def check_light(data, hours):
    """1 % off at most: 0.4 % are FAO-56's older solar constant, the rest rounding."""
    light = by_date((seconds(hour["mean_from"]) + HOUR // 2, hour["ghi_W_m2"] * 3600e-6)
                    for hour in data["hours"])
    air = by_date(hours.items())
    found = {date: sum(values) / day_light_MJ_m2(date) / math.sqrt(max(air[date]) - min(air[date]))
             for date, values in light.items() if len(values) == 24}
    worst = max(found, key=lambda date: abs(found[date] - 0.16))
    check("each day's light is what its range of temperature lets expect",
          len(found) >= 364 and abs(found[worst] - 0.16) <= 0.0016,
          (len(found), worst, found[worst]))
    dark = max(hour["ghi_W_m2"] for hour in data["hours"]
               if all(altitude_deg(seconds(hour["mean_from"]) + 600 * k) < -1 for k in range(7)))
    check("nights are dark", dark == 0, dark)


def night_of(evening):
    """Sunset, and two hours after sunrise, of the night that begins on a day."""
    day = datetime.datetime.fromisoformat(evening).replace(tzinfo=ZONE).timestamp()
    noon = day + 12 * HOUR - (LONGITUDE / 15 - OFFSET_H) * HOUR
    return (crossing(noon, noon + DAY / 2),
            crossing(noon + DAY / 2, noon + DAY) + 2 * HOUR)


def low_between(hours, start, end):
    """Lowest of the file's straight lines between two moments."""
    def at(t):
        before = max(hour for hour in (t // HOUR * HOUR, t // HOUR * HOUR - HOUR) if hour in hours)
        after = before + HOUR if before + HOUR in hours else before + 2 * HOUR
        return hours[before] + (hours[after] - hours[before]) * (t - before) / (after - before)

    inside = [value for t, value in hours.items() if start <= t <= end]
    return min(inside + [at(start), at(end)])


def check_nights(path, hours):
    out, _ = ask("nights", SCENARIO, "--weather", path, "--set", f"site.latitude={LATITUDE} N",
                 "--set", f"site.longitude={-LONGITUDE} W",
                 "--set", f"site.utc_offset={OFFSET_H} h", "--set", "site.elevation=130 m",
                 "--set", "weather.temperature_unit=F", "--json")
    data = json.loads(out)
    nights = data["nights"]
    days = len({datetime.datetime.fromtimestamp(t, ZONE).date() for t in hours})
    check("each evening of the year but the last begins a night", len(nights) == days - 1,
          len(nights))
    evenings = [datetime.date.fromisoformat(night["evening"]) for night in nights]
    check("the nights follow each other without a gap",
          all(b - a == datetime.timedelta(days=1) for a, b in zip(evenings, evenings[1:]))
          and all(datetime.date.fromisoformat(night["morning"]) == evening
                  + datetime.timedelta(days=1) for night, evening in zip(nights, evenings)))
    # Three decimals are written, and the edges of the night may differ by some seconds.
    off = {night["evening"]: night["outside_low_C"]
           - low_between(hours, *night_of(night["evening"])) for night in nights}
    worst = max(off, key=lambda evening: abs(off[evening]))
    check("each night's outdoor low is the file's", abs(off[worst]) <= 0.002, (worst, off[worst]))
    check("the coldest night outside is the file's coldest",
          abs(min(night["outside_low_C"] for night in nights) - min(hours.values())) <= 0.002)
    estimated = {entry["quantity"] for entry in data["estimated"]}
    check("the nights' report names the estimated light", "daylight" in estimated, estimated)
    check("and the missing hour", data["weather"]["filled_hours"] == 1)
    check("heat in, out and stored agree", data["run"]["imbalance"] < 1e-4, data["run"])
    lift = [night["tray_low_C"] - night["outside_low_C"] for night in nights]
    # Common practice, no source.
    check("trays under glass with six barrels are never colder than the air outside",
          min(lift) > 0, min(lift))


def main():
    path = locate()
    check("seattle-temps.csv is found", path is not None, "install python3-vega-datasets")
    if path is None:
        return 1
    hours = read(path)
    check_weather(path, hours)
    check_nights(path, hours)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
