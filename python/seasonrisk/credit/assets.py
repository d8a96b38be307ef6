# SPDX-License-Identifier: MIT
"""What the business owns: its worth as security, its wear, and what is bought on the way. Of guesses the typical value."""

from __future__ import annotations

import datetime as dt

from seasonrisk import _core
from seasonrisk.credit.years import books_start, length_of, text_at, typical_at
from seasonrisk.plan import Plan
from seasonrisk.words import seasons_of

__all__ = ["asset_names", "assets_bought", "security", "wear_of_year"]


def asset_names(plan: Plan) -> list[str]:
    """Names of the plan's assets that have one."""
    return list(filter(None, (text_at(plan, f"asset.{n}.name") for n in range(length_of(plan, "asset")))))


def security(plan: Plan, name: str, years_on: int) -> tuple[float | None, float | None]:
    """Worth of the asset of that name so many years after the books begin, and what a sale in a hurry would bring.

    None for what the plan does not tell. A survey says what she is worth today; from there she wears as the asset does.
    """
    for n in range(length_of(plan, "asset")):
        if name and text_at(plan, f"asset.{n}.name") == name:
            worn = _worn(plan, n, _begin(plan, years_on))
            survey = typical_at(plan, f"asset.{n}.survey_value")
            today = _worn(plan, n, _begin(plan, 0)) or typical_at(plan, f"asset.{n}.cost")
            value = survey * worn / today if survey > 0.0 and today > 0.0 else worn
            fraction = typical_at(plan, f"asset.{n}.forced_sale_fraction")
            return value, value * fraction if fraction > 0.0 else None
    return None, None


def wear_of_year(plan: Plan, y: int) -> float:
    """What all assets lose in worth over a money year, 0 first; one bought in that year from the day it is bought."""
    begin, end = _begin(plan, y), _begin(plan, y + 1)
    worn = 0.0
    for n in range(length_of(plan, "asset")):
        bought = plan.date(f"asset.{n}.bought")
        if bought < end:
            before = typical_at(plan, f"asset.{n}.cost") if bought >= begin else _worn(plan, n, begin)
            worn += before - _worn(plan, n, end)
    return worn


def assets_bought(plan: Plan) -> float:
    """Cost of the assets bought in the money years of a run."""
    begin, end = _begin(plan, 0), _begin(plan, len(seasons_of(plan)))
    bought = [n for n in range(length_of(plan, "asset")) if begin <= plan.date(f"asset.{n}.bought") < end]
    return sum(typical_at(plan, f"asset.{n}.cost") for n in bought)


def _begin(plan: Plan, years_on: int) -> dt.date:
    """First day of a money year; of 29 February the 28th."""
    start = books_start(plan)
    return start.replace(year=start.year + years_on, day=min(start.day, 28) if start.month == 2 else start.day)


def _worn(plan: Plan, n: int, day: dt.date) -> float:
    at = f"asset.{n}."
    days: int = (day - plan.date(at + "bought")).days
    if days <= 0:
        return 0.0
    return _core.worn_value(
        cost=typical_at(plan, at + "cost"), resale=typical_at(plan, at + "resale"), life_years=typical_at(plan, at + "life_years"), age_years=days / 365.25
    )
