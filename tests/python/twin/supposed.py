# SPDX-License-Identifier: MIT
"""What the plan supposes to happen for certain."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from twin.calendar_years import DAY, Season

BAD_CATCH = -1.281551565545  # the 1-in-10 low of a standard normal


def bad_catch_years(v: dict[str, Any]) -> set[int]:
    """Years of the history, 0 first, whose catch is held low."""
    return {event.get("year", 1) - 1 for event in v.get("suppose", []) if event["what"] == "bad catch"}


class Supposed:
    """The events of one season."""

    def __init__(self, v: dict[str, Any], season: Season) -> None:
        self.season, self.names = season, [boat["name"] for boat in v["boat"]]
        self.events = [event for event in v.get("suppose", []) if event.get("year", 1) - 1 == season.y]

    def first_day(self, event: dict[str, Any]) -> date:
        return self.season.moved(event["from"]) if "from" in event else self.season.start

    def meets(self, event: dict[str, Any], boat: int) -> bool:
        return event["what"] == "closure" or self.names.index(event.get("boat", self.names[0])) == boat

    def holds(self, what: str, boat: int, today: date) -> bool:
        """Is the boat kept in today by a closure, or for want of a skipper?"""
        for event in self.events:
            first = self.first_day(event)
            last = first + (event["days"] - 1) * DAY if "days" in event else self.season.end
            if event["what"] == what and self.meets(event, boat) and first <= today <= last:
                return True
        return False

    def breakdowns(self, boat: int, today: date) -> Iterator[tuple[float, int]]:
        """Bill and calendar days of each that begins today."""
        for event in self.events:
            if event["what"] == "breakdown" and self.meets(event, boat) and self.first_day(event) == today:
                yield event.get("cost", 0.0), event.get("days", 0)
