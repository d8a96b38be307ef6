# SPDX-License-Identifier: MIT
"""Weather, year levels and day effects of one history, each chain stepped by hand."""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from twin.normal import centre_for_mean, expit
from twin.philox import Luck
from twin.plan_values import highest, weather_fraction

DAY = timedelta(days=1)
FORGOTTEN = 1e-6
LONGEST_LEAD = 730


def mean_one(sd: float, x: float) -> float:
    return math.exp(sd * x - 0.5 * sd * sd)


def lead(persistence: float) -> int:
    """Steps before the season after which the start of a chain is forgotten."""
    n = 0
    while persistence**n > FORGOTTEN and n < LONGEST_LEAD:
        n += 1
    return n


def days(first: date, last: date) -> Iterator[date]:
    while first <= last:
        yield first
        first += DAY


def bad_days(plan: dict[str, Any], v: dict[str, Any], luck: Luck) -> dict[date, bool]:
    """For each day from the lead-in to the season's end: is the sea too bad for the boat?"""
    start, end = v["season"]["start"], v["season"]["end"]
    weather, multiplier = v["weather"], v["boat"][0].get("weather_odds_multiplier", 1.0)
    year_sd, r = weather.get("year_sd", 0.0), weather.get("persistence", 0.0)
    w = luck.normal_in_year(start.year, "year_weather")

    def marginal(month: int) -> float:
        f = weather_fraction(weather["unfishable_fraction"], month)
        if f in (0.0, 1.0):
            return f
        if year_sd == 0.0:
            return f * multiplier / (1.0 - f + f * multiplier)
        return expit(centre_for_mean(f, year_sd) + year_sd * w + math.log(multiplier))

    by_month = {m: marginal(m) for m in range(1, 13)}
    bad: dict[date, bool] = {}
    first = start - lead(highest(plan["weather"].get("persistence", 0.0))) * DAY
    for today in days(first, end):
        m = by_month[today.month]
        odds = m
        if today > first:
            before = by_month[(today - DAY).month]
            tie = r
            if m != before:
                if before > 0.0:
                    tie = min(tie, m / before)
                if before < 1.0:
                    tie = min(tie, (1.0 - m) / (1.0 - before))
            odds = m + tie * (bad[today - DAY] - before)
        bad[today] = luck.daily(today, "weather_day") < odds
    return bad


def year_levels(v: dict[str, Any], luck: Luck) -> tuple[list[float], list[float], float, float]:
    """Factors of the year: catch by species, price by species, fuel, bait."""
    year, species = v["season"]["start"].year, v["species"]
    ties, prices, outlet = v.get("together", {}), v["prices"], v["outlet"][0]
    r_s = ties.get("species_year_correlation", 0.0)
    r_pc, r_wc = ties.get("price_catch_correlation", 0.0), ties.get("weather_catch_correlation", 0.0)
    w = luck.normal_in_year(year, "year_weather")
    a, b = (luck.normal_in_year(year, p) for p in ("year_catch_common", "year_price_common"))
    catch, price = [], []
    for k, one in enumerate(species):
        e = luck.normal_in_year(year, "year_catch_species", k)
        f = luck.normal_in_year(year, "year_price_species", k)
        if len(species) == 1:
            c = r_wc * w + math.sqrt(1.0 - r_wc * r_wc) * e
            own = f
        else:
            c = r_wc * w + math.sqrt(r_s - r_wc * r_wc) * a + math.sqrt(1.0 - r_s) * e
            own = math.sqrt(r_s) * b + math.sqrt(1.0 - r_s) * f
        p = r_pc * c + math.sqrt(1.0 - r_pc * r_pc) * own
        catch.append(mean_one(one.get("year_sd", 0.0), c))
        price.append(mean_one(outlet.get("year_sd", 0.0), p))
    fuel = mean_one(prices.get("fuel_year_sd", 0.0), luck.normal_in_year(year, "year_fuel"))
    bait = mean_one(prices.get("bait_year_sd", 0.0), luck.normal_in_year(year, "year_bait"))
    return catch, price, fuel, bait


def step(x: float | None, phi: float, z: float) -> float:
    """One step of a standard stationary AR(1); the first one is the draw itself."""
    return z if x is None else phi * x + math.sqrt(1.0 - phi * phi) * z


def ground_days(plan: dict[str, Any], v: dict[str, Any], luck: Luck, k: int) -> dict[date, float]:
    """Day factor of species k on the ground, for every day of the season."""
    start, end = v["season"]["start"], v["season"]["end"]
    sd, phi = v["species"][k].get("day_sd", 0.0), v["species"][k].get("day_persistence", 0.0)
    x, factor = None, {}
    for today in days(start - lead(highest(plan["species"][k].get("day_persistence", 0.0))) * DAY, end):
        x = step(x, phi, luck.daily_normal(today, "ground_day", k))
        factor[today] = mean_one(sd, x)
    return factor


def week_prices(plan: dict[str, Any], v: dict[str, Any], luck: Luck) -> dict[date, float]:
    """Price factor of the outlet by the Monday its week starts on."""
    start, end = v["season"]["start"], v["season"]["end"]
    sd, phi = v["outlet"][0].get("week_sd", 0.0), v["outlet"][0].get("week_persistence", 0.0)
    monday = start - start.weekday() * DAY
    monday -= 7 * lead(highest(plan["outlet"][0].get("week_persistence", 0.0))) * DAY
    x, factor = None, {}
    while monday <= end:
        x = step(x, phi, luck.normal_on(monday, "price_week"))
        factor[monday] = mean_one(sd, x)
        monday += 7 * DAY
    return factor
