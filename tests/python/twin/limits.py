# SPDX-License-Identifier: MIT
"""What may be landed: limits by day, week, month and season, and closures that may come."""

from __future__ import annotations

from datetime import date
from typing import Any

from twin.calendar_years import DAY, Season, monday_of
from twin.philox import Luck


class Limit:
    """One limit of the business in one season."""

    def __init__(self, limit: dict[str, Any], species: int, season: Season) -> None:
        self.limit, self.species, self.season = limit, species, season
        self.amount, self.stops = limit["amount"], limit["over"] == "stop"
        self.period: Any = None
        self.landed, self.reached_on = 0.0, None

    def period_of(self, today: date) -> Any:
        return {
            "day": today,
            "week": monday_of(today),
            "month": (today.year, today.month),
            "season": self.season.year,
        }[self.limit["per"]]

    def holds(self, today: date) -> bool:
        """Does it hold today? A new period starts from nothing."""
        if self.period != self.period_of(today):
            self.period, self.landed, self.reached_on = self.period_of(today), 0.0, None
        return self.season.holds(self.limit, today)

    def stops_boats(self, today: date) -> bool:
        return self.stops and self.holds(today) and self.reached_on is not None and self.reached_on < today

    def land(self, amount: float, today: date) -> None:
        self.landed += amount
        if self.reached_on is None and self.landed >= self.amount * (1.0 - 1e-12):
            self.reached_on = today


class Limits:
    def __init__(self, v: dict[str, Any], season: Season, luck: Luck) -> None:
        self.season = season
        names = [s["name"] for s in v["species"]]
        self.limits = [Limit(one, names.index(one["species"]), season) for one in v.get("limit", [])]
        self.closed: list[tuple[date, date]] = []
        for i, shock in enumerate(v.get("shock", [])):
            if luck.in_year(season.year, "shock", i) < shock["odds_per_year"]:
                first = season.moved(shock["from"])
                self.closed.append((first, first + (int(shock["days"]) - 1) * DAY))

    def keeps_in(self, species: list[int], today: date) -> bool:
        """Is a boat that catches these species to stay in?"""
        if any(first <= today <= last for first, last in self.closed):
            return True
        stopped = {limit.species for limit in self.limits if limit.stops_boats(today)}
        return all(k in stopped for k in species)

    def land(self, catch: list[list[float]], today: date) -> float:
        """Cut the catch (by boat and species) down to what may be landed; what leasing the rest costs."""
        lease, holding = 0.0, [limit for limit in self.limits if limit.holds(today)]
        for limit in (limit for limit in holding if limit.stops):
            total = sum(of_boat[limit.species] for of_boat in catch)
            over = limit.landed + total - limit.amount
            if total <= 0.0 or over <= 0.0:
                continue
            part = max(0.0, limit.amount - limit.landed) / total
            for of_boat in catch:
                of_boat[limit.species] *= part
        for limit in holding:  # what goes back is not landed, so it is neither counted nor leased
            total = sum(of_boat[limit.species] for of_boat in catch)
            over = min(total, limit.landed + total - limit.amount)
            if not limit.stops and over > 0.0:
                lease += limit.limit.get("lease_price", 0.0) * over
            limit.land(total, today)
        return lease
