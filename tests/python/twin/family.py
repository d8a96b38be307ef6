# SPDX-License-Identifier: MIT
"""Dates that matter at home: reported, never priced."""

from __future__ import annotations

from datetime import date
from typing import Any

from twin.boat import Boat
from twin.calendar_years import Season


class FamilyDates:
    def __init__(self, v: dict[str, Any], boats: list[Boat], seasons: list[Season]) -> None:
        own = [boat for boat in boats if boat.owners]
        self.boats, self.seasons = own or boats, seasons
        self.dates = v.get("family_date", [])
        self.kept: dict[tuple[str, int], bool] = {}  # by name and year

    def due(self, today: date, ashore: bool) -> list[tuple[str, int]]:
        return [
            (one["name"], season.y)
            for one in self.dates
            for season in self.seasons
            if one.get("gear_ashore", True) == ashore and season.moved(one["date"]) == today
        ]

    def morning(self, today: date) -> None:
        """Is all the gear ashore when the day begins?"""
        for place in self.due(today, True):
            self.kept[place] = all(
                boat.pots_in_water() == 0.0 and not boat.gear_still_to_come(today) for boat in self.boats
            )

    def evening(self, today: date, out: list[int]) -> None:
        """Did they stay at home today?"""
        for place in self.due(today, False):
            self.kept[place] = not any(boat.number in out for boat in self.boats)

    def columns(self) -> dict[str, float]:
        out = {}
        for one in self.dates:
            name = one["name"]
            by_year = [float(self.kept.get((name, season.y), True)) for season in self.seasons]
            out[f"family.{name}"] = sum(by_year) / len(by_year)
            if len(self.seasons) > 1:
                out |= {f"family.{name}.{s.year}": kept for s, kept in zip(self.seasons, by_year, strict=True)}
        return out
