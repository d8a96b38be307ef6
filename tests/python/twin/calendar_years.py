# SPDX-License-Identifier: MIT
"""Dates that come again every year: money years, seasons, weeks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from twin.plan_values import books_start

DAY = timedelta(days=1)
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def days(first: date, last: date) -> Iterator[date]:
    while first <= last:
        yield first
        first += DAY


def years_later(day: date, years: int) -> date:
    """The same date `years` later; of 29 February the 28th where there is none."""
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)


def monday_of(day: date) -> date:
    return day - day.weekday() * DAY


def days_in_month(day: date) -> int:
    following = date(day.year + day.month // 12, day.month % 12 + 1, 1)
    return (following - day.replace(day=1)).days


def is_month_end(day: date) -> bool:
    return (day + DAY).day == 1


class Season:
    """The dates of one season, and the money year it lies in."""

    def __init__(self, plan: dict[str, Any], y: int) -> None:
        season = plan["season"]
        self.y = y
        self.start, self.end = self.moved(season["start"]), self.moved(season["end"])
        self.year = season["start"].year + y
        self.books_first = years_later(books_start(plan), y)
        self.books_last = years_later(books_start(plan), y + 1) - DAY
        self.rest_days = season.get("rest_days", [])
        self.days_off = [(self.moved(off["from"]), self.moved(off["to"])) for off in season.get("days_off", [])]
        self.stop = min(self.end, self.moved(season["stop_on"])) if "stop_on" in season else self.end
        self.length = (self.end - self.start).days + 1

    def moved(self, day: date) -> date:
        return years_later(day, self.y)

    def window(self, section: dict[str, Any]) -> tuple[date, date]:
        """`from` and `to` of a section; left out, the season's."""
        first = self.moved(section["from"]) if "from" in section else self.start
        last = self.moved(section["to"]) if "to" in section else self.end
        return first, last

    def holds(self, section: dict[str, Any], today: date) -> bool:
        first, last = self.window(section)
        return first <= today <= last

    def __contains__(self, today: date) -> bool:
        return self.start <= today <= self.end

    def weeks(self) -> int:
        """Monday-to-Sunday weeks that touch the season."""
        return (monday_of(self.end) - monday_of(self.start)).days // 7 + 1


def seasons_of(plan: dict[str, Any]) -> list[Season]:
    return [Season(plan, y) for y in range(plan["business"].get("years", 1))]
