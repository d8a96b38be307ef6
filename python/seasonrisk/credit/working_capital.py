# SPDX-License-Identifier: MIT
"""The account by month: how low, when, which facility it asks for, and payments against receipts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from seasonrisk import _core, summary
from seasonrisk.credit import words_working_capital
from seasonrisk.credit.chances import chance_below
from seasonrisk.credit.gives_first import opening_cash, overdraft_limit
from seasonrisk.credit.loans import loans
from seasonrisk.credit.years import require_columns
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.table import Table

__all__ = ["FACILITY", "MonthFlow", "WorkingCapital", "working_capital", "working_capital_columns"]

#: The facility shown is enough in this share of the histories.
FACILITY = 0.9


@dataclass(frozen=True)
class MonthFlow:
    """One month of the account; money.

    Attributes
    ----------
    month : str
        ``"2027-06"``.
    change : Estimate
        Mean change of the account over the month, all that is paid in and out together.
    loan_payments : float
        Loan payments that fall due at its end, of guesses at their typical value.
    before_payments : Estimate
        Mean change without these payments: what the month brings towards them.
    below_limit : Estimate
        Chance that the month ends below the overdraft limit.
    """

    month: str
    change: Estimate
    loan_payments: float
    before_payments: Estimate
    below_limit: Estimate


@dataclass(frozen=True)
class WorkingCapital:
    """The account by month; ``print`` it for the page.

    Attributes
    ----------
    plan : Plan
    cash : MonthCash
        Month ends: what a share of the histories does not pass.
    lowest_month : LowestMonth
        Which month end is lowest most often, and how often.
    lowest, lowest_bad : Estimate
        The lowest month end: in the middle, and 1 in 10.
    facility : Estimate
        Overdraft that is enough at the month ends of 9 in 10 histories; 0 when these never go below nothing.
    limit : float or None
        Overdraft limit of the plan; None when it is a guess.
    beyond_limit : Estimate
        Chance that some month ends below the limit.
    calendar : tuple of MonthFlow
    histories, key : int
    """

    plan: Plan
    cash: summary.MonthCash
    lowest_month: summary.LowestMonth
    lowest: Estimate
    lowest_bad: Estimate
    facility: Estimate
    limit: float | None
    beyond_limit: Estimate
    calendar: tuple[MonthFlow, ...]
    histories: int
    key: int

    @property
    def table(self) -> Table:
        """Payments against receipts, a row for each month."""
        return words_working_capital.calendar_table(self)

    def __repr__(self) -> str:
        return words_working_capital.page(self)

    def _repr_html_(self) -> str:
        return self.cash._repr_html_() + self.table._repr_html_()


def working_capital_columns(plan: Plan) -> list[str]:
    """Columns that `working_capital` looks at."""
    months = [info.name for info in _core.columns_of(plan._core) if info.name.startswith("cash.")]
    opening = [] if isinstance(plan.numbers["business.opening_cash"], float) else ["household", "closing_cash", "owed_to_us", "owed_by_us"]
    return list(dict.fromkeys([*months, "lowest_cash", "lowest_cash_month", "cash_room", *opening]))


def working_capital(run: Run) -> WorkingCapital:
    """The account by month.

    Receipts of a month are in no column: the calendar shows how the account changes over each month, and what that
    change would be without the loan payments due at its end.

    Parameters
    ----------
    run : Run
        With the columns of `working_capital_columns` kept; the usual ones hold them unless the opening cash is a guess.

    Returns
    -------
    WorkingCapital

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> found = sr.working_capital(sr.simulate(plan, histories=500, rng=7))
    >>> found.lowest_month.month, len(found.calendar)
    ('2027-06', 12)
    """
    require_columns(run, working_capital_columns(run.plan) if isinstance(run, Run) else (), "working_capital_columns(plan)")
    drawn_on = np.maximum(0.0, -run["lowest_cash"])
    limit = run.plan.numbers["business.overdraft_limit"]
    return WorkingCapital(
        run.plan, run.month_cash(), run.lowest_month(), run.quantile("lowest_cash", 0.5), run.quantile("lowest_cash", 0.1),
        Estimate.of(_core.quantile(drawn_on, FACILITY), unit=run.money), limit if isinstance(limit, float) else None, chance_below(run["cash_room"], 0.0),
        _calendar(run), run.histories, run.key,
    )  # fmt: skip


def _calendar(run: Run) -> tuple[MonthFlow, ...]:
    payments = np.zeros(len(run.months))
    for loan in loans(run.plan).loans:
        for n, payment in zip(loan.payment_months, loan.payments, strict=True):
            if n < len(payments):
                payments[n] += payment
    limit, before = overdraft_limit(run), opening_cash(run, 0)
    flows = []
    for month, payment in zip(run.months, payments, strict=True):
        end = run[f"cash.{month}"]
        change = end - before
        below = chance_below(end + limit, 0.0)
        flows.append(MonthFlow(month, _mean(change, run.money), float(payment), _mean(change + payment, run.money), below))
        before = end
    return tuple(flows)


def _mean(values: np.ndarray, money: str) -> Estimate:
    return Estimate.of(_core.mean(np.ascontiguousarray(values)), unit=money)
