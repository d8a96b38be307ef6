# SPDX-License-Identifier: MIT
"""Days in a row of a season, taken off a plan: those asked for, and as many from other starting days."""

from __future__ import annotations

import datetime as dt
from contextlib import suppress

from seasonrisk.checks import whole_number
from seasonrisk.errors import PlanError
from seasonrisk.plan import Plan
from seasonrisk.words import day_text

__all__ = ["asked_days", "moved", "with_days_off"]

DAY = dt.timedelta(days=1)
WEEK = 7 * DAY


def asked_days(plan: Plan, first_day: object, last_day: object, days: object) -> tuple[dt.date, dt.date]:
    start, end = plan.date("season.start"), plan.date("season.end")
    season = f"must be a day of the season, {day_text(start)} to {day_text(end)}"
    if (last_day is None) == (days is None):
        raise ValueError(f"last_day={last_day!r}, days={days!r}: give one of them, the last day off or how many days")
    first = _date_in("first_day", first_day, start, end, season)
    if last_day is None:
        n = whole_number("days", days, lowest=1, highest=(end - first).days + 1)
        return first, first + (n - 1) * DAY
    return first, _date_in("last_day", last_day, first, end, season + ", not before first_day")


def _date_in(name: str, day: object, low: dt.date, high: dt.date, allowed: str) -> dt.date:
    if not isinstance(day, dt.date) or isinstance(day, dt.datetime):
        raise TypeError(f"{name}={day!r}: must be a date; {allowed}")
    if not low <= day <= high:
        raise ValueError(f"{name}={day}: {allowed}")
    return day


def with_days_off(plan: Plan, first: dt.date, last: dt.date, why: str) -> Plan:
    """The plan with those of the days off that are not off already: the plan counts each day off once."""
    count = sum(path.startswith("season.days_off.") and path.endswith(".from") for path in (entry.path for entry in plan.entries))
    off = [(plan.date(f"season.days_off.{n}.from"), plan.date(f"season.days_off.{n}.to")) for n in range(count)]
    days = [first + n * DAY for n in range((last - first).days + 1)]
    added = [day for day in days if not any(low <= day <= high for low, high in off)]
    pieces = [[day] for day in added if day - DAY not in added]
    ends = [day for day in added if day + DAY not in added]
    for (begin,), end in zip(pieces, ends, strict=True):
        plan = plan.choose({"season.days_off.+": {"from": begin, "to": end, "why": why}})
    return plan


def moved(plan: Plan, first: dt.date, last: dt.date, why: str) -> dict[dt.date, Plan]:
    """The plan with as many days off from each other starting day, a week apart."""
    begin, end = plan.date("season.start"), min(plan.last_day, plan.date("season.end"))
    found: dict[dt.date, Plan] = {}
    start = first - ((first - begin) // WEEK) * WEEK
    while start + (last - first) <= end:
        if start != first:
            with suppress(PlanError):  # where these days are all that there is to fish, there is nothing to try
                found[start] = with_days_off(plan, start, start + (last - first), why)
        start += WEEK
    return found
