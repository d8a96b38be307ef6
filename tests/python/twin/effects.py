# SPDX-License-Identifier: MIT
"""Weather, day effects and weekly prices of one season, each chain stepped by hand."""

from __future__ import annotations

import math
from datetime import date
from typing import Any

from twin.calendar_years import DAY, Season, days, monday_of, years_later
from twin.normal import NODES, WEIGHTS, centre_for_mean, expit
from twin.philox import Luck
from twin.plan_values import highest, last_stated

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


def step(x: float | None, phi: float, z: float) -> float:
    """One step of a standard stationary AR(1); the first one is the draw itself."""
    return z if x is None else phi * x + math.sqrt(1.0 - phi * phi) * z


def odds_of_bad_day(v: dict[str, Any], multiplier: float, month: int, w: float) -> float:
    """Odds that the sea is too bad for a boat, in a year whose shift is w."""
    fraction, year_sd = last_stated(v["weather"]["unfishable_fraction"], month), v["weather"].get("year_sd", 0.0)
    if fraction in (0.0, 1.0):
        return fraction
    if year_sd == 0.0:
        return fraction * multiplier / (1.0 - fraction + fraction * multiplier)
    return expit(centre_for_mean(fraction, year_sd) + year_sd * w + math.log(multiplier))


def mean_odds_of_bad_day(v: dict[str, Any], multiplier: float, month: int) -> float:
    """The same, as the mean over all years."""
    return sum(p * odds_of_bad_day(v, multiplier, month, z) for z, p in zip(NODES, WEIGHTS, strict=True))


def tie_to_yesterday(r: float, before: list[float], now: list[float]) -> float:
    """How much of yesterday is left today: the smallest over all boats and pairs, so that all odds stay true."""
    tie = r
    for b, m in zip(before, now, strict=True):
        if b != m:
            if b > 0.0:
                tie = min(tie, m / b)
            if b < 1.0:
                tie = min(tie, (1.0 - m) / (1.0 - b))
    for i in range(len(now)):
        for j in range(len(now)):
            apart_before, apart = before[j] - before[i], now[j] - now[i]
            if apart_before > 0.0 and apart_before != apart:
                tie = min(tie, apart / apart_before)
    return tie


def bad_days(plan: dict[str, Any], v: dict[str, Any], luck: Luck, season: Season) -> list[dict[date, bool]]:
    """For each boat and each day from the run-up to the end of the money year: is the sea too bad?"""
    multipliers = [boat.get("weather_odds_multiplier", 1.0) for boat in v["boat"]]
    w, r = luck.normal_in_year(season.year, "year_weather"), v["weather"].get("persistence", 0.0)
    odds = {m: [odds_of_bad_day(v, k, m, w) for k in multipliers] for m in range(1, 13)}
    bad: list[dict[date, bool]] = [{} for _ in multipliers]
    first = season.start - lead(highest(plan["weather"].get("persistence", 0.0))) * DAY
    for today in days(first, season.books_last):
        now, before = odds[today.month], odds[(today - DAY).month]
        u, tie = luck.daily(today, "weather_day"), tie_to_yesterday(r, before, now)
        for b in range(len(multipliers)):
            q = now[b] if today == first else now[b] + tie * (bad[b][today - DAY] - before[b])
            bad[b][today] = u < q
    return bad


def ground_days(plan: dict[str, Any], v: dict[str, Any], luck: Luck, season: Season, k: int) -> dict[date, float]:
    """Day factor of species k on the ground, to the end of the money year."""
    sd, phi = v["species"][k].get("day_sd", 0.0), v["species"][k].get("day_persistence", 0.0)
    first = season.start - lead(highest(plan["species"][k].get("day_persistence", 0.0))) * DAY
    x, factor = None, {}
    for today in days(first, season.books_last):
        x = step(x, phi, luck.daily_normal(today, "ground_day", k))
        factor[today] = mean_one(sd, x)
    return factor


def week_prices(plan: dict[str, Any], v: dict[str, Any], luck: Luck, season: Season, o: int) -> dict[date, float]:
    """Price factor of outlet o by the Monday its week starts on."""
    sd, phi = v["outlet"][o].get("week_sd", 0.0), v["outlet"][o].get("week_persistence", 0.0)
    monday = monday_of(season.start) - 7 * lead(highest(plan["outlet"][o].get("week_persistence", 0.0))) * DAY
    x, factor = None, {}
    while monday <= max(season.books_last, years_later(season.start, 1)):  # stock left over goes on selling
        x = step(x, phi, luck.normal_on(monday, "price_week", o))
        factor[monday] = mean_one(sd, x)
        monday += 7 * DAY
    return factor
