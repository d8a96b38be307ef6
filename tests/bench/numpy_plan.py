# SPDX-License-Identifier: MIT
"""A one-boat plan for the NumPy season: guesses drawn for a block of histories at once."""

from __future__ import annotations

import tomllib
from datetime import date
from typing import Any

import numpy as np

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
Z_ONE_IN_TEN = 1.281551565545
SIZES = {"repair", "days_lost"}  # spread of each event, not a guess
COUNTS = {"days_lost", "setting_days", "paid_after_days", "claim_paid_after_days"}
UNIT_INTERVAL = ("fraction", "persistence", "_odds", "odds_per_year", "elasticity")
BOTH_SIGNS = ("_correlation", "_carry")
Number = Any  # float, or an array with one value per history


def read(text: str) -> dict[str, Any]:
    return tomllib.loads(text)


def is_guess(value: Any) -> bool:
    return isinstance(value, dict) and "typical" in value


def spread(points: dict[str, float], key: str, z: np.ndarray) -> np.ndarray:
    """The value at the normal deviate z: exact at 1 in 10, the middle and 1 in 10."""
    a, b, c = (np.float64(points[k]) for k in ("low", "typical", "high"))
    ends = None
    if key in COUNTS:
        a, b, c = np.log1p([a, b, c])
    elif key.endswith(UNIT_INTERVAL):
        ends = (0.0, 1.0)
    elif key.endswith(BOTH_SIGNS):
        ends = (-1.0, 1.0)
    elif key == "years_left":
        ends = (1.0, 60.0)
    elif key != "opening_cash":
        a, b, c = np.log([a, b, c])
    if ends is not None:
        a, b, c = (np.log((x - ends[0]) / (ends[1] - x)) for x in (a, b, c))
    t = b + np.where(z < 0.0, b - a, c - b) * (z / Z_ONE_IN_TEN)
    if key in COUNTS:
        return np.maximum(np.floor(np.exp(t) - 0.5), 0.0)
    if ends is not None:
        return ends[0] + (ends[1] - ends[0]) / (1.0 + np.exp(-t))
    return t if key == "opening_cash" else np.exp(t)


def drawn(plan: Any, rng: np.random.Generator, n: int, key: str = "") -> Any:
    """The plan with an array of `n` values in place of each guess."""
    if is_guess(plan):
        return plan if key in SIZES else spread(plan, key, rng.standard_normal(n))
    if isinstance(plan, dict):
        inherit = key == "unfishable_fraction"
        return {k: drawn(v, rng, n, key if inherit else k) for k, v in plan.items() if k != "choice"}
    if isinstance(plan, list):
        return [drawn(v, rng, n, key) for v in plan]
    return plan


def of_month(value: Any, month: int, left_out: float) -> Number:
    return value.get(MONTHS[month - 1], left_out) if isinstance(value, dict) else value


def fraction_of_month(value: Any, month: int) -> Number:
    """A month without a fraction takes the last one before it, going round the year."""
    if not isinstance(value, dict):
        return value
    return next(value[m] for back in range(12) if (m := MONTHS[(month - 1 - back) % 12]) in value)


def money_months(plan: dict[str, Any]) -> list[date]:
    """First days of the twelve months of the money year, and of the month after."""
    first = plan["business"].get("books_start")
    if first is None:
        start = plan["season"]["start"]
        months = start.year * 12 + start.month - 4
        first = date(months // 12, months % 12 + 1, 1)
    n = first.year * 12 + first.month - 1
    return [date((n + i) // 12, (n + i) % 12 + 1, 1) for i in range(13)]
