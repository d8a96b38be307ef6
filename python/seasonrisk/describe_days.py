# SPDX-License-Identifier: MIT
"""A plan's days in sentences: the season and its end, dates at home, weather, closures, the owner's health."""

from __future__ import annotations

import datetime as dt

from seasonrisk.describe_reader import Reader, joined, number_text, opening, span_text
from seasonrisk.words import counted, day_text

__all__ = ["bad_days", "ending_lines", "family_lines", "owner_lines", "season_lines", "shock_lines", "weather_lines"]


def season_lines(plan: Reader) -> list[str]:
    start, end = plan.word("season.start"), plan.word("season.end")
    days, fishing = (end - start).days + 1, len(plan.fishing_dates())
    rest = ", ".join(plan.word("season.rest_days")) or "none"
    lines = [
        f"{plan.plan.name}: a season of {days} days, {day_text(start)} to {day_text(end)}; rest days {rest}; "
        f"{fishing} days are left on which the boat may go."
    ]
    if plan.years() > 1:
        lines.append(f"A history is {plan.years()} years long: the same dates come again in each of them.")
    return lines


def ending_lines(plan: Reader) -> list[str]:
    """The gear coming in, and an early stop with what it costs and saves."""
    lines = []
    end = plan.word("season.end")
    stop = plan.word("season.stop_on") if plan.has("season.stop_on") else end
    gear_in = "ending.gear_in_days"
    if plan.mean(gear_in):
        begins = stop - dt.timedelta(days=max(0, round(plan.mean(gear_in)) - 1))
        lines.append(
            f"Bringing the gear ashore takes {plan.counted(gear_in, 'day')} of fishable weather, begun on {day_text(begins)}; "
            "in bad weather it goes on until all is ashore."
        )
    if stop == end:
        return lines
    early = (end - stop).days
    parts = [f"The season is stopped early, on {day_text(stop)}, {counted(early, 'day')} before its end"]
    notice, leaves = "ending.crew_notice_days", "ending.crew_leaves_odds"
    if plan.mean(notice):
        parts.append(f"hands on a day wage get {plan.counted(notice, 'day')} of notice")
    if plan.mean(leaves):
        parts.append(
            f"in {plan.number(leaves, times=100)} of 100 such years the crew goes elsewhere, and a new one costs {plan.amount('ending.rehire_cost')}"
        )
    if plan.mean("ending.yard_change_fee"):
        parts.append(f"the yard asks {plan.amount('ending.yard_change_fee')}")
    refund, job = plan.mean("ending.lay_up_refund_per_day"), plan.mean("ending.shore_job_per_week")
    if refund:
        parts.append(f"{plan.money(refund * early)} of premium comes back")
    if job:
        parts.append(f"work ashore brings {plan.money(job / 7.0 * early)}")
    return [*lines, f"{'; '.join(parts)}."]


def family_lines(plan: Reader) -> list[str]:
    lines = []
    for path in plan.sections("family_date"):
        wish = (
            "all the gear is ashore when the day begins"
            if plan.word(f"{path}.gear_ashore")
            else "your own boats stay in that day"
        )
        lines.append(
            f"At home, {plan.word(f'{path}.name')}: {day_text(plan.word(f'{path}.date'))}; it is counted how often {wish}."
        )
    return lines


def bad_days(plan: Reader, boat: str) -> float:
    """Mean of the fishing days too bad for this boat; a boat's multiplier works on the odds of the mean fraction."""
    odds_times = plan.mean(f"{boat}.weather_odds_multiplier", 1.0)
    total = 0.0
    for date in plan.boat_dates(boat):
        f = plan.by_month("weather.unfishable_fraction", date.month) or 0.0
        total += f * odds_times / (1.0 - f + f * odds_times)
    return total


def weather_lines(plan: Reader) -> list[str]:
    spells = plan.mean("weather.persistence")
    tied = f"; bad days come in spells (tie to the day before {plan.number('weather.persistence')})" if spells else ""
    boats = plan.boats()
    if len(boats) == 1 and len(plan.boat_dates(boats[0])) == len(plan.fishing_dates()):
        bad = bad_days(plan, boats[0])
        left = len(plan.boat_dates(boats[0])) - bad
        lines = [
            f"Weather: about {bad:.0f} of those days are too bad in a mean year{tied}, so about {left:.0f} are left before breakdowns."
        ]
    else:
        each = [
            f"of the {len(plan.boat_dates(boat))} days of {plan.word(f'{boat}.name')} about {bad_days(plan, boat):.0f}"
            for boat in boats
        ]
        tougher = "; a day too bad for one boat may be fit for another" if len(boats) > 1 else ""
        lines = [f"Weather: {joined(each)} are too bad in a mean year{tied}{tougher}."]
    turned = "weather.turned_back_fraction"
    if plan.mean(turned):
        lines.append(
            f"On {plan.number(turned, times=100)} in 100 of the days lost to weather the boat had gone out and turned back: a day's fuel is burned."
        )
    return lines


def shock_lines(plan: Reader) -> list[str]:
    lines = []
    for path in plan.sections("shock"):
        odds, first = f"{path}.odds_per_year", plan.word(f"{path}.from")
        days = max(1, round(plan.mean(f"{path}.days")))
        lines.append(
            f"{opening(plan.word(f'{path}.name'))}: odds {plan.number(odds, times=100)} in 100 a year"
            f"{over_years(plan, plan.mean(odds))}; nobody fishes then from {span_text(first, first + dt.timedelta(days=days - 1))}."
        )
    return lines


def over_years(plan: Reader, odds: float) -> str:
    """What odds of a year come to over all years of a history."""
    if plan.years() == 1:
        return ""
    return f", {number_text(100.0 * (1.0 - (1.0 - odds) ** plan.years()), 2)} in 100 for at least one in {plan.years()} years"


def owner_lines(plan: Reader) -> list[str]:
    """Days on which the owner cannot be skipper."""
    lines = []
    odds = "skipper.laid_up_odds_per_season"
    if plan.has(odds) and plan.mean(odds):
        lines.append(
            f"Laid up: odds {plan.number(odds, times=100)} in 100 a season, for {number_text(plan.mean('skipper.weeks_lost'), 2)} weeks "
            "in the mean; the boats you skipper yourself stay in."
        )
    return lines
