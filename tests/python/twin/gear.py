# SPDX-License-Identifier: MIT
"""The gear of one fishery of one boat in one season: set, hauled, lost, brought ashore."""

from __future__ import annotations

import math
from datetime import date
from typing import Any

from twin.calendar_years import DAY, Season, days
from twin.effects import mean_odds_of_bad_day, mean_one
from twin.philox import Luck
from twin.soak import rotation_factor

NOTHING_LEFT = 1e-9  # of the pots


class Gear:
    """Pots or a trotline from its first day of the season to its last."""

    def __init__(self, fishery: dict[str, Any], season: Season, fish_from: date | None, gear_in_days: int) -> None:
        self.fishery, self.pots = fishery, fishery["gear"] == "pots"
        self.count, self.capacity = fishery["count"], fishery["hauls_per_day"]
        first, last = season.window(fishery)
        self.window = first, last
        self.first = max(first, fish_from) if fish_from else first
        self.last = min(last, season.stop)  # of hauling; gear-in may go on after it
        self.active_this_year = self.first <= self.last
        self.setting_days = self.setting_left = int(fishery.get("setting_days", 0)) if self.pots else 0
        self.in_water = 0.0
        self.set_on = self.first - DAY  # moved to the last setting day, if there is one
        self.hauled: list[date] = []
        self.spare = fishery.get("spare", 0.0)
        self.lost_for_good = 0.0
        # Only the last pots of the year are brought in day by day; `lift_over` changes that.
        self.gear_in_days, self.lifted, self.lift_from = gear_in_days, 0, None

    def lift_over(self) -> None:
        """These are the pots whose bringing ashore takes days."""
        self.lift_from = self.last - (self.gear_in_days - 1) * DAY

    def begin_day(self, today: date) -> None:
        if today == self.first and self.setting_days == 0 and self.active_this_year:
            self.in_water = self.count
        if self.lift_from is None and today > self.last:
            self.in_water = 0.0
        if self.coming_in(today) and not self.left_to_lift():
            self.in_water = 0.0

    def coming_in(self, today: date) -> bool:
        return self.lift_from is not None and today >= max(self.lift_from, self.first)

    def left_to_lift(self) -> bool:
        return self.lifted < self.gear_in_days and self.in_water >= NOTHING_LEFT * self.count

    def is_used(self, today: date) -> bool:
        """Is there anything to do with it today, weather and people allowing?"""
        if not self.active_this_year:
            return False
        if self.coming_in(today):
            return self.left_to_lift()
        return self.first <= today <= self.last

    def rounds(self) -> float:
        """Haul days for the whole rotation."""
        return max(1.0, self.in_water / self.capacity)

    def hauls(self, today: date, crew: float) -> float:
        """Pots hauled today with this part of the usual hauls: none while setting."""
        if self.coming_in(today):
            return min(self.in_water, self.count / self.gear_in_days)
        if self.setting_left > 0:
            return 0.0
        return min(self.in_water, self.capacity) * crew if self.pots else self.capacity * crew

    def soak(self, today: date, species: dict[str, Any]) -> float:
        if not self.pots or "usual_soak_nights" not in species or "soak_time_constant_nights" not in species:
            return 1.0
        nights = species["usual_soak_nights"], species["soak_time_constant_nights"]
        return rotation_factor(today, self.hauled, self.set_on, self.rounds(), *nights)

    def worked(self, today: date, hauls: float) -> None:
        """After a day out with it."""
        if self.coming_in(today):
            self.in_water -= hauls
            self.lifted += 1
            self.hauled.append(today)
            if not self.left_to_lift():
                self.in_water = 0.0
        elif self.setting_left > 0:
            self.setting_left -= 1
            self.in_water += self.count / self.setting_days
            self.set_on = today
        else:
            self.hauled.append(today)

    def lose(self, pots: float, at_once: bool) -> None:
        """Lost pots are replaced from the spare ones, then at once or not before next season."""
        from_spare = min(self.spare, pots)
        self.spare -= from_spare
        if not at_once:
            self.in_water -= pots - from_spare
            self.lost_for_good += pots - from_spare


class Losses:
    """How a boat loses pots of one fishery in one season; days and odds are those of the plan before choices."""

    def __init__(
        self,
        gear: Gear,
        loss: dict[str, Any],
        base: dict[str, Any],
        place: tuple[int, int],
        season: Season,
        luck: Luck,
        odds_multiplier: float,
    ) -> None:
        boat, fishery = place
        self.loss, self.at_once = loss, loss["replace"] == "at once"
        base_season = Season(base, season.y)
        try:
            first, last = base_season.window(base["boat"][boat]["fishery"][fishery])
        except IndexError:  # a boat or fishery the choice has added: its own
            first, last = gear.window
        dates = list(days(first, last))
        self.daily = 1.0 - (1.0 - loss["season_fraction"]) ** (1.0 / len(dates))
        self.month_luck = {}
        if "pots_per_string" in loss and self.daily > 0.0:
            for month in {(d.year, d.month) for d in dates}:
                here = [d for d in dates if (d.year, d.month) == month]
                odds = 1.0 - (1.0 - self.daily) ** len(here)
                sd = math.sqrt(math.log(1.0 + (1.0 - odds) * loss["pots_per_string"] / (gear.count * odds)))
                z = luck.normal_on(date(*month, 1), "gear_loss_month", 0, boat)
                self.month_luck[month] = mean_one(sd, z)
        odds_by_month = {m: mean_odds_of_bad_day(base, odds_multiplier, m) for m in {d.month for d in dates}}
        self.expected_bad_days = sum(odds_by_month[d.month] for d in dates)
        self.storm_hazard = 0.0  # the boat's own, over the bad days of all its pots

    def steady(self, in_water: float, today: date) -> float:
        return in_water * min(1.0, self.daily * self.month_luck.get((today.year, today.month), 1.0))
