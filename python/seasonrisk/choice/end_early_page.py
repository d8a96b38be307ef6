# SPDX-License-Identifier: MIT
"""What ending early costs, in sentences and as the page for the terminal."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from seasonrisk.choice.end_early import EndEarly, LastDay
from seasonrisk.estimate import Estimate
from seasonrisk.page import GIVE_OR_TAKE, provenance, wrapped
from seasonrisk.words import CAUTIONS, chance_text, counted, day_text, money_text, noun_of

__all__ = ["family_sentence", "page", "sentence", "whole_page"]

#: Lines of a page are a week apart.
WEEK = 7


def sentence(ends: EndEarly, day: LastDay) -> str:
    """What one last day costs, in plain words."""
    if day.date == ends.planned:
        return f"{day_text(day.date)} is the plan's own last day of fishing."
    instead = f"Fishing until {day_text(day.date)} in place of {day_text(ends.planned)}"
    error = day.given_up.standard_error
    if day.given_up.exact:
        amount = f"{'gives up' if day.given_up.value >= 0 else 'leaves more by'} {money_text(_size(day.given_up), ends.money)}, exactly, in every season"
    elif abs(day.given_up.value) < 2.0 * error:
        bound = Estimate(abs(day.given_up.value) + 2.0 * error, error, np.nan, np.nan, day.given_up.n)
        return f"{instead} makes no difference we can see (under {money_text(bound, ends.money)}) to what is left after everything."
    else:
        verb = "gives up" if day.given_up.value >= 0 else "leaves more:"
        amount = f"{verb} {money_text(_size(day.given_up), ends.money)} on average, give or take {day.given_up.error_text}"
    by_day = f": {_size(day.per_day).amount_text} for each day on the calendar" if day.days_earlier > 0 else ""
    if by_day and not np.isnan(day.per_day_at_home.value):
        by_day += f", {_size(day.per_day_at_home).amount_text} for each extra day at home ({day.days_gained.amount_text} of them)"
    return f"{instead} {amount}{by_day}."


def _size(estimate: Estimate) -> Estimate:
    return replace(estimate, value=abs(estimate.value))


def family_sentence(ends: EndEarly, name: str, chance: float = 0.9) -> str:
    """The latest start of bringing in the gear with which a family date is met in 9 seasons of 10."""
    wished = f"{100 * chance:g} in 100"
    day = ends.latest_for(name, chance)
    date = next(str(day_text(ends.plan[e.path.removesuffix("name") + "date"])) for e in ends.plan.entries  # type: ignore[arg-type]
                if e.path.startswith("family_date.") and e.path.endswith(".name") and str(e.value) == name)  # fmt: skip
    best = max(ends.days, key=lambda each: each.family[name].value)
    if day is None:
        return (
            f"{name}, {date}: none of the last days looked at makes it in {wished}; {day_text(best.date)} comes nearest, "
            f"{chance_text(best.family[name])}."
        )
    if day is ends.days[-1]:
        return f"{name}, {date}: met in {chance_text(day.family[name])} even when fishing goes on to {day_text(day.date)}."
    return (
        f"{name}, {date}: to make it in {wished}, bring the gear in from {day_text(day.gear_in_from)} at the latest, with the "
        f"last day of fishing on {day_text(day.date)}: {chance_text(day.family[name])}."
    )


def heading(ends: EndEarly) -> str:
    """Whose season, and how many were simulated."""
    seasons = counted(ends.histories, f"simulated {noun_of(ends.plan)}")
    return f"{ends.plan.name}: when to stop fishing. As planned, the last day is {day_text(ends.planned)}. {seasons}; money in {ends.money}"


def page(ends: EndEarly, days: Iterable[dt.date] = ()) -> str:
    """Last days a week apart, what the earliest and those asked for cost, and the dates at home."""
    lines = wrapped(heading(ends))
    for day in [ends.on(date) for date in days] or [ends.days[0]]:
        lines += ["", *wrapped(sentence(ends, day))]
    lines += ["", *wrapped(f"{ends.brief_table(every=WEEK).title}. A day at home is a day out that falls away; bad weather kept her in on the others already. "
                           "One season in ten gives up less, and one in ten more, than the two columns say; below 0 it leaves more. Covered: everything, the household too.")]
    lines += ["  " + line for line in ends.brief_table(every=WEEK).lines()]
    if ends.days[0].family:
        lines += ["", ends.family_table().title]
        lines += ["  " + line for line in ends.family_table(every=WEEK).lines()]
        for name in ends.days[0].family:
            lines += wrapped(family_sentence(ends, name), "  ")
    return "\n".join(lines)


def whole_page(ends: EndEarly, days: Iterable[dt.date] = ()) -> str:
    """The page with where it comes from and the cautions, for the command line."""
    days = list(days)
    lines = [page(ends, days)]
    for date in days:
        table = ends.where_from(date)
        lines += ["", *wrapped(table.title), *("  " + line for line in table.lines())]
    lines += ["", *wrapped("What a day at home is worth is not in these numbers, and no number here says whether to stop."),
              "", *wrapped(GIVE_OR_TAKE), *wrapped(provenance(ends.runs[ends.planned])), "", *wrapped(" ".join(CAUTIONS))]
    return "\n".join(lines)
