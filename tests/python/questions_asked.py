# SPDX-License-Identifier: MIT
"""Questions on small invented plans with luck in every part, for judging their intervals: quick enough to ask 400 times."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import cache
from typing import Any

import seasonrisk as sr
from small_plan import bare, text

BREAKDOWN = {
    "kind": "engine", "per_100_days": 2.0, "repair": {"low": 150.0, "typical": 400.0, "high": 1200.0}, "days_lost": {"low": 1.0, "typical": 3.0, "high": 7.0},
    "claimable_odds": 0.5,
}  # fmt: skip
INSURANCE = {"hull_value": 50000.0, "premium": 300.0, "pay_month": "mar", "deductible": 300.0}
SECOND = {
    "name": "Second Thoughts", "skipper": "hired", "catching_power": 0.9, "weather_odds_multiplier": 1.2, "fuel_l_per_day_out": 12.0,
    "fishery": [{"gear": "pots", "count": 100, "hauls_per_day": 100, "species": ["crab"], "elasticity": 0.8}],
    "crew": [{"name": "skipper", "pay": "share after bait and fuel", "share_fraction": 0.3}], "breakdown": [BREAKDOWN], "ground_share": 0.97,
}  # fmt: skip


#: A fifth more gear, and what it costs: a little less on average, so a guess known could turn the choice.
MORE = {"boat.0.fishery.0.hauls_per_day": 120, "boat.0.fishery.0.count": 120, "household.draw_per_month": 355.0}


@cache
def lively(years: int = 1) -> sr.Plan:
    """100 days; luck of the weather, the catch, the price, breakdowns and gear; two guesses; a loan, tax and a draw."""
    plan = bare(
        business={"years": years, "overdraft_limit": 2000.0, "overdraft_rate_fraction": 0.1, "opening_cash": 2500.0},
        weather={"unfishable_fraction": 0.3, "persistence": 0.4, "year_sd": 0.2},
        species={"year_sd": 0.2, "day_sd": 0.3, "day_persistence": 0.5, "per_haul": {"low": 0.9, "typical": 1.0, "high": 1.15}},
        outlet={"price": {"crab": {"low": 0.9, "typical": 1.0, "high": 1.1}}, "year_sd": 0.1},
        boat={"fuel_l_per_day_out": 10.0, "breakdown": [BREAKDOWN], "insurance": INSURANCE, "gear_loss": {"season_fraction": 0.1, "pot_cost": 30.0, "replace": "at once"}},
        household={"draw_per_month": 280.0, "tax_fraction": 0.1, "tax_months": ["jan"]},
    )  # fmt: skip
    plan["boat"][0]["fishery"][0]["elasticity"] = 0.7
    plan["loan"] = [{"name": "first", "balance": 3000.0, "rate_fraction": 0.08, "years_left": 8, "pay": "monthly", "secured_on": "Bare Poles"}]
    plan["ending"] = {"gear_in_days": 4, "lay_up_refund_per_day": 2}
    plan["family_date"] = [{"name": "wedding", "date": dt.date(2027, 8, 28), "gear_ashore": True}, {"name": "regatta", "date": dt.date(2027, 7, 17), "gear_ashore": False}]
    return sr.Plan.parse(text(plan))


@cache
def promised() -> sr.Plan:
    """A regular on Wednesdays."""
    plan = bare(species={"day_sd": 0.3, "day_persistence": 0.0}, outlet={"price": {"crab": 4.0}})
    plan["order"] = [{"who": "the inn", "grade": "crab", "quantity": 50.0, "days": ["Wednesday"], "price": 6.0, "refund_per_unit": 3.0}]
    return sr.Plan.parse(text(plan))


def reserve(key: int, histories: int) -> object:
    return sr.reserve(lively(), years=3, start=4000.0, histories=histories, key=key, threads=1)


def promise(key: int, histories: int) -> object:
    return sr.safe_promise(promised(), histories=histories, key=key, threads=1).safe


def break_even(key: int, histories: int) -> object:
    def find(of: str, chance: float | None) -> sr.Estimate | None:
        return sr.break_even(lively(), "price", of=of, chance=chance, between=(0.5, 2.5), histories=histories, key=key, threads=1).value

    return {"mean": find("household", None), "9 in 10": find("loan", 0.9)}


def two_boats(key: int, histories: int) -> object:
    """A second boat over two years, with what every page of a comparison tells of it."""
    changes = {"boat.+": SECOND, "loan.+": {"name": "second", "balance": 9000.0, "rate_fraction": 0.09, "years_left": 6, "pay": "monthly", "secured_on": "Second Thoughts"}}
    return sr.compare(lively(2), [("buy", changes)], histories=histories, key=key, largest_loss=9000.0, threads=1)  # type: ignore[list-item]


def end_early(key: int, histories: int) -> object:
    return sr.end_early(lively(), last_days=[dt.date(2027, 8, 20), dt.date(2027, 8, 30)], histories=histories, key=key, threads=1).days[:-1]


def time_off(key: int, histories: int) -> object:
    found = sr.time_off(lively(), dt.date(2027, 7, 12), days=14, move=False, histories=histories, key=key, threads=1)
    return {"asked": found.asked, "as it is": found.chances, "family": found.family, "days": dict(found.days())}


def drivers(key: int, histories: int) -> object:
    found = sr.drivers(lively(), histories=histories, key=key, threads=1)
    return {row.name: row for row in found.rows} | {name: getattr(found, name) for name in ("guess", "luck", "guess_pairs", "luck_pairs", "left")}


def worth_knowing(key: int, histories: int) -> object:
    found = sr.worth_knowing(lively(), [MORE], histories=histories, key=key, threads=1)
    return {"means": found.means} | {row.path: row for row in found.rows}


#: By name: the question, histories of a run, and of the truth.
QUESTIONS: dict[str, tuple[Callable[[int, int], Any], int, int]] = {
    "reserve": (reserve, 400, 160_000),
    "safe_promise": (promise, 200, 40_000),
    "break_even": (break_even, 300, 120_000),
    "compare": (two_boats, 1_600, 400_000),
    "end_early": (end_early, 1_600, 400_000),
    "time_off": (time_off, 1_600, 400_000),
    "drivers": (drivers, 4_000, 400_000),
    "worth_knowing": (worth_knowing, 4_000, 400_000),
}
