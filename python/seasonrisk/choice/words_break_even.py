# SPDX-License-Identifier: MIT
"""A break-even in plain words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from seasonrisk.choice.inputs import Together, digits
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
LEFT = {
    "running": "what is left after running costs",
    "standing": "what is left after the bills",
    "loan": "what is left after the loan",
    "household": "what is left after everything",
    "cash_room": "the least room above the overdraft's end",
}
#: Numbers moved together are told one by one when they are no more than these.
TOLD_APART = 4


def what_is_asked(found: BreakEven) -> str:
    """``"the loan is covered on average"``, ``"the loan is covered in 90 of 100 seasons"``."""
    plain = found.target == 0.0 and found.of in COVERED
    unit = found.moved.plan.money if found.of in COVERED else ""
    target = f"{found.target:,.2f}".removesuffix(".00")
    what = COVERED[found.of] if plain else f"{LEFT.get(found.of, found.of)} is {target} {unit}".rstrip() + " or more"
    noun = plural(noun_of(found.moved.plan))
    return f"{what} on average" if found.chance is None else f"{what} in {100.0 * found.chance:g} of 100 {noun}"


def interval_text(found: BreakEven, value: Estimate) -> str:
    """``"(8.30 to 8.50)"``."""
    if value.exact:
        return "(exact)"
    low, high = ("?" if math.isnan(end) else found.moved.number(end, value.standard_error) for end in (value.low, value.high))
    if low == high == "?":
        return "(anywhere in the range searched, as far as this run can see)"
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
        places.append(moved.reach(at, rising=crossing.rising))
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
    asked = what_is_asked(found)
    return Table(f"{asked[0].upper()}{asked[1:]}?", heads, rows, values)


def page(found: BreakEven) -> str:
    """The answer, what to mind about it, and how it was found."""
    moved = found.moved
    lines = wrapped(sentence(found))
    if found.days_fished is not None and found.value is not None:
        at, in_plan = found.days_fished
        day, planned = (f"calendar day {round(value)} of the season" for value in (found.value.value, moved.in_plan))
        lines += wrapped(f"That is {day} and {at.amount_text} fished days on average; the plan has {planned} and {in_plan.amount_text}.", "  ")
    if found.turns:
        lines += wrapped("Mind: over the range it both rises and falls, so there may be more such values than were found.", "  ")
    for crossing in found.crossings:
        lines += wrapped(_one_by_one(found, crossing), "  ")
    guess = [path for path in _paths(found) if not isinstance(moved.plan.numbers.get(path, 0.0), float)]
    if guess and isinstance(moved, Together):
        lines += wrapped("Guesses were moved as a whole, low, typical and high by that factor.", "  ")
    elif guess:
        lines += wrapped("A guess was moved as a whole, low, typical and high by one factor; what is told is its typical value.", "  ")
    looked = f"from {moved.text(moved.grid[0])} to {moved.text(moved.grid[-1])}"
    noun = noun_of(moved.plan)
    how = f"Looked at {looked}: {counted(found.runs, 'plan')}, each over the same {counted(found.histories, noun)} (key {found.key})."
    return "\n".join([*lines, *wrapped(how, "  ")])


def _one_by_one(found: BreakEven, crossing: Crossing) -> str:
    """What each of several numbers is where the target is passed; nothing for one number, or for many."""
    moved, value = found.moved, crossing.value
    if not isinstance(moved, Together) or len(moved.paths) > TOLD_APART:
        return ""
    told = (f"{label} {digits(typical * value.value, typical * value.standard_error)} (the plan has {digits(typical)})" for label, typical in moved.each())
    return f"At {moved.number(value.value, value.standard_error)} times: {', '.join(told)}."


def _paths(found: BreakEven) -> list[str]:
    return [path for path in found.moved.changes(found.moved.grid[0]) if path in found.moved.plan.numbers]
