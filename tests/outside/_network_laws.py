"""A network exported as JSON, and the rates of its states by the published formulas.

Independent of our C: the rates below are written from the published formulas that the export's
numbers stand for. Helper of network_week.py and network_rates.py.

Sources, beside each law: long-wave sigma T^4 with sigma = 5.670374419e-8 (CODATA 2018); natural
convection C |dT|^(1/3) with a floor, sixth powers blended, with a stirred film of 3 W/m2K while the
fan runs (common practice), cubes blended (Churchill 1977, from memory); wind 2.8 + 3 v (Watmuff
1977, from memory); leakage sqrt(Cs dT + Cw v^2) with 1.45e-4 and 1.74e-4, rated at 15 K
and 2 m/s (Sherman & Grimsrud, from memory); opening Cd A sqrt(g H dT / (9 T) + 0.09 v^2 / 4), Cd 0.6
(one opening, stack and wind, from memory), for what one height has more of than the other; two
heights A sqrt(Cd^2 2 g dH dT / T + 2 (0.3 v)^2), 1/A^2 = 1/side^2 + 1/ridge^2 (BS 5925, from memory); ice 0 .. -0.1 C. Water: vapour as latent temperature
y = w L / cp, w = 0.621945 e / (p - e) (ASHRAE), e by Magnus over water and over ice (Alduchov &
Eskridge 1996), mass by heat with Le^(2/3) = 0.9 (Lewis); a film dries as film / (film + 5 g/m2), on panes and on the rock's stones,
is ice below -0.1 C after 5 minutes, and shuts long-wave by 4 pi k / wavelength, k = 0.0508 at 10 um
(Hale & Querry 1973, from memory).
Soil that freezes: Kirchhoff's transform of its conductance.
A calm rock bed: Rayleigh-Darcy number over its onset, at least 1 (Lapwood 1948, Elder 1967); still
conduction alone while the fan runs. Air through the rock: the effectiveness form of a packed bed,
each of N segments takes 1 - exp(-NTU/N) of what it still could (Duffie & Beckman ch. 8, from
memory). Two airs: 1.5 W/m2K layered, 0.07 A sqrt(g H dT / 285 K) turning over, joined to 30 changes
an hour. Covers: what one leaves of a flow is a product of how far it is drawn d, of 1 - d (1 - tau)
for long-wave that passes, of d eps for long-wave it takes, and of (1000^(1 - d) - 1)/999 for air that
passes beside it (an assumption of ours).
"""
import json
import os
import subprocess

import numpy as np

PROGRAM = os.environ.get("DAWNLOW", "build/dawnlow")
SIGMA, ZERO_K, WIDTH_K = 5.670374419e-8, 273.15, 0.1
STIRRED_W_M2K = 3.0


def ask(*words):
    return subprocess.run([PROGRAM, *words], check=True, capture_output=True, text=True).stdout


def say(fine, what):
    print(f"{'ok' if fine else 'not ok'} - {what}")
    return fine


def rounded(x):
    """What x is above 0; within 0.1 of it a parabola."""
    return np.where(np.abs(x) < 0.1, (x + 0.1) ** 2 / 0.4, np.maximum(x, 0))


class Network:
    """The exported numbers as arrays, and the rates of their states."""

    def __init__(self, text):
        self.data = data = json.loads(text)
        nodes = data["nodes"]
        self.n = len(nodes)
        self.names = [node["name"] for node in nodes]
        self.fan_on = False
        self.heat = np.array([node["heat_J_K"] for node in nodes])
        self.frozen = np.array([node["frozen_J_K"] for node in nodes])
        self.latent = np.array([node["latent_J"] for node in nodes])
        self.start = np.array([node["start_y_C"] for node in nodes])
        self.by_kind = {}
        for at, link in enumerate(data["links"]):
            self.by_kind.setdefault(link["kind"], []).append((at, link))
        self.source = np.array([link["from"] for link in data["links"]])
        self.target = np.array([link["to"] for link in data["links"]])
        forcing = data["forcing"]
        self.from_s, self.step_s = forcing["from_s"], forcing["step_s"]
        self.series = {key: np.array(forcing[key])
                       for key in ("air_C", "sky_W_m2", "wind_m_s", "edge_C", "deep_C",
                                   "vapour_K")}
        self.hours = forcing["outdoor_fan_hours"]
        self.gains = np.array(forcing["gain_W"])
        self.covers, self.drawn = data["covers"], [np.array(row) for row in forcing["drawn"]]
        self.knots = self.from_s + self.step_s * np.arange(len(self.series["air_C"]))

    def column(self, kind, key):
        return np.array([link[key] for _, link in self.by_kind[kind]])

    def at(self, kind):
        return np.array([at for at, _ in self.by_kind[kind]])

    def temperature(self, y):
        """Enthalpy over capacity to temperature: water, a narrow range of slush, ice."""
        middle = 0.5 * (self.heat + self.frozen) * WIDTH_K
        solid = -(self.latent + middle) / self.heat
        slush = np.where(y < 0, -WIDTH_K * y / np.where(solid == 0, -1, solid), y)
        ice = -WIDTH_K + (y - solid) * self.heat / self.frozen
        wet = np.where(y < solid, ice, slush)
        return np.where(self.latent > 0, np.where(y >= 0, y, wet), y)

    def weather(self, t):
        now = {key: np.interp(t, self.knots, series) for key, series in self.series.items()}
        place = min(int((t - self.from_s) // self.step_s), self.gains.shape[1] - 2)
        share = (t - self.from_s) / self.step_s - place
        now["outdoor_fan"] = self.switched(self.hours, t)
        now["openings"] = [self.switched(opening["hours"], t) for opening in self.data["openings"]]
        now["gain_W"] = (1 - share) * self.gains[:, place] + share * self.gains[:, place + 1]
        return now

    def veils_at(self, t):
        """What covers leave of a flow, by the number of a link's veil."""
        def factor(cover, part):
            d = np.interp(t, self.knots, self.drawn[cover])
            return {"drawn": d, "gap": (1000 ** (1 - d) - 1) / 999,
                    "passes": 1 - d * (1 - self.covers[cover]["passes"]),
                    "takes_inside": d * self.covers[cover]["takes_inside"],
                    "takes_outside": d * self.covers[cover]["takes_outside"]}[part]
        return np.array([np.prod([factor(**one) for one in veil]) for veil in self.data["veils"]])

    def behind(self, kind, key="veil"):
        return self.veils[self.column(kind, key)]

    @staticmethod
    def switched(hours, t):
        """1 within the hours of a day, 0 outside, ten seconds between."""
        since = (t - hours["from_s"]) % 86400
        if not 0 < hours["length_s"] < 86400:
            return float(hours["length_s"] > 0)
        return (np.clip(since / hours["switching_s"], 0, 1)
                - np.clip((since - hours["length_s"]) / hours["switching_s"], 0, 1))

    def flows(self, t, y):
        now = self.weather(t)
        self.veils = self.veils_at(t)
        outside = [now["air_C"], now["air_C"], now["edge_C"], now["deep_C"], 0, 0,
                   now["vapour_K"], 0]
        T = self.T = np.concatenate([self.temperature(y), outside])
        emission = SIGMA * (T + ZERO_K) ** 4
        a, b = self.source, self.target
        watts = np.zeros(len(a))
        self.watts = {}
        for kind in self.by_kind:
            i = self.at(kind)
            watts[i] = getattr(self, kind)(T[a[i]], T[b[i]], emission[a[i]], emission[b[i]], now,
                                           emission[self.n])
            self.watts[kind] = watts[i]
        return watts

    def rates(self, t, y):
        watts = self.flows(t, y)
        heat = np.zeros(self.n + 8)
        np.subtract.at(heat, self.source, watts)
        np.add.at(heat, self.target, watts)
        return heat[: self.n] / self.heat

    def bustle(self, t, y):
        """What the rates would be if nothing went out: the size of the parts of each sum."""
        watts = np.abs(self.flows(t, y))
        heat = np.zeros(self.n + 8)
        np.add.at(heat, self.source, watts)
        np.add.at(heat, self.target, watts)
        return heat[: self.n] / self.heat

    # One law a kind; ours are the names of the export.
    def conduction(self, Ta, Tb, *_):
        return self.column("conduction", "W_K") * (Ta - Tb)

    def soil(self, Ta, Tb, *_):
        """Conductance as ice below the slush, as water above, integrated between the ends."""
        liquid, ice = self.column("soil", "liquid_W_K"), self.column("soil", "ice_W_K")

        def potential(T):
            return np.where(T < -WIDTH_K, ice * (T + WIDTH_K) - liquid * WIDTH_K, liquid * T)
        return potential(Ta) - potential(Tb)

    def calm(self, Ta, Tb, *_):
        height, still = self.column("calm", "height_m"), self.column("calm", "still_W_mK")
        alpha = still / self.column("calm", "air_heat_J_m3K")
        rayleigh = (9.80665 * (Ta - Tb) * self.column("calm", "permeability_m2") * height
                    / (self.column("calm", "mean_K") * self.column("calm", "air_viscosity_m2_s")
                       * alpha))
        nusselt = (1 + (np.maximum(rayleigh, 0) / self.column("calm", "onset")) ** 6) ** (1 / 6)
        if self.fan_on:  # the air sweeps the rock it reaches
            nusselt = np.where(self.column("calm", "swept"), 1.0, nusselt)
        return self.column("calm", "area_m2") * 2 * nusselt * still / height * (Ta - Tb)

    def natural(self, Ta, Tb, *_):
        d = Ta - Tb
        warm, cool = (self.column("natural", f"{way}_coefficient") for way in ("warm", "cool"))
        C = np.where(d > 0, warm, cool)
        floor = self.column("natural", "least_W_m2K")
        still = (C**6 * (d**2 + 0.01**2) + floor**6) ** (1 / 6)
        stirred = self.column("natural", "stirred") & self.fan_on
        wind = np.where(stirred, STIRRED_W_M2K, 0) * self.behind("natural", "stirring")
        h = self.h = (still**3 + wind**3) ** (1 / 3) * self.behind("natural")
        return self.column("natural", "area_m2") * h * d

    def wind(self, Ta, Tb, _ea, _eb, now, _eo):
        return self.column("wind", "area_m2") * (2.8 + 3.0 * now["wind_m_s"]) * (Ta - Tb)

    def longwave(self, _Ta, _Tb, ea, eb, *_):
        return self.column("longwave", "exchange_m2") * self.behind("longwave") * (ea - eb)

    def sky(self, _Ta, _Tb, ea, _eb, now, outdoor_emission):
        view = self.column("sky", "sky_view")
        received = view * now["sky_W_m2"] + (1 - view) * outdoor_emission
        return self.column("sky", "exchange_m2") * self.behind("sky") * (ea - received)

    def leak(self, Ta, Tb, _ea, _eb, now, _eo):
        d = np.sqrt((self.T[self.column("leak", "air")] - now["air_C"]) ** 2 + 0.1**2)
        drive = 1.45e-4 * d + 1.74e-4 * now["wind_m_s"] ** 2
        rated = 1.45e-4 * 15 + 1.74e-4 * 4
        weight = self.weight(self.T[self.column("leak", "air")], now["air_C"])
        return self.column("leak", "rated_W_K") * weight * np.sqrt(drive / rated) * (Ta - Tb)

    @staticmethod
    def weight(inside, outside):
        """Density of the air that goes in and out over that at 10 C: an ideal gas at their mean."""
        return 283.15 / (0.5 * (inside + outside) + ZERO_K)

    def open_areas(self, now):
        """How far each opening stands open, m2, and all at the side and at the ridge."""
        each = []
        for opening, hours in zip(self.data["openings"], now["openings"]):
            air = self.T[self.data["ridge_air" if opening["ridge"] else "bench_air"]]
            warm = 1.0
            if opening["full_C"] is not None:
                warm = np.clip((air - opening["opens_C"])
                               / (opening["full_C"] - opening["opens_C"]), 0, 1)
            least = opening["least_share"]
            each.append(opening["area_m2"] * (least + (1 - least) * hours * warm))
        each = np.array(each)
        ridge = np.array([opening["ridge"] for opening in self.data["openings"]], dtype=bool)
        return each, ridge, each[~ridge].sum(), each[ridge].sum()

    def vent(self, Ta, Tb, _ea, _eb, now, _eo):
        each, ridge, side_m2, ridge_m2 = self.open_areas(now)
        at = self.column("vent", "opening")
        height = np.array([opening["height_m"] for opening in self.data["openings"]])[at]
        air = np.where(ridge, self.T[self.data["ridge_air"]], self.T[self.data["bench_air"]])[at]
        own, other = (np.where(ridge[at], *pair)
                      for pair in ((ridge_m2, side_m2), (side_m2, ridge_m2)))
        alone = np.where(own > 0, np.maximum(1 - other / np.where(own > 0, own, 1), 0), 0)
        out = now["air_C"]
        d = np.sqrt((air - out) ** 2 + 0.1**2)
        stack = 9.80665 * height * d / (0.5 * (air + out) + ZERO_K) / 9
        flow = 0.6 * each[at] * alone * np.sqrt(stack + 0.09 * now["wind_m_s"] ** 2 / 4)
        return self.data["air_J_m3K"] * self.weight(air, out) * flow * (Ta - Tb)

    def through(self, Ta, _Tb, _ea, _eb, now, _eo):
        _, _, side_m2, ridge_m2 = self.open_areas(now)
        area = side_m2 * ridge_m2 / max(np.hypot(side_m2, ridge_m2), 1e-300)
        out = now["air_C"]
        inside = 0.5 * (self.T[self.data["bench_air"]] + self.T[self.data["ridge_air"]])
        d = np.sqrt((inside - out) ** 2 + 0.1**2)
        stack = (2 * 9.80665 * self.data["opening_rise_m"] * d / (0.5 * (inside + out) + ZERO_K))
        flow = area * np.sqrt(0.6**2 * stack + 2 * (0.3 * now["wind_m_s"]) ** 2)
        heat = self.data["air_J_m3K"] * self.weight(inside, out)
        return heat * flow * (Ta - self.T[self.column("through", "outdoor")])

    def renewal(self, Ta, Tb, _ea, _eb, now, _eo):
        runs = np.where(self.column("renewal", "clocked"), now["outdoor_fan"], 1)
        return self.column("renewal", "W_K") * runs * (Ta - Tb)

    def fan_goes_back(self):
        """By night, where the night run is reversed: the sensed air colder than the rock's mean."""
        links = [link for _, link in self.by_kind.get("stream", [])]
        rock = [link["to"] for link in links if not link["reversed"]]
        return (any(link["reversed"] for link in links)
                and self.T[rock].mean() > self.T[self.data["sensor"]])

    def stream(self, *_):
        """Segment i meets air of T_in (1-e)^i + sum over the earlier j of e (1-e)^(i-1-j) T_j."""
        heat = np.zeros(len(self.by_kind["stream"]))
        goes = np.flatnonzero(self.column("stream", "reversed") == self.fan_goes_back())
        share = self.column("stream", "segment_share")[0]
        Tb = self.T[self.column("stream", "to")[goes]]
        enters = self.T[self.column("stream", "intake")[goes[0]]]
        i, j = np.indices((len(Tb), len(Tb)))
        mixed = np.where(j < i, share * (1 - share) ** np.maximum(i - 1 - j, 0), 0)
        meets = enters * (1 - share) ** np.arange(len(Tb)) + mixed @ Tb
        heat[goes] = self.column("stream", "flow_W_K")[goes] * share * (meets - Tb) * self.fan_on
        return heat

    def displace(self, Ta, Tb, *_):
        return self.column("displace", "W_K") * (Ta - Tb) * self.fan_on

    def mixing(self, Ta, Tb, *_):
        lower, upper = (self.T[self.column("mixing", end)] for end in ("lower", "upper"))
        area, most = self.column("mixing", "area_m2"), self.column("mixing", "most_W_K")
        warmer = np.maximum(lower - upper, 0)
        along = np.minimum(warmer / 0.2, 1)  # the root's first 0.2 K, a cubic
        root = np.where(along < 1, np.sqrt(0.2) * along**2 * (2.5 - 1.5 * along), np.sqrt(warmer))
        gravity = np.sqrt(9.80665 * self.column("mixing", "height_m") / 285.0)
        free = self.column("mixing", "air_J_m3K") * 0.07 * area * gravity * root
        return (1.5 * area + free * most / (free + most)) * self.behind("mixing") * (Ta - Tb)

    def exchange(self, Ta, Tb, *_):
        return self.column("exchange", "W_K") * self.behind("exchange") * (Ta - Tb)

    def plume(self, *_):
        natural = self.watts["natural"][self.column("plume", "natural")]
        return self.column("plume", "share") * self.behind("plume") * np.maximum(natural, 0)

    # Water, by its latent temperature.
    def saturated(self, T):
        over_water = 610.94 * np.exp(17.625 * T / (T + 243.04))
        over_ice = 610.94 * np.exp(22.587 * T / (T + 273.86))
        e = np.where(T >= 0, over_water, over_ice)
        return 0.621945 * e / (self.data["pressure_Pa"] - e) * 2.5e6 / 1006.0

    def evaporate(self, Ta, Tb, *_):
        h = self.h[self.column("evaporate", "natural")]
        return self.column("evaporate", "wet_m2") * h / 0.9 * (self.saturated(Ta) - Tb)

    def transpire(self, Ta, Tb, _ea, _eb, now, _eo):
        light = now["gain_W"][self.column("transpire", "channel")]
        return (self.column("transpire", "light_share") * light
                + self.column("transpire", "deficit_W_K") * (self.saturated(Ta) - Tb))

    def condense(self, Ta, Tb, *_):
        h = self.h[self.column("condense", "natural")]
        surplus = Ta - self.saturated(Tb)
        stored = self.T[self.column("condense", "film")]
        covered = np.where(surplus > 0, 1.0, stored / (np.abs(stored) + 0.5))
        return self.column("condense", "area_m2") * h / 0.9 * surplus * covered

    def film(self, *_):
        return self.watts["condense"][self.column("film", "condense")]

    def carry(self, Ta, Tb, *_):
        passed = -Tb if self.fan_goes_back() else Ta
        return self.column("carry", "W_K") * passed * self.fan_on

    def damp(self, Ta, Tb, *_):
        surplus = Ta - self.saturated(Tb)
        stored = self.T[self.column("damp", "film")]
        covered = stored / (np.abs(stored) + 0.5)
        excess = np.maximum(surplus, 0)
        covered = covered + (1 - covered) * excess / (excess + 0.5)
        return self.column("damp", "W_K") * covered * surplus

    def soak(self, *_):
        return self.watts["damp"][self.column("soak", "damp")]

    def freeze(self, Ta, Tb, *_):
        ice = -Ta  # the state of frost, in the film's kelvins of 10 g/m2
        liquid = self.T[self.column("freeze", "film")] - ice
        above = rounded(Tb)
        W_m2 = 500.0 * ((above - Tb) * liquid / (np.abs(liquid) + 0.5)
                        - above * ice / (np.abs(ice) + 0.5))
        return self.column("freeze", "area_m2") * W_m2

    def wet_part(self, kind):
        films = np.array([self.by_kind["condense"][i][1]["film"]
                          for i in self.column(kind, "condense")])
        absorbing = 4 * np.pi * 0.0508 / 10e-6 * np.maximum(self.T[films], 0) * 0.01 / 1000
        wet = 1 - np.exp(-absorbing)
        return self.behind(kind) * (self.column(kind, "dry") + self.column(kind, "wetter") * wet)

    def wetwave(self, _Ta, _Tb, ea, eb, *_):
        return self.column("wetwave", "exchange_m2") * self.wet_part("wetwave") * (ea - eb)

    def wetsky(self, _Ta, _Tb, ea, _eb, now, outdoor_emission):
        view = self.column("wetsky", "sky_view")
        received = view * now["sky_W_m2"] + (1 - view) * outdoor_emission
        return self.column("wetsky", "exchange_m2") * self.wet_part("wetsky") * (ea - received)

    def drip(self, Ta, *_):
        frost = self.column("drip", "frost")
        ice = np.where(frost >= 0, -self.T[frost], 0)
        over = Ta - ice - self.column("drip", "holds_K")
        return self.column("drip", "W_K") * np.maximum(over, 0)

    def fog(self, Ta, Tb, *_):
        return self.column("fog", "W_K") * np.maximum(Ta - self.saturated(Tb), 0)

    def gain(self, _Ta, _Tb, _ea, _eb, now, _eo):
        return now["gain_W"][self.column("gain", "channel")]

    def power(self, Ta, *_):
        runs = ~self.column("power", "with_fan") | self.fan_on
        return np.where(runs, self.column("power", "W"), 0)
