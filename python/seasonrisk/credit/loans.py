# SPDX-License-Identifier: MIT
"""The loans of a plan over their life, and what is held against them."""

from __future__ import annotations

from dataclasses import dataclass

from seasonrisk import _core
from seasonrisk.credit import words_loans
from seasonrisk.credit.assets import security
from seasonrisk.credit.years import month_of, text_at, typical_at
from seasonrisk.engine import require_plan
from seasonrisk.plan import Plan
from seasonrisk.table import Table
from seasonrisk.values import Guess
from seasonrisk.words import seasons_of

__all__ = ["LoanLife", "LoanYear", "Loans", "loans", "over_loan_life"]


@dataclass(frozen=True)
class LoanYear:
    """One loan in one money year; money in the plan's, values at the year's end.

    Attributes
    ----------
    season : int
        Calendar year in which the season of this money year begins.
    interest, principal, repaid_early, balance : float
        Paid in the year, repaid beside the payments, and still owed at its end.
    security_value : float or None
        What it is secured on: the survey's value worn as the asset wears, or without a survey its worn cost. None
        where the plan has no [[asset]] of that name.
    forced_value : float or None
        What a sale in a hurry would bring of it. None where the plan gives no forced_sale_fraction.
    owed_on_it : float
        Still owed on all loans secured on the same thing.
    """

    season: int
    interest: float
    principal: float
    repaid_early: float
    balance: float
    security_value: float | None
    forced_value: float | None
    owed_on_it: float

    @property
    def payments(self) -> float:
        """Interest and principal."""
        return self.interest + self.principal

    @property
    def owed_to_forced(self) -> float | None:
        """What is owed on the security over what a sale in a hurry would bring; None where that is not known, or 0."""
        return self.owed_on_it / self.forced_value if self.forced_value else None


@dataclass(frozen=True)
class LoanLife:
    """One loan until it is paid off.

    Attributes
    ----------
    name, secured_on : str
        Empty when the plan does not say.
    balance : float
        Owed on the first day of the money year.
    rate_fraction, years_left : float
    years : tuple of LoanYear
    payment_months : tuple of int
        Months of the account with a payment, 0 first.
    payments : tuple of float
        What is paid in each of them, interest and principal.
    last_payment : str
        Month, as ``"2033-02"``.
    guesses : tuple of str
        Keys that the plan gives as a guess: here at their typical value.
    rate_moves : bool
        The plan lets the rate move from year to year; here it stays as it is.
    """

    name: str
    secured_on: str
    balance: float
    rate_fraction: float
    years_left: float
    years: tuple[LoanYear, ...]
    payment_months: tuple[int, ...]
    payments: tuple[float, ...]
    last_payment: str
    guesses: tuple[str, ...]
    rate_moves: bool


@dataclass(frozen=True)
class Loans:
    """All loans of a plan; ``print`` it for the table.

    Attributes
    ----------
    plan : Plan
    loans : tuple of LoanLife
        In the plan's order; empty when it has none.
    """

    plan: Plan
    loans: tuple[LoanLife, ...]

    @property
    def seasons(self) -> tuple[int, ...]:
        """Every money year until the last loan is paid off, by its season."""
        longest = max((len(loan.years) for loan in self.loans), default=0)
        first = seasons_of(self.plan)[0]
        return tuple(range(first, first + longest))

    def total(self, season: int) -> tuple[float, float, float]:
        """Interest, principal and balance of all loans in one money year."""
        found = [year for loan in self.loans for year in loan.years if year.season == season]
        return sum(y.interest for y in found), sum(y.principal for y in found), sum(y.balance for y in found)

    @property
    def table(self) -> Table:
        """One row for each loan and money year."""
        return words_loans.table(self)

    def __repr__(self) -> str:
        return words_loans.page(self)

    def _repr_html_(self) -> str:
        return self.table._repr_html_()


def loans(plan: Plan) -> Loans:
    """Balance, interest and principal of each loan by money year, and what is held against it.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    Loans
        Without luck: of guesses the typical value.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> found = sr.loans(sr.Plan.read("examples/plans/one_boat.toml"))
    >>> len(found.loans[0].years), round(found.loans[0].years[0].payments, 2)
    (10, 8926.97)
    """
    require_plan(plan)
    lives = []
    schedules = _core.loan_schedules(plan._core)
    for n, schedule in enumerate(schedules):
        secured_on = text_at(plan, f"loan.{n}.secured_on")
        same = [s for m, s in enumerate(schedules) if m == n or (secured_on and text_at(plan, f"loan.{m}.secured_on") == secured_on)]
        years = []
        for y, (season, year) in enumerate(zip(_seasons_from(plan, len(schedule.years)), schedule.years, strict=True)):
            value, forced = security(plan, secured_on, y + 1)
            owed = sum(s.years[y].balance for s in same if y < len(s.years))
            years.append(LoanYear(season, year.interest, year.principal, year.repaid_early, max(0.0, year.balance), value, forced, max(0.0, owed)))
        months = tuple(payment.month for payment in schedule.payments)
        keys = ("balance", "rate_fraction", "years_left", "interest_only_months")
        guesses = tuple(key for key in keys if isinstance(plan.numbers.get(f"loan.{n}.{key}"), Guess))
        lives.append(
            LoanLife(
                text_at(plan, f"loan.{n}.name"), secured_on, typical_at(plan, f"loan.{n}.balance"), typical_at(plan, f"loan.{n}.rate_fraction"),
                typical_at(plan, f"loan.{n}.years_left"), tuple(years), months, tuple(p.interest + p.principal for p in schedule.payments), month_of(plan, months[-1]), guesses,
                plan.numbers.get(f"loan.{n}.rate_change_sd_per_year_fraction", 0.0) != 0.0,
            )
        )  # fmt: skip
    return Loans(plan, tuple(lives))


def over_loan_life(plan: Plan) -> Plan:
    """The plan with as many years as the longest loan runs, 30 at most: for the chance of a missed payment over its life.

    Parameters
    ----------
    plan : Plan
        Returned as it is when it has that many years, or no loan.
    """
    longest = min(30, max((len(loan.years) for loan in loans(plan).loans), default=0))
    return plan.replace({"business.years": longest}) if longest > len(seasons_of(plan)) else plan


def _seasons_from(plan: Plan, n_years: int) -> range:
    first = seasons_of(plan)[0]
    return range(first, first + n_years)
