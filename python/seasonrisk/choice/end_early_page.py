# SPDX-License-Identifier: MIT
"""What ending early costs, in sentences and as the page for the terminal."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from seasonrisk.choice.end_early import EndEarly, LastDay
from seasonrisk.estimate import Estimate
from seasonrisk.page import GIVE_OR_TAKE, provenance, wrapped
from seasonrisk.table import Table
from seasonrisk.words import (
    CAUTIONS,
    FEW,
    boats_of,
    chance_text,
    counted,
    day_text,
    in_100,
    money_text,
    noun_of,
    seasons_of,
)
from seasonrisk.words_compare import short_name

__all__ = ["chances_sentence", "family_sentence", "page", "sentence", "whole_page"]

#: Lines of a page are a week apart.
WEEK = 7
#: Dates at home that stand beside each other on a page, and the letters each has for its name.
DATES_ABREAST, DATE_LETTERS = 3, 13


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
        sure = "how sure is unknown" if np.isnan(error) else f"give or take {day.given_up.error_text}"
        amount = f"{verb} {money_text(_size(day.given_up), ends.money)} on average, {sure}"
    return f"{instead} {amount}{_by_the_day(ends, day)}."


def _by_the_day(ends: EndEarly, day: LastDay) -> str:
    """The same by the day: of all seasons together, and of all boats, where there are several."""
    if day.days_earlier <= 0:
        return ""
    seasons, several_boats = len(seasons_of(ends.plan)), len(boats_of(ends.plan)) > 1
    each = "each day on the calendar" if seasons == 1 else f"each of the {day.days_earlier * seasons} days on the calendar in {seasons} seasons"
    by_day = f": {_size(_part_of(day.per_day, seasons)).amount_text} for {each}"
    if np.isnan(day.per_day_at_home.value):
        return by_day
    home = "each day out that falls away, of all boats together" if several_boats else "each extra day at home"
    return f"{by_day}, {_size(day.per_day_at_home).amount_text} for {home} ({day.days_gained.amount_text} of them)"


def _part_of(estimate: Estimate, parts: int) -> Estimate:
    found = (estimate.value, estimate.standard_error, estimate.low, estimate.high)
    value, error, low, high = (number / parts for number in found)
    return replace(estimate, value=value, standard_error=error, low=low, high=high)


def chances_sentence(ends: EndEarly, day: LastDay) -> str:
    """What the last day does to the chances of the loan, the household and the account, beside those of the plan."""
    planned = ends.on(ends.planned)
    words = {"loan": "The loan is then covered", "household": "the household", "cash_room": "cash stays within the overdraft"}
    told = [f"{what} in {_of(day.chances[name])} ({_of(planned.chances[name])} as planned)" for name, what in words.items()]
    return f"{', '.join(told)}."


def _of(chance: Estimate) -> str:
    return chance_text(chance).replace(" in ", " of ")


def _size(estimate: Estimate) -> Estimate:
    return replace(estimate, value=abs(estimate.value))


def family_sentence(ends: EndEarly, name: str, chance: float = 0.9) -> str:
    """The last day of fishing with which a family date is met in 9 seasons of 10, and what must be done by when."""
    at = next(e.path.removesuffix("name") for e in ends.plan.entries
              if e.path.startswith("family_date.") and e.path.endswith(".name") and str(e.value) == name)  # fmt: skip
    dated = f"{name}, {day_text(ends.plan[at + 'date'])}"  # type: ignore[arg-type]
    ashore = bool(ends.plan[at + "gear_ashore"])
    wish = "all gear ashore when that day begins" if ashore else "nobody at sea that day, the gear may stay out"
    of = f"{100 * chance:g} of 100 seasons"
    day = ends.latest_for(name, chance)
    if day is None:
        best = max(ends.days, key=lambda each: each.family[name].value)
        return (
            f"{dated} ({wish}): none of the last days looked at makes it in {of}; {day_text(best.date)} comes nearest, "
            f"{chance_text(best.family[name])}.{_a_day_off(ends, name, ashore)}"
        )
    met = chance_text(day.family[name])
    if day is ends.days[-1]:
        return f"{dated} ({wish}): met in {met} even when fishing goes on to {day_text(day.date)}."
    if not ashore:
        return f"{dated} ({wish}): met in {met} when fishing ends on {day_text(day.date)}.{_a_day_off(ends, name, ashore)}"
    if ends.plan.numbers["ending.gear_in_days"] == 0.0:
        return (
            f"{dated} ({wish}): to make it in {of}, {day_text(day.date)} must be the last day of fishing: {met}. Mind: the plan counts the gear "
            "ashore on the evening of that day, whatever the weather; say in ending.gear_in_days how many days it takes."
        )
    return (
        f"{dated} ({wish}): to make it in {of}, bring the gear in from {day_text(day.gear_in_from)} at the latest, with the "
        f"last day of fishing on {day_text(day.date)}: {met}."
    )


def _a_day_off(ends: EndEarly, name: str, ashore: bool) -> str:
    """A date on which the gear may stay out needs no early end."""
    if ashore:
        return ""
    planned = ends.on(ends.planned).family[name]
    return f" As planned it is {chance_text(planned)}; to be home on that one day and fish on, add it to season.days_off."


def heading(ends: EndEarly) -> str:
    """Whose season, and how many were simulated."""
    seasons = counted(ends.histories, f"simulated {noun_of(ends.plan)}")
    return f"{ends.plan.name}: when to stop fishing. As planned, the last day is {day_text(ends.planned)}. {seasons}; money in {ends.money}"


def page(ends: EndEarly, days: Iterable[dt.date] = ()) -> str:
    """Last days a week apart, what the earliest and those asked for cost, and the dates at home."""
    lines = wrapped(heading(ends))
    asked = [ends.on(date) for date in days]
    for day in asked or [ends.days[0]]:
        lines += ["", *wrapped(sentence(ends, day))]
        if day.date != ends.planned and ends.histories > FEW:
            lines += wrapped(chances_sentence(ends, day))
    together = "" if len(seasons_of(ends.plan)) == 1 else f" Money and days are of all {len(seasons_of(ends.plan))} seasons together."
    together += " Days are counted of all boats together, the hired skippers' too." if len(boats_of(ends.plan)) > 1 else ""
    lines += ["", *wrapped(f"{ends.brief_table(every=WEEK).title}. A day at home is a day out that falls away; bad weather kept her in on the others already. "
                           f"One season in ten gives up less, and one in ten more, than the two columns say; below 0 it leaves more. Covered: chance in 100 that everything is, the household too, and \u00b1 in points.{together}")]
    lines += ["  " + line for line in _brief_table(ends).lines()]
    if ends.days[0].family:
        for table in _family_tables(ends):
            lines += ["", table.title, *("  " + line for line in table.lines())]
        for name in ends.days[0].family:
            lines += wrapped(family_sentence(ends, name), "  ")
    return "\n".join(lines)


def _brief_table(ends: EndEarly) -> Table:
    """The table of last days, its chances short enough for the page."""
    table = ends.brief_table(every=WEEK)
    by_date = {day.date: day for day in ends.days}
    at = list(table.heads).index("covered")
    rows = [[*row[:at], in_100(by_date[values[0]].chances["household"]), *row[at + 1 :]] for row, values in zip(table.rows, table.values, strict=True)]
    return replace(table, heads=[head.replace("\u00b1 points", "\u00b1") for head in table.heads], rows=rows)


def _family_tables(ends: EndEarly) -> Iterator[Table]:
    """The table of dates at home, as many beside each other as a page is wide."""
    whole = ends.family_table(every=WEEK)
    heads = [short_name(head, DATE_LETTERS).replace("\u00b1 points", "\u00b1") for head in whole.heads]
    for first in range(2, len(heads), 2 * DATES_ABREAST):
        kept = [0, 1, *range(first, min(first + 2 * DATES_ABREAST, len(heads)))]
        yield Table(f"{whole.title}, \u00b1 in points of 100", [heads[c] for c in kept], [[row[c] for c in kept] for row in whole.rows])


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
