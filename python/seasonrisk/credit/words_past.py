# SPDX-License-Identifier: MIT
"""Past years in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.credit.words import money_cell
from seasonrisk.page import section, wrapped
from seasonrisk.table import Table
from seasonrisk.values import number_as_typed
from seasonrisk.words import chance_text

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
            rows.append([f"{year.year}: {figure.words}{unit}", number_as_typed(figure.actual), *map(money_cell, marks), "outside" if figure.outside else ""])
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
    lines += wrapped(f"The model's figures are those of one year, {found.histories:,} simulated (key {found.key}).", "  ")
    return "\n".join(lines)


def outside_sentences(found: PastYears) -> list[str]:
    """One for each figure outside the 1-in-10 marks, or that none is; those that the plan knows exactly by themselves."""
    said = [_sentence(year, figure) for year in found.years for figure in year.outside if figure.spread]
    n = sum(figure.spread for year in found.years for figure in year.figures)
    if n and not said:
        said.append(f"All {n} figures that the model spreads lie within the 1-in-10 marks." if n > 1 else "The figure that the model spreads lies within the 1-in-10 marks.")
    return said + _other_than_the_plan(found)


def _other_than_the_plan(found: PastYears) -> list[str]:
    """What the plan knows exactly has no marks: said where a year came to something else, once for each amount."""
    came_to: dict[tuple[str, str], list[str]] = {}  # by name and amount
    for year in found.years:
        for figure in year.outside:
            if not figure.spread:
                key = (figure.words.capitalize(), f"{money_cell(figure.median)} {figure.unit}")
                came_to.setdefault(key, []).append(f"{number_as_typed(figure.actual)} in {year.year}")
    return [f"{name}: {amount} in the plan, without luck or guess; it came to {', '.join(told)}." for (name, amount), told in came_to.items()]


def _sentence(year: PastYear, figure: PastFigure) -> str:
    unit = f" {figure.unit}"
    side = "above" if figure.actual > figure.high.value else "below"
    mark = figure.high if side == "above" else figure.low
    return (
        f"{year.year}, {figure.meaning}: {number_as_typed(figure.actual)}{unit} is {side} the 1-in-10 mark of {mark.amount_text}{unit}; "
        f"{chance_text(figure.below)} simulated years are below it."
    )
