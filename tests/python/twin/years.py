# SPDX-License-Identifier: MIT
"""Good and bad years: the levels of catch, price, fuel and bait, carried from one year to the next."""

from __future__ import annotations

import math
from typing import Any

from twin.effects import mean_one, step
from twin.philox import Luck
from twin.supposed import BAD_CATCH, bad_catch_years


class Years:
    """Standard normal states of every season of a history: C of each species, P of each species, fuel, bait."""

    def __init__(self, v: dict[str, Any], luck: Luck) -> None:
        self.v, self.luck = v, luck
        self.first = v["season"]["start"].year
        self.count = v["business"].get("years", 1)
        ties, self.n = v.get("together", {}), len(v["species"])
        self.r_s = ties.get("species_year_correlation", 0.0) if self.n > 1 else 0.0
        self.r_pc = ties.get("price_catch_correlation", 0.0)
        self.r_wc = ties.get("weather_catch_correlation", 0.0)
        self.shared = math.sqrt(self.r_s - self.r_wc**2) if self.n > 1 else 0.0
        self.own = math.sqrt(1.0 - self.r_s) if self.n > 1 else math.sqrt(1.0 - self.r_wc**2)
        phi_c = v["species"][0].get("year_carry", 0.0)
        phi_p = v["outlet"][0].get("year_carry", 0.0)
        self.carry_catch = phi_c / (1.0 - self.r_wc**2)
        self.carry_price = (phi_p - self.r_pc**2 * phi_c) / (1.0 - self.r_pc**2)

        common_before, own_before = self.last_year()
        common = self.chain("year_catch_common", 0, self.carry_catch, common_before)
        own = [self.chain("year_catch_species", k, self.carry_catch, own_before[k]) for k in range(self.n)]
        self.catch = [
            [self.catch_state(y + self.first, common[y], own[k][y]) for k in range(self.n)] for y in range(self.count)
        ]
        for y in bad_catch_years(v):
            self.catch[y] = [BAD_CATCH] * self.n
        b = self.chain("year_price_common", 0, self.carry_price, None)
        f = [self.chain("year_price_species", k, self.carry_price, None) for k in range(self.n)]
        r_pc, r_s = self.r_pc, self.r_s
        self.price = [
            [
                r_pc * self.catch[y][k]
                + math.sqrt(1.0 - r_pc**2) * (math.sqrt(r_s) * b[y] + math.sqrt(1.0 - r_s) * f[k][y])
                for k in range(self.n)
            ]
            for y in range(self.count)
        ]
        prices = v["prices"]
        self.fuel = self.chain("year_fuel", 0, prices.get("fuel_year_carry", 0.0), None)
        self.bait = self.chain("year_bait", 0, prices.get("bait_year_carry", 0.0), None)

    def chain(self, purpose: str, item: int, carry: float, before: float | None) -> list[float]:
        out, x = [], before
        for y in range(self.count):
            x = step(x, carry, self.luck.normal_in_year(self.first + y, purpose, item))
            out.append(x)
        return out

    def catch_state(self, year: int, common: float, own: float) -> float:
        w = self.luck.normal_in_year(year, "year_weather")
        return self.r_wc * w + self.shared * common + self.own * own

    def last_year(self) -> tuple[float | None, list[float | None]]:
        """The states of the year before the first, given what is known of its catch; nothing known: none."""
        known = {}
        for k, one in enumerate(self.v["species"]):
            if "last_year_fraction" in one:
                sd = one["year_sd"]
                known[k] = math.log(one["last_year_fraction"]) / sd + sd / 2.0
        if not known:
            return None, [None] * self.n
        year = self.first - 1
        common = self.luck.normal_in_year(year, "year_catch_common")
        own = [self.luck.normal_in_year(year, "year_catch_species", k) for k in range(self.n)]
        missing = {k: c - self.catch_state(year, common, own[k]) for k, c in known.items()}
        if self.n == 1:
            return common, [own[0] + self.own * missing[0]]
        r, m, total = self.r_s, len(missing), sum(missing.values())
        weight = {k: (d - r * total / (1.0 + (m - 1) * r)) / (1.0 - r) for k, d in missing.items()}
        common += self.shared * sum(weight.values())
        return common, [own[k] + self.own * weight.get(k, 0.0) for k in range(self.n)]

    def catch_factor(self, y: int, k: int) -> float:
        return mean_one(self.v["species"][k].get("year_sd", 0.0), self.catch[y][k])

    def price_factor(self, y: int, outlet: int, k: int) -> float:
        return mean_one(self.v["outlet"][outlet].get("year_sd", 0.0), self.price[y][k])

    def fuel_price(self, y: int) -> float:
        p = self.v["prices"]
        return p["fuel_per_l"] * mean_one(p.get("fuel_year_sd", 0.0), self.fuel[y]) * growth(self.v, "fuel", y)

    def bait_price(self, y: int) -> float:
        p = self.v["prices"]
        return p["bait_per_haul"] * mean_one(p.get("bait_year_sd", 0.0), self.bait[y]) * growth(self.v, "bait", y)


def growth(v: dict[str, Any], what: str, y: int) -> float:
    """What `y` years have added to costs, fuel, bait, wages, prices or catch."""
    return (1.0 + v.get("growth", {}).get(f"{what}_per_year_fraction", 0.0)) ** y
