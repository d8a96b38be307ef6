# SPDX-License-Identifier: MIT
"""A plan file as plain values, with the guesses drawn for one history."""

from __future__ import annotations

import tomllib
from datetime import date
from typing import Any

from twin.philox import Luck
from twin.spread import spread_at

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
MAPS = {"unfishable_fraction", "price"}  # keys whose parts take the scale of the whole
SIZES = {"repair", "days_lost"}  # spread of each event, never a guess


def read(text: str) -> dict[str, Any]:
    return tomllib.loads(text)


def is_three_points(value: Any) -> bool:
    return isinstance(value, dict) and set(value) == {"low", "typical", "high"}


def drawn(plan: Any, luck: Luck, path: str = "", key: str = "") -> Any:
    """The plan with each guess replaced by its value in this history."""
    if is_three_points(plan):
        return plan if key in SIZES else spread_at(plan, key, luck.of_guess(path))
    if isinstance(plan, dict):
        return {
            k: drawn(v, luck, f"{path}.{k}" if path else k, key if key in MAPS else k)
            for k, v in plan.items()
            if k != "choice"
        }
    if isinstance(plan, list):
        return [drawn(v, luck, f"{path}.{i}", key) for i, v in enumerate(plan)]
    return plan


def choose(plan: dict[str, Any], name: str) -> dict[str, Any]:
    """The plan under one of its own choices."""
    import copy

    changed = copy.deepcopy(plan)
    (choice,) = [c for c in plan["choice"] if c["name"] == name]
    for path, value in choice["set"].items():
        *way, last = path.split(".")
        at: Any = changed
        for step in way:
            at = at[int(step)] if isinstance(at, list) else at.setdefault(step, {})
        at[last] = value
    return changed


def of_month(value: Any, month: int, left_out: float) -> float:
    """A number, or a map by month; a month left out has the neutral value."""
    return value.get(MONTHS[month - 1], left_out) if isinstance(value, dict) else float(value)


def weather_fraction(value: Any, month: int) -> float:
    """A month without a fraction takes the last one before it, going round the year."""
    if not isinstance(value, dict):
        return float(value)
    return next(value[m] for back in range(12) if (m := MONTHS[(month - 1 - back) % 12]) in value)


def highest(value: Any) -> float:
    """The largest value a number is meant to take: of a guess its `high`."""
    return value["high"] if is_three_points(value) else value


def month_number(name: str) -> int:
    return MONTHS.index(name) + 1


def books_start(plan: dict[str, Any]) -> date:
    if "books_start" in plan["business"]:
        return plan["business"]["books_start"]
    start = plan["season"]["start"]
    months = start.year * 12 + start.month - 1 - 3
    return date(months // 12, months % 12 + 1, 1)
