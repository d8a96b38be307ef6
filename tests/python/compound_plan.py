# SPDX-License-Identifier: MIT
"""Losses of many sizes as the breakdowns of a bare plan: a compound Poisson sum, as near as a plan can say it."""

from __future__ import annotations

import math
from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import numpy as np
from small_plan import bare

DAYS = 365


def compound_plan(sizes: Any, mean_counts: Any, years: int = 1) -> dict[str, Any]:
    """A breakdown kind for each size; none costs a day. Books and seasons of 365 days begin on 1 March.

    A kind happens at most once a day, with odds p, so its count is binomial, not Poisson: the mean count of a
    season is met exactly by the choice of p, the variance falls short by the factor 1 - p.
    """
    start = date(2027, 3, 1)
    plan = bare(
        business={"books_start": start, "years": years},
        season={"start": start, "end": start + timedelta(days=DAYS - 1)},
    )
    plan["boat"][0]["breakdown"] = [
        {
            "kind": f"kind {i}",
            "per_100_days": -100.0 * math.log1p(-float(count) / DAYS),
            "repair": float(size),
            "days_lost": 0,
        }
        for i, (size, count) in enumerate(zip(sizes, mean_counts, strict=True))
    ]
    return plan


def insured(plan: dict[str, Any], deductible: float) -> dict[str, Any]:
    """Every breakdown of `plan` is a claim above the deductible; the policy itself costs nothing."""
    for breakdown in plan["boat"][0]["breakdown"]:
        breakdown["claimable_odds"] = 1.0
    plan["boat"][0]["insurance"] = {
        "hull_value": 0.0,
        "premium": 0.0,
        "pay_month": "mar",
        "deductible": deductible,
    }
    return plan


Law = Callable[[np.ndarray], np.ndarray]


def slices(survival: Law, limited_mean: Law, edges: Any) -> tuple[np.ndarray, np.ndarray]:
    """Size and odds of each slice of a law of losses between `edges`, the last one open; a slice's size is its mean.

    `limited_mean` is E[min(X, x)]; the mean size is met exactly, the second moment but for the spread in a slice.
    """
    above, limited = survival(edges), limited_mean(edges)
    odds = above - np.append(above[1:], 0.0)
    # E[X; a < X <= b] = a S(a) - b S(b) + L(b) - L(a); beyond the last edge b S(b) is 0 and L the whole mean.
    upper = np.append(edges[1:] * above[1:], 0.0)
    whole = np.append(limited[1:], limited_mean(np.array([1e300]))[0])
    return (edges * above - upper + whole - limited) / odds, odds


def exponential(mean: float) -> tuple[Law, Law]:
    return lambda x: np.exp(-x / mean), lambda x: -mean * np.expm1(-x / mean)


def pareto(alpha: float, theta: float) -> tuple[Law, Law]:
    """Survival (theta / (x + theta))^alpha."""
    return (
        lambda x: (theta / (x + theta)) ** alpha,
        lambda x: theta / (alpha - 1.0) * (1.0 - (theta / (x + theta)) ** (alpha - 1.0)),
    )
