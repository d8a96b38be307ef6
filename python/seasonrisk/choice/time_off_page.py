# SPDX-License-Identifier: MIT
"""What time off gives up, in sentences and as the page for the terminal."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from seasonrisk.choice import time_off_tables
from seasonrisk.choice.time_off import DaysOff, TimeOff
from seasonrisk.estimate import Estimate
from seasonrisk.page import GIVE_OR_TAKE, provenance, section, wrapped
from seasonrisk.words import CAUTIONS, boats_of, counted, day_text, noun_of, seasons_of
from seasonrisk.words_compare import difference_text

__all__ = ["cheapest_sentence", "page", "sentence", "whole_page"]

#: So many starting days are named; more are counted.
MOST_NAMED = 3


def block_text(days: DaysOff) -> str:
    """From when to when."""
    if days.first_day == days.last_day:
        return day_text(days.first_day)
    return f"{day_text(days.first_day)} to {day_text(days.last_day)}"


def given_up_text(mean: Estimate) -> str:
    """A mean of what is given up, in words."""
    said = difference_text(mean)
    if mean.value == 0.0 or said.startswith("no difference"):
        return f"make {said}" + ("" if mean.exact else " to what is left after everything")
    amount = said.replace(" more", "").replace(" less", "").replace(", exactly", "")
    verb = "give up" if mean.value > 0.0 else "leave more:"
    return f"{verb} {amount}, exactly, in every season" if mean.exact else f"{verb} {amount.replace(', give', ' on average, give', 1)}"


def sentence(found: TimeOff) -> str:
    """What the days asked for give up, in plain words."""
    days, mean = found.asked, found.asked.given_up["household"]
    each = " of each year" if len(seasons_of(found.plan)) > 1 else ""
    said = f"{counted(found.n_days, 'day')} off, {block_text(days)}{each}, {given_up_text(mean)}"
    if mean.exact and mean.value == 0.0:
        return f"{said}."
    if not np.isnan(days.per_day_at_home.value) and abs(mean.value) >= 2.0 * mean.standard_error:
        boats = " of a boat" if len(boats_of(found.plan)) > 1 else ""
        said += (
            f": {_size(days.per_day).amount_text} for each day on the calendar, {_size(days.per_day_at_home).amount_text} for each "
            f"extra day at home{boats} ({days.days_gained.amount_text} of them)"
        )
    return f"{said}. One {noun_of(found.plan)} in ten gives up less than {days.low.amount_text}, one in ten more than {days.high.amount_text}."


def cheapest_sentence(found: TimeOff) -> str:
    """From which day as many days off give up least, and from which they cannot be told from it."""
    least, *others = found.cheapest()
    named = [day_text(days.first_day) for days in sorted(others, key=lambda days: days.first_day)]
    if len(named) > MOST_NAMED:
        named = [f"{len(named)} other days ({named[0]} the first of them, {named[-1]} the last)"]
    also = f"; from {' or '.join(named)} no difference from that can be seen" if named else ""
    if any(days is found.asked for days in (least, *others)):
        also += "; the days asked for are among these"
    return f"Of the starting days tried, {counted(found.n_days, 'day')} off from {day_text(least.first_day)} {given_up_text(least.given_up['household'])}, the least{also}."


def page(found: TimeOff) -> str:
    """What they give up, rung by rung; what the days were otherwise; the dates at home; other starting days."""
    seasons = counted(found.histories, f"simulated {noun_of(found.plan)}")
    head = f"{found.plan.name}: {found.why}, {block_text(found.asked)}, against the plan as it is. {seasons}, the same luck with and without; money in {found.money}"
    lines = [*wrapped(head), "", *wrapped(sentence(found)), *section(found.rungs())]
    lines += section(time_off_tables.became(found))
    if any(path.endswith(".gear") and found.plan[path] == "pots" for path in (entry.path for entry in found.plan.entries)):
        lines += wrapped("Pots in the water stay there meanwhile: they soak on, and some can be lost.", "  ")
    if found.family:
        lines += section(time_off_tables.family(found))
    if found.starts:
        lines += section(found.starts_table())
        lines += wrapped(cheapest_sentence(found), "  ")
        lines += wrapped(f"All under the same luck: {counted(found.runs_made, 'run')} of {seasons}.", "  ")
    return "\n".join(lines)


def whole_page(found: TimeOff) -> str:
    """The page with where the difference comes from, where the page comes from and the cautions, for the command line."""
    lines = [
        page(found), *section(found.where_from()), "",
        *wrapped("What a day at home is worth is not in these numbers, and no number here says whether to take it."),
        "", *wrapped(GIVE_OR_TAKE), *wrapped(provenance(found.base)), "", *wrapped(" ".join(CAUTIONS)),
    ]  # fmt: skip
    return "\n".join(lines)


def _size(estimate: Estimate) -> Estimate:
    return replace(estimate, value=abs(estimate.value))
