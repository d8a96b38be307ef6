# SPDX-License-Identifier: MIT
"""Low / typical / high as a function of one standard normal z: exact at 1 in 10, the middle and 1 in 10."""

from __future__ import annotations

import math

Z_ONE_IN_TEN = 1.281551565545

# What the name of a key says about the range of its values, and so about the scale a spread is bent on. Every
# key that is not named here is above 0 (log scale).
CORRELATIONS = ("carry", "correlation")  # endings: between -1 and 1
SHARES = ("fraction", "persistence", "share", "elasticity")  # endings: between 0 and 1
ODDS = (
    *("claimable_odds", "crew_leaves_odds", "odds_per_year", "total_loss_odds_per_year"),
    *("skipper_gap_odds_per_year", "missed_settlement_odds_per_year", "die_off_odds_per_day"),
    *("laid_up_odds_per_season", "storm_odds_per_season"),
)
PLAIN = ("opening_cash", "stay_in_below", "own_landings_flexibility")
COUNTS = (
    *("setting_days", "gear_in_days", "crew_notice_days", "paid_after_days", "claim_paid_after_days", "days_lost"),
    *("days_saved", "longest_days", "owner_days_per_breakdown", "interest_only_months", "days"),
    *("weeks_lost", "skipper_gap_weeks"),
)


def scale_of(key: str) -> str | tuple[float, float]:
    """The two bounds, or "plain", "count", "growth" (above -1), "positive"."""
    if key in PLAIN:
        return "plain"
    if key in COUNTS:
        return "count"
    if key.endswith("_per_year_fraction") and key != "rate_change_sd_per_year_fraction":
        return "growth"
    if key == "last_year_fraction":
        return "positive"
    if key in ODDS or key.endswith(SHARES):
        return 0.0, 1.0
    return (-1.0, 1.0) if key.endswith(CORRELATIONS) else "positive"


def round_half_up(x: float) -> int:
    return math.floor(x + 0.5)


def spread_at(points: dict, key: str, z: float) -> float:
    """The value of `{ low, typical, high }` under the key at the normal deviate z."""
    scale = scale_of(key)
    if isinstance(scale, tuple):
        a, b = scale
        there = lambda x: math.log((x - a) / (b - x))  # noqa: E731
        back = lambda t: a + (b - a) / (1.0 + math.exp(-t))  # noqa: E731
    elif scale == "plain":
        there = back = float
    elif scale == "count":
        there = lambda x: math.log(1.0 + x)  # noqa: E731
        back = lambda t: float(max(0, round_half_up(math.exp(t) - 1.0)))  # noqa: E731
    elif scale == "growth":
        there = lambda x: math.log(1.0 + x)  # noqa: E731
        back = lambda t: math.exp(t) - 1.0  # noqa: E731
    else:
        there, back = math.log, math.exp
    middle = there(points["typical"])
    end = there(points["high"]) if z >= 0.0 else there(points["low"])
    return back(middle + abs(z) / Z_ONE_IN_TEN * (end - middle))
