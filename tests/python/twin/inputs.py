# SPDX-License-Identifier: MIT
"""Things bought ahead of the season, some of them used up by the haul."""

from __future__ import annotations

from datetime import date
from typing import Any

from twin.books import Books
from twin.calendar_years import Season
from twin.plan_values import pots_of_all
from twin.years import growth


def quantity_of(one: dict[str, Any], v: dict[str, Any]) -> float:
    return one["quantity"] if "quantity" in one else one["quantity_per_pot"] * pots_of_all(v)


class Inputs:
    def __init__(self, v: dict[str, Any], books: Books) -> None:
        self.v, self.books = v, books

    def begin_season(self, season: Season) -> None:
        """What is good of this year's purchase."""
        self.grown = growth(self.v, "costs", season.y)
        self.stock = [
            quantity_of(one, self.v) * (1.0 - one.get("spoil_fraction", 0.0)) for one in self.v.get("input", [])
        ]

    def use(self, hauls: float, today: date) -> None:
        """The day's hauls use some up; what is not in store is bought today."""
        for i, one in enumerate(self.v.get("input", [])):
            used = one.get("used_per_haul", 0.0) * hauls
            bought = max(0.0, used - self.stock[i])
            self.stock[i] = max(0.0, self.stock[i] - used)
            self.books.cost("inputs", bought * one["unit_cost"] * self.grown, today)
