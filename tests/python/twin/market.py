# SPDX-License-Identifier: MIT
"""Prices and buyers of one season: what each outlet pays, takes and owes."""

from __future__ import annotations

import math
from datetime import date
from typing import Any

from twin.calendar_years import WEEKDAYS, Season, monday_of
from twin.effects import week_prices
from twin.goods import Good, by_good, number_of
from twin.philox import Luck
from twin.plan_values import of_month
from twin.years import Years, growth


def count_at(mean: float, sd: float | None, u: float) -> int:
    """The smallest count k with P(X <= k) > u: Poisson, or negative binomial when the sd is larger than its."""
    if mean <= 0.0:
        return 0
    variance = mean if sd is None else max(mean, sd * sd)
    if variance > mean:
        r = mean * mean / (variance - mean)
        log_p, log_q = math.log(r / (r + mean)), math.log(mean / (r + mean))
        log_odds = lambda k: math.lgamma(k + r) - math.lgamma(k + 1) - math.lgamma(r) + r * log_p + k * log_q  # noqa: E731
    else:
        log_odds = lambda k: k * math.log(mean) - mean - math.lgamma(k + 1)  # noqa: E731
    k, below = 0, math.exp(log_odds(0))
    while below <= u and k < mean + 60.0 * math.sqrt(variance) + 100.0:
        k += 1
        below += math.exp(log_odds(k))
    return k


class Room:
    """What an outlet still takes today: in all, and of each good."""

    def __init__(self, total: list[float], each: list[dict[int, float]]) -> None:
        self.total, self.each = total, each

    def left(self, good: int) -> float:
        return min([*self.total, *(one[good] for one in self.each if good in one)], default=math.inf)

    def take(self, good: int, amount: float) -> None:
        self.total = [max(0.0, left - amount) for left in self.total]
        for one in self.each:
            if good in one:
                one[good] = max(0.0, one[good] - amount)


class Outlet:
    """One buyer in one season."""

    def __init__(self, plan: dict[str, Any], v: dict[str, Any], o: int, goods: list[Good], season: Season, luck: Luck):
        self.v, self.o, self.season, self.luck, self.goods = v, o, season, luck, goods
        self.outlet = v["outlet"][o]
        self.name = self.outlet["name"]
        self.base_price = by_good(v, goods, self.outlet["price"])
        self.takes = list(self.base_price)
        self.week = week_prices(plan, v, luck, season, o)
        self.open_days = self.outlet.get("open_days", [])
        odds = self.outlet.get("missed_settlement_odds_per_year", 0.0)
        self.missed_odds = 1.0 - (1.0 - odds) ** (1.0 / season.weeks())

    def is_open(self, today: date) -> bool:
        return not self.open_days or WEEKDAYS[today.weekday()] in self.open_days

    def room(self, today: date) -> Room:
        total, each = [], []
        limit, demand = self.outlet.get("daily_limit"), self.outlet.get("demand_per_open_day")
        if isinstance(limit, dict):
            each.append({number_of(self.goods, name): amount for name, amount in limit.items()})
        elif limit is not None:
            total.append(limit)
        if isinstance(demand, dict):
            means = sorted((number_of(self.goods, name), mean) for name, mean in demand.items())
            each.append({good: float(self.asked(mean, 1 + i, today)) for i, (good, mean) in enumerate(means)})
        elif demand is not None:
            total.append(float(self.asked(demand, 0, today)))
        return Room(total, each)

    def asked(self, mean: float, block: int, today: date) -> int:
        u = self.luck.on(today, "demand", self.o, 0, block)
        return count_at(mean, self.outlet.get("demand_sd"), u)

    def never_pays(self, today: date) -> bool:
        """Is what it buys in this week of the season never paid?"""
        monday = monday_of(today)
        return monday <= self.season.end and self.luck.on(monday, "missed_settlement", self.o) < self.missed_odds


class Market:
    """All outlets of one season, with the levels of the year."""

    def __init__(
        self,
        plan: dict[str, Any],
        v: dict[str, Any],
        goods: list[Good],
        season: Season,
        years: Years,
        luck: Luck,
        usual: dict[tuple[int, int, int], float],
    ) -> None:
        self.v, self.goods, self.season, self.years, self.usual = v, goods, season, years, usual
        self.outlets = [Outlet(plan, v, o, goods, season, luck) for o in range(len(v["outlet"]))]
        self.landed: dict[int, float] = {}
        self.grown = growth(v, "prices", season.y)

    def price(self, outlet: Outlet, good: int, today: date, landed: float = 0.0) -> float:
        """Today's price; `landed`: what all boats have landed of the good today."""
        one = outlet.outlet
        price = outlet.base_price[good] * of_month(one.get("month_factor", 1.0), today.month, 1.0)
        price *= self.years.price_factor(self.season.y, outlet.o, self.goods[good].species)
        price *= outlet.week[monday_of(today)] * self.grown
        flexibility = one.get("own_landings_flexibility", 0.0)
        usual = self.usual.get((self.season.y, today.month, good), 0.0)
        if flexibility != 0.0 and landed > 0.0 and usual > 0.0:
            price *= min(2.0, max(0.5, (landed / usual) ** flexibility))
        return price

    def price_today(self, outlet: Outlet, good: int, today: date) -> float:
        return self.price(outlet, good, today, self.landed.get(good, 0.0))

    def open_today(self, today: date) -> list[Outlet]:
        return [outlet for outlet in self.outlets if outlet.is_open(today)]

    def lowest_price(self, good: int, today: date, only_open: bool = True) -> float:
        """Among today's open outlets that take the good; of all when none of them is open."""
        all_that_take = [outlet for outlet in self.outlets if good in outlet.takes]
        asked = [outlet for outlet in all_that_take if outlet.is_open(today)] if only_open else []
        return min((self.price_today(outlet, good, today) for outlet in asked or all_that_take), default=0.0)
