# SPDX-License-Identifier: MIT
"""The usual landing of a fished day, against which own landings move a price: a history without luck."""

from __future__ import annotations

import copy
from collections import defaultdict
from datetime import date
from typing import Any

from twin.philox import Luck
from twin.plan_values import SIZES, is_three_points

Usual = dict[tuple[int, int, int], float]  # season year counted from 0, month, good

NO_LUCK = {
    **dict.fromkeys(("year_sd", "day_sd", "boat_day_sd", "week_sd", "fuel_year_sd", "bait_year_sd"), 0.0),
    **dict.fromkeys(("per_100_days", "season_fraction", "storm_odds_per_season", "odds_per_year"), 0.0),
    **dict.fromkeys(("no_show_fraction", "skipper_gap_odds_per_year", "owner_days_per_month"), 0.0),
    **dict.fromkeys(("unfishable_fraction", "laid_up_odds_per_season"), 0.0),
}
LEFT_OUT = ("limit", "shock", "suppose", "last_year_fraction", "stay_in_below", "own_landings_flexibility", "choice")

_known: dict[int, tuple[dict[str, Any], Usual]] = {}


def without_luck(plan: Any, key: str = "") -> Any:
    """The plan with guesses at their middle and everything off that is luck, loss or a limit."""
    if key in NO_LUCK:
        return NO_LUCK[key]
    if is_three_points(plan):
        return 0.0 if key in SIZES else plan["typical"]
    if isinstance(plan, dict):
        return {k: without_luck(value, k) for k, value in plan.items() if k not in LEFT_OUT}
    if isinstance(plan, list):
        return [without_luck(value, key) for value in plan]
    return plan


def usual_landings(base: dict[str, Any]) -> Usual:
    """Mean landing of each good on a fished day of each month and year of the plan before choices."""
    if not any("own_landings_flexibility" in outlet for outlet in base["outlet"]):
        return {}
    if id(base) not in _known:
        _known[id(base)] = (base, told_without_luck(base))
    return _known[id(base)][1]


def told_without_luck(base: dict[str, Any]) -> Usual:
    from twin.season import History

    plan = without_luck(copy.deepcopy(base))

    class Counting(History):
        """A history that writes down what is landed."""

        def catch_and_costs(self, trips: list, today: date) -> list[list[float]]:
            landing = super().catch_and_costs(trips, today)
            for good in self.goods if today in self.season else []:
                name = self.species[good.species]["name"]
                if any(t and t.hauls > 0.0 and name in t.gear.fishery["species"] for t in trips):
                    place = (self.season.y, today.month, good.number)
                    landed[place].append(sum(landing[good.number]))
            return landing

    landed: defaultdict[tuple[int, int, int], list[float]] = defaultdict(list)
    told = Counting(plan, plan, Luck(0, 0), {})
    for season in told.seasons:
        told.live_year(season)
    return {place: sum(amounts) / len(amounts) for place, amounts in landed.items()}
