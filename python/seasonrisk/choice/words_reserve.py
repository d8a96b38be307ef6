# SPDX-License-Identifier: MIT
"""A reserve in plain words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from seasonrisk.page import wrapped
from seasonrisk.summary import half_width
from seasonrisk.table import Table
from seasonrisk.values import number_as_typed
from seasonrisk.words import counted, money_text

if TYPE_CHECKING:
    from seasonrisk.choice.reserve import Reserve

__all__ = ["page", "season_table", "years_table"]


def _levels() -> tuple[float, ...]:
    from seasonrisk.choice.reserve import LEVELS

    return LEVELS


def season_table(found: Reserve) -> Table:
    """One row for each share of the seasons."""
    rows, values = [], []
    for level, net, gross in zip(_levels(), found.season, found.season_before_claims, strict=True):
        words = f"{100.0 * level:g} of 100 seasons"
        rows.append([words, net.amount_text, net.error_text, gross.amount_text, gross.error_text])
        values.append([words, net.value, half_width(net), gross.value, half_width(gross)])
    heads = ["covers", "put by", "\u00b1", "until the insurer pays", "\u00b1"]
    return Table(f"Put by for the breakdowns of one season, {found.plan.money}", heads, rows, values)


def years_table(found: Reserve) -> Table:
    """One row for each yearly refill."""
    rows, values = [], []
    for row in found.by_years:
        refill = "all that was used" if math.isinf(row.refill) else f"up to {row.refill:,.0f}"
        if row.refill == 0.0:
            refill = "nothing"
        rows.append([refill, *(text for e in row.start for text in (e.amount_text, e.error_text))])
        values.append([row.refill, *(number for e in row.start for number in (e.value, half_width(e)))])
    heads = ["put back each year", *(text for level in _levels() for text in (f"{100.0 * level:g} of 100", "\u00b1"))]
    return Table(f"To start with, to last {found.years} years, {found.plan.money}", heads, rows, values)


def page(found: Reserve) -> str:
    """The answer, the two tables, and what is counted and what is not."""
    money = found.plan.money
    nine = found.season[1]
    lines = wrapped(
        f"{money_text(nine, money)} put by covers the breakdowns of 9 seasons in 10; a season asks for "
        f"{money_text(found.mean, money)} on average."
    )
    lines += ["  " + f"{words}: {estimate.amount_text} {money}" for words, estimate in found.parts]
    steady = found.by_years[2]
    lines += wrapped(
        f"Over {found.years} years, with up to {steady.refill:,.0f} {money} put back after each, {money_text(steady.start[1], money)} to start with "
        f"lasts in 9 of 10. Money used in one year is not there in the next until it is put back."
    )
    if found.start is not None:
        lines += wrapped(_start_sentence(found))
    for table in (season_table(found), years_table(found)):
        lines += ["", table.title, *("  " + line for line in table.lines())]
    lines += ["", *wrapped(_counted_sentence(found)), *wrapped(f"{counted(found.histories, f'run of {found.years} seasons')} (key {found.key}).")]
    return "\n".join(lines)


def _start_sentence(found: Reserve) -> str:
    start = f"{number_as_typed(found.start or 0.0)} {found.plan.money}"
    if found.refill_for_start is None:
        return f"With {start} to start with no refill is enough for 9 in 10: one year alone asks for more than that too often."
    return f"With {start} to start with, it lasts {found.years} years in 9 of 10 when up to {money_text(found.refill_for_start, found.plan.money)} is put back each year."


def _counted_sentence(found: Reserve) -> str:
    bills = "repair bills and pots lost, at cost, less all the insurer pays for both" if found.with_gear else "repair bills less what the insurer pays for them"
    return (
        f"Counted: {bills}, and for each day broken down what a day brought on average in that season before repairs, bad-weather days "
        "among them. A claim counts in the year of the damage; the column \"until the insurer pays\" leaves all claims out, so the most "
        "needed at any moment lies between the two. Not counted: planned maintenance, which is among the bills of the plan, and the loss "
        "of the boat."
    )
