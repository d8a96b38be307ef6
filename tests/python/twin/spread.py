# SPDX-License-Identifier: MIT
"""Low / typical / high as a function of one standard normal z: exact at 1 in 10, the middle and 1 in 10."""

from __future__ import annotations

import math

Z_ONE_IN_TEN = 1.281551565545

# Keys whose range has two ends, or none; every other number is above 0 (log scale).
BETWEEN = {
    **dict.fromkeys(
        (
            "unfishable_fraction",
            "overdraft_rate_fraction",
            "levy_fraction",
            "share_fraction",
            "season_fraction",
            "rate_fraction",
            "tax_fraction",
            "claimable_odds",
            "total_loss_odds_per_year",
            "persistence",
            "day_persistence",
            "week_persistence",
            "elasticity",
        ),
        (0.0, 1.0),
    ),
    **dict.fromkeys(
        (
            "year_carry",
            "fuel_year_carry",
            "bait_year_carry",
            "species_year_correlation",
            "price_catch_correlation",
            "weather_catch_correlation",
        ),
        (-1.0, 1.0),
    ),
}
PLAIN = {"opening_cash"}
COUNTS = {"setting_days", "paid_after_days", "claim_paid_after_days", "days_lost"}


def round_half_up(x: float) -> int:
    return math.floor(x + 0.5)


def spread_at(points: dict, key: str, z: float) -> float:
    """The value of `{ low, typical, high }` under the key at the normal deviate z."""
    if key in BETWEEN:
        a, b = BETWEEN[key]
        there = lambda x: math.log((x - a) / (b - x))  # noqa: E731
        back = lambda t: a + (b - a) / (1.0 + math.exp(-t))  # noqa: E731
    elif key in PLAIN:
        there = back = float
    elif key in COUNTS:
        there = lambda x: math.log(1.0 + x)  # noqa: E731
        back = lambda t: float(max(0, round_half_up(math.exp(t) - 1.0)))  # noqa: E731
    else:
        there, back = math.log, math.exp
    middle = there(points["typical"])
    end = there(points["high"]) if z >= 0.0 else there(points["low"])
    return back(middle + abs(z) / Z_ONE_IN_TEN * (end - middle))
