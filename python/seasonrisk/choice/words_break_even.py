# SPDX-License-Identifier: MIT
"""A break-even in plain words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from seasonrisk.estimate import Estimate
from seasonrisk.page import wrapped
from seasonrisk.summary import half_width, points_text
from seasonrisk.table import Table
from seasonrisk.words import chance_text, counted, noun_of, plural

if TYPE_CHECKING:
    from seasonrisk.choice.break_even import BreakEven, Crossing

__all__ = ["page", "sentence", "tried_table"]

COVERED = {
    "running": "the running costs are covered",
    "standing": "the bills are covered",
    "loan": "the loan is covered",
    "household": "the household is covered",
    "cash_room": "cash stays within the overdraft",
}


def what_is_asked(found: BreakEven) -> str:
    """``"the loan is covered on average"``, ``"the loan is covered in 90 of 100 seasons"``."""
    plain = found.target == 0.0 and found.of in COVERED
    unit = found.moved.plan.money if found.of in COVERED else ""
    what = COVERED[found.of] if plain else f"{found.of} is {found.target:,.6g} {unit}".rstrip() + " or more"
    noun = plural(noun_of(found.moved.plan))
    return f"{what} on average" if found.chance is None else f"{what} in {100.0 * found.chance:g} of 100 {noun}"


def interval_text(found: BreakEven, value: Estimate) -> str:
    """``"(8.30 to 8.50)"``."""
    if value.exact:
        return "(exact)"
    low, high = ("?" if math.isnan(end) else found.moved.number(end, value.standard_error) for end in (value.low, value.high))
    if low == "?":
        return f"(the range searched ends before the lower end; up to {high})"
    return f"({low} to {high})" if high != "?" else f"({low} or more; the range searched ends before the upper end)"


def sentence(found: BreakEven) -> str:
    """The answer in one or two sentences."""
    asked = what_is_asked(found)
    asked = asked[0].upper() + asked[1:]
    if not found.crossings:
        return _none_in_range(found, asked)
    moved = found.moved
    places = []
    for crossing in found.crossings:
        value = crossing.value
        at = f"{moved.text(value.value, value.standard_error)} {interval_text(found, value)}"
        places.append(f"from {at} upwards" if crossing.rising else f"up to {at}")
    told = f"{asked} with {moved.what} {' and '.join(places)}"
    if len(places) > 1:
        return f"{told}: the target is passed {len(places)} times; {moved.plan_text}."
    return f"{told}; {moved.plan_text}{_room(found, found.crossings[0])}."


def _room(found: BreakEven, crossing: Crossing) -> str:
    """How far the plan's own value is from the one found, and on which side."""
    here, value = found.moved.in_plan, crossing.value
    low, high = (end if not math.isnan(end) else value.value for end in (value.low, value.high))
    if low <= here <= high:
        return ", which is just there" + ("" if value.exact else " as far as this run can see")
    return f", so {found.moved.room(value, rising=crossing.rising)}"


def _none_in_range(found: BreakEven, asked: str) -> str:
    moved = found.moved
    (low, at_low), (high, at_high) = found.tried[0], found.tried[-1]
    always = at_low.value >= (found.target if found.chance is None else found.chance)
    ends = f"{moved.text(low)} gives {_shown(at_low)} and {moved.text(high)} gives {_shown(at_high)}"
    turned = " In between it rises and falls." if found.turns else ""
    if always:
        return f"{asked} with {moved.what} anywhere in the range looked at, so there is no such value in it: {ends}.{turned}"
    return f"No such value in the range looked at: {asked[0].lower()}{asked[1:]} with {moved.what} nowhere in it: {ends}.{turned}"


def _shown(estimate: Estimate) -> str:
    if estimate.kind == "chance":
        return chance_text(estimate, whole=False)
    return f"{estimate.amount_text} {estimate.unit}".rstrip()


def tried_table(found: BreakEven) -> Table:
    """Values tried, with the mean or the chance at each."""
    heads = [found.moved.what, "chance" if found.chance is not None else f"{found.of}, mean", "\u00b1 points" if found.chance is not None else "\u00b1"]
    rows, values = [], []
    for value, estimate in found.tried:
        error = points_text(estimate) if estimate.kind == "chance" else estimate.error_text
        shown = chance_text(estimate, whole=False) if estimate.kind == "chance" else estimate.amount_text
        rows.append([found.moved.text(value), shown, error])
        values.append([value, estimate.value, half_width(estimate)])
    return Table(what_is_asked(found).capitalize() + "?", heads, rows, values)


def page(found: BreakEven) -> str:
    """The answer, what to mind about it, and how it was found."""
    moved = found.moved
    lines = wrapped(sentence(found))
    if found.days_fished is not None and found.value is not None:
        at, in_plan = found.days_fished
        lines += wrapped(f"That is {at.amount_text} fished days on average; the plan has {in_plan.amount_text}.", "  ")
    if found.turns:
        lines += wrapped("Mind: over the range it both rises and falls, so there may be more such values than were found.", "  ")
    guess = [path for path in _paths(found) if not isinstance(moved.plan.numbers.get(path, 0.0), float)]
    if guess:
        lines += wrapped("A guess was moved as a whole, low, typical and high by one factor; what is told is its typical value.", "  ")
    looked = f"from {moved.text(moved.grid[0])} to {moved.text(moved.grid[-1])}"
    noun = noun_of(moved.plan)
    how = f"Looked at {looked}: {counted(found.runs, 'plan')}, each over the same {counted(found.histories, noun)} (key {found.key})."
    return "\n".join([*lines, *wrapped(how, "  ")])


def _paths(found: BreakEven) -> list[str]:
    return [path for path in found.moved.changes(found.moved.grid[0]) if path in found.moved.plan.numbers]
