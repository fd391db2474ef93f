#!/usr/bin/python3
"""How long SciPy takes for the demo nursery's network, exported as JSON, with NumPy rates: two days
of March without the fan, BDF and LSODA, beside our own `nights` of the same days. Judges nothing."""
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


def took_s(job):
    begin = time.monotonic()
    job()
    return time.monotonic() - begin


def main():
    net = Network(ask("network", SCENARIO, *SPAN, "--json"))
    end_s = net.from_s + DAYS * 86400.0
    # The program's start is the same for both spans: what lies between is the days' own time.
    short_s = min(took_s(lambda: ask("nights", SCENARIO, *SPAN)) for _ in range(3))
    long_s = min(took_s(lambda: ask("nights", SCENARIO, *LONG)) for _ in range(3))
    day_s = (long_s - short_s) / (LONG_DAYS - DAYS)
    print(f"{'one day by dawnlow nights, no fan':46} {1e3 * day_s:19.3f} ms")
    for method in ("BDF", "LSODA"):
        each_s = took_s(lambda: solve_ivp(net.rates, (net.from_s, end_s), net.start, method=method,
                                          rtol=RTOL, atol=ATOL_K)) / DAYS
        print(f"{'one day by SciPy ' + method + ', NumPy rates':46} {1e3 * each_s:19.3f} ms"
              f"   ({each_s / day_s:.0f} times as long)")
    return 0


if __name__ == "__main__":
    sys.exit(main())
