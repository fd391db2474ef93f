#!/usr/bin/python3
"""`dawnlow network --rates`, recomputed from the published formulas for states drawn by lot.

The states reach everything a season may bring and more: ice, slush and liquid, wet and dry air,
films that drip, fan off and on, the weather of all the months. The laws are those of
_network_laws.py, which reads the network's numbers from `network --json`.

Agreement to 1e-6 of the fastest rate of a sample, and node by node to 1e-6 of the rate itself. A
rate is a sum of flows that may nearly cancel: one below a millionth of what flows through its node
is held against that instead, for both sums carry the rounding of their parts (1e-16 of them).
"""
import csv
import io
import os
import re
import sys
from datetime import datetime

import numpy as np

from _network_laws import Network, ask, say

AGREE = TINY = 1e-6
STATES, SEED = "24", "20260312"
WEATHER = ["--weather", "weather/alder-hollow-spring.csv"]
# The lean-to names no weather of its own: it borrows the demo's, and its place.
THERE = [word for place in ("latitude=45.2 N", "longitude=6.9 E", "elevation=480 m",
                            "utc_offset=+1 h") for word in ("--set", f"site.{place}")]
NURSERIES = {
    "alder-hollow": [],
    "lean-to-with-barrels": WEATHER + THERE + [
        "--set", "house.steady_air_changes=0.4 /h", "--set", "outdoor_fan.air_changes=9 /h",
        "--set", "outdoor_fan.from=18:00", "--set", "outdoor_fan.until=7:00",
        "--set", "house.heat=300 W", "--set", "house.heat_radiant_share=60 %"],
    # One skin of film, so that things inside see the sky through it, in a moist house; a vent that
    # opens into cool air, no store.
    "film-tunnel": WEATHER + THERE + ["--set", "moisture.floor_wet=30 %", "--set",
                                      "house.heat=500 W"],
    "tunnel-under-fleece": [],
    # The night run blows the other way.
    "twinwall-with-rock": ["--set", "fan.night_way=reversed"],
    # The demo with all that can be drawn, some of it by day, and with snow on its roof.
    "alder-hollow covered": ["--set", "house.snow_slides_above=never"],
}


COVERS = """
covers:
  - name: fleece
    over: trays
    put_on_at: 16:00
    take_off_at: 10:00
  - name: hoops
    over: bed
    sheet: clear-film
    only_below: 3 C
  - name: bubbles
    over: trays
    sheet: bubble-film
    height: 1 m
  - name: curtain
    over: house
    sheet: bright-curtain
    after_sunrise: 90 min
snow:
  - from: 03-05
    until: 04-10
    depth: 12 cm
"""


def scenario_of(name):
    """The shipped file, or one made of it with covers and snow."""
    path = f"scenarios/{name.split()[0]}.yaml"
    if " " not in name:
        return path
    made = os.path.join(os.environ.get("TMPDIR", "/tmp"), "covered.yaml")
    with open(path, encoding="utf-8") as shipped, open(made, "w", encoding="utf-8") as out:
        # The evening's actions would lay further covers over these four, which are the most.
        house = re.sub(r"^actions:.*?\n\n", "", shipped.read(), flags=re.M | re.S)
        out.write(house.replace("../weather/", os.path.abspath("weather") + "/") + COVERS)
    return made


def samples(text):
    """By sample: moment, fan, states, temperatures, rates."""
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    for number in range(1, int(rows[-1]["sample"]) + 1):
        own = [row for row in rows if int(row["sample"]) == number]
        column = {key: np.array([float(row[key]) for row in own])
                  for key in ("y_C", "temperature_C", "rate_K_s")}
        moment = datetime.fromisoformat(own[0]["time"]).timestamp()
        yield moment, own[0]["fan_on"] == "1", [row["node"] for row in own], column


def compare(name, words):
    words = [scenario_of(name), *words]
    net = Network(ask("network", *words, "--json"))
    table = list(samples(ask("network", *words, "--rates", "--states", STATES, "--seed", SEED)))
    of_fastest = of_own = of_temperature = 0.0
    ice = slush = 0
    for moment, net.fan_on, names, got in table:
        assert names == net.names, "the two speak of different nodes"
        ours = net.rates(moment, got["y_C"])
        gap = np.abs(got["rate_K_s"] - ours)
        T = net.temperature(got["y_C"])
        of_temperature = max(of_temperature, np.max(np.abs(T - got["temperature_C"])))
        of_fastest = max(of_fastest, np.max(gap) / np.max(np.abs(ours)))
        floor = TINY * net.bustle(moment, got["y_C"])
        of_own = max(of_own, np.max(gap / np.maximum(np.maximum(np.abs(ours), floor), 1e-300)))
        ice += np.sum((net.latent > 0) & (T < -0.1))
        slush += np.sum((net.latent > 0) & (T >= -0.1) & (T < 0))
    on = sum(fan for _, fan, _, _ in table)
    what = f"{name}: {len(table)} states of {net.n} nodes, fan on in {on}"
    fine = say(len(table) == int(STATES) and ice > 0 and slush > 0 and
               on == (len(table) // 2 if "stream" in net.by_kind else 0),
               f"{what}; {ice} times ice, {slush} times slush")
    fine &= say(of_temperature < 1e-9, f"{name}: temperatures agree to {of_temperature:.1e} K")
    fine &= say(of_fastest < AGREE, f"{name}: rates agree to {of_fastest:.1e} of the fastest")
    return say(of_own < AGREE, f"{name}: each rate agrees to {of_own:.1e} of itself") and fine


if __name__ == "__main__":
    sys.exit(0 if all([compare(name, words) for name, words in NURSERIES.items()]) else 1)
