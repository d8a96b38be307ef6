# SPDX-License-Identifier: MIT
"""The account by month in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.credit.words import in_100_or_dash, seen_note
from seasonrisk.page import section, wrapped
from seasonrisk.summary import half_width
from seasonrisk.table import Table
from seasonrisk.words import chance_text, counted, money_text, month_text, noun_of, plural

if TYPE_CHECKING:
    from seasonrisk.credit.working_capital import WorkingCapital

__all__ = ["calendar_table", "page", "sentences"]


def calendar_table(found: WorkingCapital, n_months: int | None = None) -> Table:
    """One row for each month, or for the first of them."""
    rows, values = [], []
    for flow in found.calendar[:n_months]:
        change = (flow.change.amount_text, flow.change.error_text)
        rows.append([month_text(flow.month), flow.before_payments.amount_text, f"{flow.loan_payments:,.0f}", *change, in_100_or_dash(flow.below_limit)])
        values.append([flow.month, flow.before_payments.value, flow.loan_payments, flow.change.value, half_width(flow.change), flow.below_limit.value])
    heads = ["", "before payments", "loan payments", "change", "\u00b1", "below the limit, in 100"]
    return Table(f"The account month by month, mean, {found.plan.money}", heads, rows, values)


def sentences(found: WorkingCapital) -> list[str]:
    """When and how low, the facility, and whether the plan's overdraft is enough."""
    money, noun = found.plan.money, noun_of(found.plan)
    month, often = found.lowest_month
    said = [
        f"The account is lowest most often at the end of {month_text(month)} ({chance_text(often)}): {money_text(found.lowest, money)} in a "
        f"middling {noun} and {money_text(found.lowest_bad, money)} in a bad one.",
        f"An overdraft of {money_text(found.facility, money)} is enough at the month ends of 9 in 10 {plural(noun)}."
        if found.facility.value > 0.0
        else f"In 9 of 10 {plural(noun)} no month ends below nothing, so these ask for no overdraft.",
    ]
    limit = "limit of the plan" if found.limit is None else f"plan's limit of {found.limit:,.0f} {money}"
    said.append(f"Chance that some month ends below the {limit}: {chance_text(found.beyond_limit)}.")
    return said


def page(found: WorkingCapital) -> str:
    """The fan, the lowest month, the facility and the calendar."""
    lines = wrapped(f"{found.plan.name}: the account by month, {counted(found.histories, f'simulated {noun_of(found.plan)}')}.")
    lines += section(found.cash)
    for sentence in sentences(found):
        lines += wrapped(sentence, "  ")
    lines += section(calendar_table(found, 12))
    later = len(found.calendar) // 12 - 1
    if later > 0:
        lines += wrapped(f"The first money year; the other {later} are in the table of all months.", "  ")
    lines += wrapped(
        "Before payments: all that is paid into the account in the month less all that is paid out of it but loan payments, "
        "which fall due at the month's end. Within a month the account can be lower than at its end. " + seen_note(found.histories),
        "  ",
    )
    return "\n".join(lines)
