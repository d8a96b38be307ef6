# SPDX-License-Identifier: MIT
"""The one-boat season as one would write it with NumPy: a loop over days, arrays over histories.

Written from the description of the model, apart from the engine, with draws of its own; it is the peer the
engine is compared with, in what it says and in how fast it says it. Nothing in it is slower than need be:
histories go through in large blocks, draws come in whole matrices, effects that are switched off are left
out, and rare events touch only the histories they befall. Plans before choices only: crowding is left out.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import numpy as np
from numpy_gear import Soak, lost_share_by_month
from numpy_luck import bad_weather, day_effect, week_effect, year_levels
from numpy_money import close_year
from numpy_plan import drawn, is_guess, money_months, of_month, spread

Array = np.ndarray
BLOCK = 16384  # histories at once: of 512, 1024, ... 16384 the fastest for the demo plan
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
SUMS = (
    *("sales", "bait", "crew_pay", "repairs", "claims", "selling_costs"),
    *("pots_lost", "days_fished", "days_broken_down", "days_weather"),
)


def simulate(
    plan: dict[str, Any], histories: int, rng: np.random.Generator, block: int = BLOCK
) -> dict[str, Array]:
    """Every column of `histories` histories of a plan as `numpy_plan.read` gives it."""
    parts = [Block(plan, min(block, histories - i), rng).lived() for i in range(0, histories, block)]
    return {k: np.concatenate([p[k] for p in parts]) for k in parts[0]}


def of(value: Any, who: Array) -> Any:
    """A number's values for some of the histories."""
    return value[who] if np.ndim(value) else value


class Block:
    """`n` histories side by side: every array has one value per history, matrices one row per season day."""

    def __init__(self, plan: dict[str, Any], n: int, rng: np.random.Generator) -> None:
        self.rng, self.n, self.v = rng, n, drawn(plan, rng, n)
        v = self.v
        self.boat, self.outlet, self.prices, self.species = (
            v["boat"][0],
            v["outlet"][0],
            v["prices"],
            v["species"],
        )
        self.fishery, self.policy = self.boat["fishery"][0], self.boat.get("insurance")
        start, end = v["season"]["start"], v["season"]["end"]
        self.dates = [start + timedelta(days=i) for i in range((end - start).days + 1)]
        year = money_months(v)
        self.first_day = (start - year[0]).days  # of the money year
        self.year_days = (year[-1] - year[0]).days
        self.draw_luck()
        self.lay_out_gear()
        self.price_the_day()

        self.delay = self.outlet.get("paid_after_days", 0)
        self.claim_delay = self.policy.get("claim_paid_after_days", 0) if self.policy else 0
        longest = int(max(np.max(self.delay), np.max(self.claim_delay)))
        self.flow = np.zeros((self.year_days + 1 + longest, n))  # money in and out by day of the money year
        self.c = {k: np.zeros(n) for k in SUMS}
        self.hauls = np.zeros(n)
        self.week_sales, self.week_costs, self.week_out = np.zeros((3, n))
        self.down_until = np.full(n, -1)

    def draw_luck(self) -> None:
        v, n, rng, days = self.v, self.n, self.rng, len(self.dates)
        w = rng.standard_normal(n)
        self.bad = bad_weather(v, self.dates, w, rng)
        self.catch_year, self.price_year, self.fuel_year, self.bait_year = year_levels(v, w, rng)
        self.effect = [day_effect(s, days, n, rng) for s in self.species]
        self.week_factor, self.week_of = week_effect(self.outlet, self.dates, n, rng)
        self.kinds = self.boat.get("breakdown", [])
        odds = [1.0 - np.exp(-k["per_100_days"] / 100.0) for k in self.kinds]
        self.hits = [rng.random((days, n)) < p for p in odds]

    def lay_out_gear(self) -> None:
        self.capacity = self.fishery["hauls_per_day"]
        count = np.broadcast_to(np.asarray(self.fishery["count"], float), (self.n,))
        self.setting = np.broadcast_to(np.asarray(self.fishery.get("setting_days", 0), int), (self.n,))
        self.set_each_day = count / np.maximum(self.setting, 1)
        self.in_water = np.where(self.setting == 0, count, 0.0)
        self.soak = Soak(self.v, self.n)
        self.gear_loss = self.boat.get("gear_loss")
        if self.gear_loss:
            self.lost_share = lost_share_by_month(self.v, self.dates, self.n, self.rng)

    def price_the_day(self) -> None:
        """What does not change from day to day, worked out once."""
        fuel_price = self.prices["fuel_per_l"] * self.fuel_year
        self.day_costs = sum(cost["amount"] for cost in self.boat.get("day_costs", []))
        self.trip_fuel = self.boat["fuel_l_per_day_out"] * fuel_price
        self.haul_fuel = self.boat.get("fuel_l_per_100_hauls", 0.0) / 100.0 * fuel_price
        self.haul_bait = self.prices["bait_per_haul"] * self.bait_year
        power, price = self.boat.get("catching_power", 1.0), self.outlet["price"]
        self.usual = [s["per_haul"] * power * y for s, y in zip(self.species, self.catch_year, strict=True)]
        self.paid = [price[s["name"]] * y for s, y in zip(self.species, self.price_year, strict=True)]
        self.mine = [k for k, s in enumerate(self.species) if s["name"] in self.fishery["species"]]

    def lived(self) -> dict[str, Array]:
        """The season day by day, then the books of the year."""
        season = self.v["season"]
        rest, off = set(season.get("rest_days", [])), season.get("days_off", [])
        for t, today in enumerate(self.dates):
            if WEEKDAYS[today.weekday()] not in rest and not any(o["from"] <= today <= o["to"] for o in off):
                up = self.down_until < t
                out = up & ~self.bad[t]
                self.c["days_broken_down"] += ~up
                self.c["days_weather"] += up & self.bad[t]
                self.c["days_fished"] += out
                self.fish(t, today, out)
                self.break_down(t, out)
            if self.gear_loss:
                self.lose_gear(t, today)
            if today.weekday() == 6 or t == len(self.dates) - 1:
                self.pay_crew(t, today)
        self.add_up()
        close_year(self.v, self.c, self.flow)
        return self.c

    def hauled_today(self, t: int, out: Array) -> tuple[Array, list]:
        """Pots hauled, and each species' factor for how long they were down."""
        hauling = out
        if self.setting.any():
            sets = out & (self.setting > 0)
            hauling = out & (self.setting == 0)
            self.in_water += sets * self.set_each_day
            self.setting = self.setting - sets
            self.soak.set_on(t, sets & (self.setting == 0))
        hauls = np.minimum(self.in_water, self.capacity)
        hauls *= hauling
        if not self.soak.used:
            return hauls, [1.0] * len(self.species)
        factors = self.soak.factors(t, np.maximum(self.in_water / self.capacity, 1.0))
        self.soak.hauled(t, hauling)
        return hauls, factors

    def fish(self, t: int, today: date, out: Array) -> None:
        hauls, factors = self.hauled_today(t, out)
        sales = units = 0.0
        for k in self.mine:
            caught = hauls * self.usual[k]
            caught *= of_month(self.species[k].get("month_shape", 1.0), today.month, 1.0)
            caught *= factors[k]
            if self.effect[k] is not None:
                caught *= self.effect[k][t]
            units = units + caught
            sales = sales + caught * self.paid[k]
        sales = sales * of_month(self.outlet.get("month_factor", 1.0), today.month, 1.0)
        if self.week_factor is not None:
            sales *= self.week_factor[self.week_of[t]]
        selling = (
            self.prices.get("levy_fraction", 0.0) * sales + self.outlet.get("cost_per_unit", 0.0) * units
        )
        bait = hauls * self.haul_bait
        bait_and_fuel = bait + hauls * self.haul_fuel + out * self.trip_fuel
        now = self.first_day + t
        if np.ndim(self.delay):
            self.flow[now + self.delay.astype(int), np.arange(self.n)] += sales
        else:
            self.flow[now + int(self.delay)] += sales
        self.flow[now] -= bait_and_fuel + out * self.day_costs + selling
        self.hauls += hauls
        self.c["sales"] += sales
        self.c["bait"] += bait
        self.c["selling_costs"] += selling
        self.week_sales += sales
        self.week_costs += bait_and_fuel
        self.week_out += out

    def break_down(self, t: int, out: Array) -> None:
        now = self.first_day + t
        for kind, hit in zip(self.kinds, self.hits, strict=True):
            who = np.flatnonzero(hit[t] & out)
            if not len(who):
                continue
            bill, lost = (
                self.sizes(kind["repair"], "repair", who),
                self.sizes(kind["days_lost"], "days_lost", who),
            )
            self.down_until[who] = np.maximum(self.down_until[who], t + lost.astype(int))
            self.c["repairs"][who] += bill
            self.flow[now, who] -= bill
            if self.policy:
                accepted = self.rng.random(len(who)) < of(kind.get("claimable_odds", 0.0), who)
                claim = accepted * np.maximum(bill - of(self.policy["deductible"], who), 0.0)
                self.c["claims"][who] += claim
                self.flow[now + np.asarray(of(self.claim_delay, who), int), who] += claim

    def sizes(self, size: Any, key: str, who: Array) -> Array:
        if is_guess(size):
            return spread(size, key, self.rng.standard_normal(len(who)))
        return np.full(len(who), float(size))

    def lose_gear(self, t: int, today: date) -> None:
        lost = self.in_water * self.lost_share[today.month]
        self.c["pots_lost"] += lost
        if self.gear_loss["replace"] == "at once":
            self.flow[self.first_day + t] -= lost * self.gear_loss["pot_cost"]
        else:
            self.in_water -= lost

    def pay_crew(self, t: int, today: date) -> None:
        """On the week's Sunday, at the latest on the last day of the money year."""
        pay = np.zeros(self.n)
        for hand in self.boat.get("crew", []):
            if hand["pay"] == "share of sales":
                pay += hand["share_fraction"] * self.week_sales
            elif hand["pay"] == "share after bait and fuel":
                pay += hand["share_fraction"] * np.maximum(self.week_sales - self.week_costs, 0.0)
            else:
                pay += hand["per_day"] * self.week_out
        self.c["crew_pay"] += pay
        self.flow[min(self.first_day + t + 6 - today.weekday(), self.year_days - 1)] -= pay
        for total in (self.week_sales, self.week_costs, self.week_out):
            total[:] = 0.0

    def add_up(self) -> None:
        c = self.c
        c["day_costs"] = c["days_fished"] * self.day_costs
        c["fuel"] = c["days_fished"] * self.trip_fuel + self.hauls * self.haul_fuel
        c["pots_lost_cost"] = c["pots_lost"] * (self.gear_loss["pot_cost"] if self.gear_loss else 0.0)
        spent = ("fuel", "bait", "day_costs", "crew_pay", "selling_costs", "repairs", "pots_lost_cost")
        c["running"] = c["sales"] - sum(c[k] for k in spent) + c["claims"]
