# SPDX-License-Identifier: MIT
"""Stresses in plain words."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from seasonrisk.credit.words import in_100_or_dash, seen_note
from seasonrisk.page import GIVE_OR_TAKE, section, wrapped
from seasonrisk.table import Table
from seasonrisk.words import counted, noun_of
from seasonrisk.words_compare import difference_text, short_name

if TYPE_CHECKING:
    from seasonrisk.credit.stresses import Stressed, Stresses

__all__ = ["case_name", "money_table", "page", "sentences", "table"]


def table(found: Stresses) -> Table:
    """One row for each stress, the plan as it is first: chances."""
    rows, values = [], []
    for stress in (found.as_it_is, *found.stresses):
        chances = [stress.chances["loan"], stress.chances["household"], stress.missed]
        rows.append([case_name(stress, 34), *map(in_100_or_dash, chances)])
        values.append([stress.name, *(None if chance is None else chance.value for chance in chances)])
    heads = ["", "loans covered", "household covered", "a payment missed"]
    return Table("Under stress, the same luck for each; chances in 100, all years together", heads, rows, values)


def money_table(found: Stresses) -> Table:
    """One row for each stress, the plan as it is first: coverage in the worst year, and the account at its lowest."""
    rows, values = [], []
    for stress in (found.as_it_is, *found.stresses):
        year = stress.worst_year
        ratio = None if year is None else year.after_household
        known = [None, None] if ratio is None else [ratio.median, ratio.bad]
        shown = [*known, stress.lowest, stress.lowest_bad]
        rows.append([case_name(stress, 34), *("-" if one is None else one.amount_text for one in shown)])
        values.append([stress.name, *(None if one is None else one.value for one in shown)])
    heads = ["", "times, middle", "1 in 10", "lowest cash, middle", "1 in 10"]
    return Table(f"Coverage in the worst year, after living and tax, and the account at its lowest, {found.plan.money}", heads, rows, values)


def page(found: Stresses) -> str:
    """The table, and what each stress is and takes."""
    lines = wrapped(f"{found.plan.name} under {counted(len(found), 'stress').replace('stresss', 'stresses')}, {counted(found.histories, f'simulated {noun_of(found.plan)}')}.")
    lines += [*section(table(found)), *wrapped(seen_note(found.histories), "  "), *section(money_table(found))]
    lines += wrapped("Times: repayment capacity over loan payments, in the year in which its middle is lowest.", "  ")
    lines.append("")
    for sentence in sentences(found):
        lines += textwrap.wrap(sentence, 100, subsequent_indent="  ")
    return "\n".join([*lines, "", *wrapped(GIVE_OR_TAKE), *wrapped(f"Key {found.key}.")])


def sentences(found: Stresses) -> list[str]:
    """What each stress is and takes, then those that do not apply and why."""
    return [*map(stress_sentence, found), *(f"{name}: does not apply; {why}." for name, why in found.do_not_apply)]


def own_or_fixed(stress: Stressed) -> str:
    """What stands before the owner's own, so that none of them is taken for one that every plan is put under."""
    return "own: " if stress.own else ""


def case_name(stress: Stressed, width: int) -> str:
    """Its name for a table."""
    return own_or_fixed(stress) + short_name(stress.name, width - len(own_or_fixed(stress)))


def stress_sentence(stress: Stressed) -> str:
    """What it is, and what it takes on average."""
    return f"{own_or_fixed(stress)}{stress.name}: {stress.how}. Left after everything: {difference_text(stress.difference)}."
