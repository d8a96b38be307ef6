# SPDX-License-Identifier: MIT
"""Stresses in plain words."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from seasonrisk.page import GIVE_OR_TAKE, section, wrapped
from seasonrisk.table import Table
from seasonrisk.words import chance_text, counted, noun_of
from seasonrisk.words_compare import difference_text

if TYPE_CHECKING:
    from seasonrisk.credit.stresses import Stressed, Stresses
    from seasonrisk.estimate import Estimate

__all__ = ["COLUMNS_MEAN", "page", "sentences", "table"]

COLUMNS_MEAN = (
    "Loans, household: covered, all years together; cash: within the overdraft at every month end; missed: a loan payment is missed; "
    "times: repayment capacity after living and tax over payments, in the year in which that is lowest."
)


def _in_hundred(chance: Estimate | None) -> str:
    return "-" if chance is None else chance_text(chance, whole=False).removesuffix(" in 100")


def table(found: Stresses) -> Table:
    """One row for each stress, the plan as it is first."""
    rows, values = [], []
    for stress in (found.as_it_is, *found.stresses):
        year = stress.worst_year
        ratio = None if year is None else year.after_household
        shown = ["-", "-"] if ratio is None else [ratio.median.amount_text, ratio.bad.amount_text]
        chances = [stress.chances[name] for name in ("loan", "household", "cash_room")]
        rows.append([stress.name, *map(_in_hundred, chances), _in_hundred(stress.missed), *shown, stress.lowest_bad.amount_text])
        values.append([
            stress.name, *(c.value for c in chances), None if stress.missed is None else stress.missed.value,
            *((None, None) if ratio is None else (ratio.median.value, ratio.bad.value)), stress.lowest_bad.value,
        ])  # fmt: skip
    heads = ["", "loans", "household", "cash", "missed", "times", "1 in 10", "lowest cash, 1 in 10"]
    return Table(f"Under stress, the same luck for each; chances in 100; {found.plan.money}", heads, rows, values)


def page(found: Stresses) -> str:
    """The table, and what each stress is and takes."""
    lines = wrapped(f"{found.plan.name} under {counted(len(found), 'stress').replace('stresss', 'stresses')}, {counted(found.histories, f'simulated {noun_of(found.plan)}')}.")
    lines += [*section(table(found)), *wrapped(COLUMNS_MEAN, "  "), ""]
    for sentence in sentences(found):
        lines += textwrap.wrap(sentence, 100, subsequent_indent="  ")
    return "\n".join([*lines, "", *wrapped(GIVE_OR_TAKE), *wrapped(f"Key {found.key}.")])


def sentences(found: Stresses) -> list[str]:
    """What each stress is and takes, then those that do not apply and why."""
    return [*map(stress_sentence, found), *(f"{name}: does not apply; {why}." for name, why in found.do_not_apply)]


def stress_sentence(stress: Stressed) -> str:
    """What it is, and what it takes on average."""
    own = " (the owner's own)" if stress.own else ""
    return f"{stress.name}{own}: {stress.how}. Left after everything: {difference_text(stress.difference)}."
