# SPDX-License-Identifier: MIT
"""A plan file as plain values, with the guesses drawn for one history."""

from __future__ import annotations

import copy
import tomllib
from datetime import date
from typing import Any

from twin.philox import Luck
from twin.spread import spread_at

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
# Keys that may hold a map by month or by name: its parts take the scale of the whole.
MAPS = (
    *("unfishable_fraction", "month_shape", "price", "month_factor", "daily_limit", "demand_per_open_day"),
    *("loss_per_night_fraction", "draw_per_month", "other_income_per_month", "hours"),
)
# The spread of each event, never a guess.
SIZES = ("repair", "days_lost", "weeks_lost", "skipper_gap_weeks", "storm_loss_fraction")


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
            if k not in ("choice", "stress")
        }
    if isinstance(plan, list):
        return [drawn(v, luck, f"{path}.{i}", key) for i, v in enumerate(plan)]
    return plan


def choose(plan: dict[str, Any], name: str) -> dict[str, Any]:
    """The plan under one of its own choices."""
    changed = copy.deepcopy(plan)
    (choice,) = [c for c in plan["choice"] if c["name"] == name]
    for path, value in choice["set"].items():
        *way, last = path.split(".")
        at: Any = changed
        for step in way:
            at = at[int(step)] if isinstance(at, list) else at.setdefault(step, {})
        if isinstance(at, list):
            at[int(last)] = value
        else:
            at[last] = value
    return changed


def size_of_event(section: dict[str, Any], key: str, z: float) -> float:
    """A repair, the weeks of an illness ...: fixed, or spread anew at each event."""
    value = section.get(key, 0.0)
    return spread_at(value, key, z) if is_three_points(value) else value


def of_month(value: Any, month: int, left_out: float) -> float:
    """A number, or a map by month; a month left out has the neutral value."""
    return value.get(MONTHS[month - 1], left_out) if isinstance(value, dict) else float(value)


def last_stated(value: Any, month: int) -> float:
    """A month without a fraction takes the last one before it that has one, going round the year; none: 0."""
    if not isinstance(value, dict):
        return float(value)
    return next((value[m] for back in range(12) if (m := MONTHS[(month - 1 - back) % 12]) in value), 0.0)


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


def pots_of(boat: dict[str, Any]) -> float:
    """The pots a boat is charged and prepared for: those of its first pot fishery."""
    return next((f["count"] for f in boat["fishery"] if f["gear"] == "pots"), 0.0)


def pots_of_all(v: dict[str, Any]) -> float:
    return sum(pots_of(boat) for boat in v["boat"])
