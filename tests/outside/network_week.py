#!/usr/bin/python3
"""The demo nursery's network, exported as JSON, integrated by SciPy over a week.

Independent of our C: the rates are written from the published formulas that the export's numbers
stand for (_network_laws.py names them), and the integrator is SciPy's BDF. The thermostat stays off
in both.
"""
import csv
import os
import sys
import tempfile

import numpy as np
from scipy.integrate import solve_ivp

from _network_laws import Network, ask, say

SCENARIO = "scenarios/alder-hollow.yaml"
SPAN = ["--from", "2026-03-09", "--to", "2026-03-16"]
AGREE_K = 0.02


def ours(folder):
    """Our own run from the same start: hourly rows of node temperatures."""
    path = os.path.join(folder, "series.csv")
    ask("nights", SCENARIO, *SPAN, "--no-fan", "--accurate", "--set", "start.spin_up=0 d",
        "--series", path, "--step", "1h")
    with open(path, newline="", encoding="utf-8") as stream:
        rows = [row for row in csv.reader(stream) if row and not row[0].startswith("#")]
    return rows[0], rows[1:]


def main():
    net = Network(ask("network", SCENARIO, *SPAN, "--no-fan", "--json",
                      "--set", "start.spin_up=0 d"))
    moment = net.data["moment"]
    theirs = net.rates(moment["at_s"], net.start)
    rate_gap = np.max(np.abs(theirs - np.array(moment["rate_K_s"]))) / np.max(np.abs(theirs))
    fine = say(rate_gap < 1e-9, f"rates at one moment agree to {rate_gap:.1e} of the fastest")

    with tempfile.TemporaryDirectory() as folder:
        heading, rows = ours(folder)
    columns = [heading.index(f"{node['name']}_C".replace(" ", "_")) for node in net.data["nodes"]]
    got = np.array([[float(row[c]) for c in columns] for row in rows])
    times = net.from_s + 3600.0 * np.arange(len(rows))
    # Hour by hour, so that no kink of the weather lies inside a SciPy step unseen.
    y, worst = net.start, 0.0
    for hour in range(len(rows) - 1):
        step = solve_ivp(net.rates, times[hour:hour + 2], y, method="BDF", rtol=1e-6, atol=1e-6,
                         max_step=net.step_s)
        y = step.y[:, -1]
        worst = max(worst, np.max(np.abs(net.temperature(y) - got[hour + 1])))
    fine &= say(worst < AGREE_K,
                f"{len(rows) - 1} hours, {net.n} nodes: largest difference {worst:.4f} K")
    return 0 if fine else 1


if __name__ == "__main__":
    sys.exit(main())
