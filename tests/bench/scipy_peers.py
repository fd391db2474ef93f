#!/usr/bin/python3
"""How long SciPy takes for the demo nursery's network, exported as JSON, with NumPy rates: two days
of March without the fan, BDF and LSODA, beside our own `nights` of the same days. Judges nothing."""
import csv
import os
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "outside"))

from scipy.integrate import solve_ivp  # noqa: E402

from _network_laws import Network, ask  # noqa: E402

SCENARIO = "scenarios/alder-hollow.yaml"
SPAN = ["--from", "2026-03-09", "--to", "2026-03-11", "--no-fan", "--set", "start.spin_up=0 d"]
LONG = ["--from", "2026-03-09", "--to", "2026-05-18", "--no-fan", "--set", "start.spin_up=0 d"]
DAYS, LONG_DAYS = 2, 70
RTOL, ATOL_K = 1e-4, 1e-3


def figure(key, value, unit, what):
    """As bench_figure in figures.c."""
    print(f"  {what:72} {value:10.4g} {unit}", flush=True)
    path = os.environ.get("DAWNLOW_BENCH_CSV")
    if path:
        with open(path, "a", newline="", encoding="utf-8") as stream:
            csv.writer(stream, lineterminator="\n").writerow([key, f"{value:.6g}", unit, what])


def took_s(job):
    begin = time.monotonic()
    job()
    return time.monotonic() - begin


def main():
    net = Network(ask("network", SCENARIO, *SPAN, "--json"))
    # The program's start is the same for both spans: what lies between is the days' own time.
    # LSODA is three times as slow as BDF: one of the two days will do.
    short_s = min(took_s(lambda: ask("nights", SCENARIO, *SPAN)) for _ in range(3))
    long_s = min(took_s(lambda: ask("nights", SCENARIO, *LONG)) for _ in range(3))
    day_s = (long_s - short_s) / (LONG_DAYS - DAYS)
    figure("scipy.ours", 1e3 * day_s, "ms", "a day by dawnlow nights, without the fan")
    for method, days in (("BDF", DAYS), ("LSODA", 1)):
        span_s = (net.from_s, net.from_s + days * 86400.0)
        each_s = took_s(lambda method=method, span_s=span_s: solve_ivp(
            net.rates, span_s, net.start, method=method, rtol=RTOL, atol=ATOL_K)) / days
        figure(f"scipy.{method}", each_s, "s", f"a day by SciPy's {method} with NumPy rates")
        figure(f"scipy.{method}.ratio", each_s / day_s, "",
               f"ours: times as fast as SciPy's {method}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
