# SPDX-License-Identifier: MIT
"""Who is there: the owner, hired skippers, the crew and what it is paid."""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from typing import Any

from twin.books import Books
from twin.calendar_years import DAY, Season, days_in_month
from twin.philox import Luck
from twin.plan_values import size_of_event
from twin.years import growth

LONG_AGO = date(1, 1, 1)


def daily_odds(odds: float, days: int) -> float:
    return 1.0 - (1.0 - odds) ** (1.0 / days)


class Owner:
    """The owner's own health and time."""

    def __init__(self, v: dict[str, Any], luck: Luck) -> None:
        self.v, self.luck, self.health = v, luck, v.get("skipper")
        self.laid_up_until = self.busy_until = LONG_AGO

    def is_laid_up(self, today: date) -> bool:
        return today <= self.laid_up_until

    def is_busy(self, today: date, season: Season) -> bool:
        """Seeing to one of the boats instead of taking his own out."""
        if today <= self.busy_until:
            return True
        return today in season and any(
            self.luck.on(today, "owner_day", 0, b) < boat.get("owner_days_per_month", 0.0) / days_in_month(today)
            for b, boat in enumerate(self.v["boat"])
        )

    def boat_broke_down(self, boat: dict[str, Any], today: date) -> None:
        self.busy_until = max(self.busy_until, today + int(boat.get("owner_days_per_breakdown", 0)) * DAY)

    def end_of_day(self, today: date, season: Season) -> None:
        if self.health and today in season and not self.is_laid_up(today):
            odds = daily_odds(self.health["laid_up_odds_per_season"], season.length)
            if self.luck.on(today, "laid_up") < odds:
                weeks = size_of_event(self.health, "weeks_lost", self.luck.normal_on(today, "laid_up_weeks"))
                self.laid_up_until = today + 7 * int(weeks) * DAY


class HiredSkipper:
    """A hired skipper may be missing for some weeks."""

    def __init__(self, boat: dict[str, Any], number: int, luck: Luck) -> None:
        self.boat, self.number, self.luck = boat, number, luck
        self.hired = boat.get("skipper", "owner") == "hired"
        self.gone_until = LONG_AGO

    def is_gone(self, today: date) -> bool:
        return today <= self.gone_until

    def end_of_day(self, today: date, season: Season) -> None:
        if self.hired and today in season and not self.is_gone(today):
            odds = daily_odds(self.boat.get("skipper_gap_odds_per_year", 0.0), season.length)
            if self.luck.on(today, "skipper_gap", 0, self.number) < odds:
                z = self.luck.normal_on(today, "skipper_gap_weeks", 0, self.number)
                self.gone_until = today + 7 * int(size_of_event(self.boat, "skipper_gap_weeks", z)) * DAY


class Crew:
    """The hands of one boat."""

    def __init__(self, v: dict[str, Any], number: int, luck: Luck, books: Books) -> None:
        self.v, self.number, self.luck, self.books = v, number, luck, books
        self.hands = v["boat"][number].get("crew", [])
        self.week: dict[str, float] = defaultdict(float)
        for hand in self.hands:
            books.exists(books.of(number, f"crew_pay.{hand['name']}"))

    def present(self, today: date) -> list[bool]:
        return [
            self.luck.on(today, "no_show", i, self.number) >= hand.get("no_show_fraction", 0.0)
            for i, hand in enumerate(self.hands)
        ]

    def hauls_factor(self, today: date) -> float:
        """The part of the usual hauls that those who came can do."""
        factor = 1.0
        for hand, here in zip(self.hands, self.present(today), strict=True):
            if not here:
                factor *= hand.get("alone_hauls_fraction", 1.0)
        return factor

    def day_wages(self, today: date, y: int) -> list[float]:
        """What each hand on a day wage earns by going out today."""
        wages = growth(self.v, "wages", y)
        return [
            hand["per_day"] * wages if hand["pay"] == "day wage" and here else 0.0
            for hand, here in zip(self.hands, self.present(today), strict=True)
        ]

    def shares(self, sales: float, bait_and_fuel: float) -> list[float]:
        """What the hands on a share get of sales made with this bait and fuel."""
        base = {"share of sales": sales, "share after bait and fuel": max(0.0, sales - bait_and_fuel), "day wage": 0.0}
        return [hand.get("share_fraction", 0.0) * base[hand["pay"]] for hand in self.hands]

    def went_out(self, today: date, y: int) -> None:
        for i, wage in enumerate(self.day_wages(today, y)):
            self.week[f"wage {i}"] += wage

    def settle(self, today: date) -> None:
        """The week's pay."""
        shares = self.shares(self.week["sales"], self.week["bait and fuel"])
        for i, hand in enumerate(self.hands):
            self.pay(hand, shares[i] + self.week[f"wage {i}"], today)
        self.week.clear()

    def pay(self, hand: dict[str, Any], amount: float, today: date) -> None:
        self.books.cost("crew_pay", amount, today, self.number)
        self.books.add(self.books.of(self.number, f"crew_pay.{hand['name']}"), amount)

    def stopped_early(self, today: date, season: Season) -> None:
        """Pay in place of notice for hands on a day wage; some crews go elsewhere for good."""
        ending = self.v.get("ending", {})
        if not self.hands:
            return
        for hand in self.hands:
            if hand["pay"] == "day wage":
                wage = hand["per_day"] * growth(self.v, "wages", season.y)
                self.pay(hand, int(ending.get("crew_notice_days", 0)) * wage, today)
        if self.luck.in_year(season.year, "crew_leaves", 0, self.number) < ending.get("crew_leaves_odds", 0.0):
            self.books.cost("rehire", ending.get("rehire_cost", 0.0), today, self.number)
