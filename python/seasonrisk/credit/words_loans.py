# SPDX-License-Identifier: MIT
"""Loans in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.credit.words import NOT_KNOWN
from seasonrisk.page import section, wrapped
from seasonrisk.table import Table
from seasonrisk.values import number_as_typed
from seasonrisk.words import counted, month_text
from seasonrisk.words_compare import short_name

if TYPE_CHECKING:
    from seasonrisk.credit.loans import LoanLife, Loans

__all__ = ["page", "table"]


def table(found: Loans) -> Table:
    """One row for each loan and money year."""
    rows, values = [], []
    for loan in found.loans:
        for year in loan.years:
            known = [year.payments, year.interest, year.principal, year.balance]
            secured = [year.security_value, year.forced_value]
            ratio = year.owed_to_forced
            rows.append([f"{short_name(loan.name, 24)}, {year.season}", *(_whole(v) for v in known), *(_whole(v) for v in secured), NOT_KNOWN if ratio is None else f"{ratio:.2f}"])
            values.append([f"{loan.name}, {year.season}", *known, *secured, ratio])
    heads = ["", "paid", "interest", "principal", "owed", "security", "forced", "owed / it"]
    return Table(f"Loans by money year, {found.plan.money}", heads, rows, values)


def page(found: Loans) -> str:
    """The table, and what each loan is."""
    if not found.loans:
        return f"{found.plan.name} has no loan."
    lines = []
    for loan in found.loans:
        lines += wrapped(loan_sentence(loan, found.plan.money))
    lines += section(table(found))
    for sentence in (
        "Security: what a survey says it is worth, worn on from there as the asset wears, or its cost so worn; forced: what the plan says a sale in a hurry brings of that.",
        "Owed: at the year's end; over it: all loans on the same security. A dash: the plan does not tell.",
    ):
        lines += wrapped(sentence, "  ")
    return "\n".join(lines)


def loan_sentence(loan: LoanLife, money: str) -> str:
    """One loan in a sentence."""
    secured = f", secured on {loan.secured_on}" if loan.secured_on else ""
    guessed = f" ({', '.join(loan.guesses)}: a guess, here its typical value)" if loan.guesses else ""
    n = len(loan.payment_months)
    moving = " The rate may move with each money year; here it stays as it is." if loan.rate_moves else ""
    early = sum(year.repaid_early for year in loan.years)
    repaid = f" {early:,.0f} {money} of it is repaid early." if early > 0.0 else ""
    return (
        f"{loan.name}: {loan.balance:,.0f} {money} at {number_as_typed(loan.rate_fraction, times=100)} in 100 a year{secured}; "
        f"{counted(n, 'payment')}, the last at the end of {month_text(loan.last_payment)}{guessed}.{repaid}{moving}"
    )


def _whole(value: float | None) -> str:
    return NOT_KNOWN if value is None else f"{value:,.0f}"
