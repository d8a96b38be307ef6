# SPDX-License-Identifier: MIT
"""Past years in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.page import section, wrapped
from seasonrisk.table import Table
from seasonrisk.values import number_as_typed
from seasonrisk.words import chance_text, counted, noun_of

if TYPE_CHECKING:
    from seasonrisk.credit.past import PastFigure, PastYear, PastYears

__all__ = ["outside_sentences", "page", "table"]


def table(found: PastYears) -> Table:
    """One row for each actual."""
    rows, values = [], []
    for year in found.years:
        for figure in year.figures:
            marks = (figure.low, figure.median, figure.high)
            unit = "" if figure.unit == found.plan.money else f" ({figure.unit})"
            rows.append([f"{year.year}: {figure.meaning}{unit}", number_as_typed(figure.actual), *(m.amount_text for m in marks), "outside" if figure.outside else ""])
            values.append([f"{year.year}: {figure.name}", figure.actual, *(m.value for m in marks), figure.outside])
    title = "What was shown for the season, and what happened" if found.after else "Past years beside the model's spread of such a year"
    heads = ["", "happened" if found.after else "actual", "1 in 10 below", "middle", "1 in 10 above", "1 in 10"]
    return Table(f"{title}, {found.plan.money}", heads, rows, values)


def page(found: PastYears) -> str:
    """The table, and what lies outside."""
    if not found.years:
        return f"{found.plan.name} tells of no past year; a [[past_year]] of the plan holds what it came to."
    lines = [*section(table(found))[1:]]
    for sentence in outside_sentences(found):
        lines += wrapped(sentence, "  ")
    lines += wrapped(f"The model's figures are those of one year, {counted(found.histories, f'simulated {noun_of(found.plan)}')} (key {found.key}).", "  ")
    return "\n".join(lines)


def outside_sentences(found: PastYears) -> list[str]:
    """One for each figure outside the 1-in-10 marks, or that none is."""
    said = [_sentence(found, year, figure) for year in found.years for figure in year.outside]
    n = sum(len(year.figures) for year in found.years)
    return said or [f"All {n} figures lie between the 1-in-10 marks." if n > 1 else "The figure lies between the 1-in-10 marks."]


def _sentence(found: PastYears, year: PastYear, figure: PastFigure) -> str:
    unit = f" {figure.unit}"
    side = "above" if figure.actual > figure.high.value else "below"
    mark = figure.high if side == "above" else figure.low
    return (
        f"{year.year}, {figure.meaning}: {number_as_typed(figure.actual)}{unit} is {side} the 1-in-10 mark of {mark.amount_text}{unit}; "
        f"{chance_text(figure.below)} simulated years are below it."
    )
