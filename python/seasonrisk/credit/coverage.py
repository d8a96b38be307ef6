# SPDX-License-Identifier: MIT
"""How far each year's money goes round its loan payments, in both forms that lenders use, and how often it does not."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.credit import words_coverage
from seasonrisk.credit.assets import wear_of_year
from seasonrisk.credit.chances import chance_below, chance_seen
from seasonrisk.credit.gives_first import (
    COLUMNS as SHORT_COLUMNS,
    WhatGivesFirst,
    opening_cash,
    what_gives_first,
)
from seasonrisk.credit.loans import loans
from seasonrisk.credit.years import number_at, require_columns, year_columns, year_of
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.words import seasons_of

__all__ = ["FLOORS", "Coverage", "CoverageYear", "Margin", "Ratio", "coverage", "coverage_columns"]

#: Ratios below which a year is counted: the payments are not met; the floor that lenders most often ask for.
FLOORS = (1.0, 1.25)

FORMULA = ("standing", "loan_payments", "loan_interest", "overdraft_interest", "tax", "draw", "other_income")
YEARLY = (*FORMULA, "loan", "household", "missed_payments")


@dataclass(frozen=True)
class Ratio:
    """One form of coverage in one year, over the histories with a payment in it.

    Attributes
    ----------
    median, bad : Estimate
        The middle, and the 1-in-10 low; a number of times, such as 1.31.
    below_1, below_1_25 : Estimate
        Chance of less than 1.0 and than 1.25.
    """

    median: Estimate
    bad: Estimate
    below_1: Estimate
    below_1_25: Estimate

    @classmethod
    def of(cls, ratios: NDArray[np.float64]) -> Ratio | None:
        """None where no history has a payment: then there is no ratio."""
        if len(ratios) == 0:
            return None
        median, bad = (Estimate.of(_core.quantile(ratios, level), unit="times") for level in (0.5, 0.1))
        below_1, below_1_25 = (chance_below(ratios, floor) for floor in FLOORS)
        return cls(median, bad, below_1, below_1_25)


@dataclass(frozen=True)
class Margin:
    """Money of one year.

    Attributes
    ----------
    median, bad : Estimate
        The middle, and the 1-in-10 low.
    below_0 : Estimate
        Chance of less than nothing.
    """

    median: Estimate
    bad: Estimate
    below_0: Estimate

    @classmethod
    def of(cls, values: NDArray[np.float64], money: str) -> Margin:
        """Of a column of money."""
        median, bad = (Estimate.of(_core.quantile(values, level), unit=money) for level in (0.5, 0.1))
        return cls(median, bad, chance_below(values, 0.0))


@dataclass(frozen=True)
class CoverageYear:
    """One money year.

    Attributes
    ----------
    season : int
        Calendar year in which its season begins.
    payments : Estimate
        Interest and principal, mean.
    before_household : Ratio or None
        Commercial form: cash available before the owner's living and tax, over payments. None without payments.
    after_household : Ratio or None
        Farm-finance form: capital debt repayment capacity, over payments. None without payments.
    available, capacity : Margin
        What the two forms divide by the payments.
    repayment_margin, replacement_margin : Margin
        Capacity less payments and overdraft brought into the year; and that, less a year's wear of the assets.
    wear : float
        What the assets lose in worth over the year.
    missed : Estimate or None
        Chance that a month with a payment ends below the overdraft limit. None without payments.
    """

    season: int
    payments: Estimate
    before_household: Ratio | None
    after_household: Ratio | None
    available: Margin
    capacity: Margin
    repayment_margin: Margin
    replacement_margin: Margin
    wear: float
    missed: Estimate | None


@dataclass(frozen=True)
class Coverage:
    """Both forms of coverage by money year, and what a missed payment comes to; ``print`` it for the page.

    Attributes
    ----------
    plan : Plan
    years : tuple of CoverageYear
    missed : Estimate or None
        Chance of any missed payment in the years simulated. None when nothing is ever due.
    two_bad_years : Estimate or None
        Chance that the loan rung is missed in two years running, as `compare` counts it. None for a single year.
    two_short_years : Estimate or None
        The same of the household rung.
    gives_first : WhatGivesFirst
    loans_go_on : tuple of (str, str)
        Loans with payments after the years simulated, each with the month of its last.
    histories, key : int
    """

    plan: Plan
    years: tuple[CoverageYear, ...]
    missed: Estimate | None
    two_bad_years: Estimate | None
    two_short_years: Estimate | None
    gives_first: WhatGivesFirst
    loans_go_on: tuple[tuple[str, str], ...]
    histories: int
    key: int

    @property
    def worst_year(self) -> CoverageYear | None:
        """The year with the lowest median of the farm-finance form; None without payments."""
        with_payments = [year for year in self.years if year.after_household is not None]
        return min(with_payments, key=lambda year: year.after_household.median.value, default=None)  # type: ignore[union-attr]

    @property
    def before_table(self) -> Table:
        """Commercial form: one row for each money year."""
        return words_coverage.table(self, "before")

    @property
    def after_table(self) -> Table:
        """Farm-finance form: one row for each money year."""
        return words_coverage.table(self, "after")

    @property
    def margins_table(self) -> Table:
        """One row for each money year: capacity, repayment margin, replacement margin."""
        return words_coverage.margins_table(self)

    def __repr__(self) -> str:
        return words_coverage.page(self)

    def _repr_html_(self) -> str:
        return "".join(t._repr_html_() for t in (self.before_table, self.after_table, self.margins_table, self.gives_first.table))


def coverage_columns(plan: Plan) -> list[str]:
    """Columns that `coverage` looks at: ``simulate(plan, keep=coverage_columns(plan))``."""
    once = ["household", "lowest_cash", "cash_room", *(() if isinstance(number_at(plan, "business.opening_cash"), float) else SHORT_COLUMNS)]
    months = [info.name for info in _core.columns_of(plan._core) if info.name.startswith("cash.")]
    return list(dict.fromkeys([*year_columns(plan, YEARLY), *once, *months]))


def coverage(run: Run) -> Coverage:
    """Both forms of coverage by money year, the chance of a missed payment, and what gives first in a short year.

    Commercial form: standing rung (sales less running costs, bills and what is bought ahead; before interest, tax and
    the owner's living) over loan payments. Farm-finance form: (net income + other household income + wear + interest on
    loans - draw - tax) over loan payments, net income being after wear and all interest.

    Parameters
    ----------
    run : Run
        With the columns of `coverage_columns` kept.

    Returns
    -------
    Coverage

    Raises
    ------
    ValueError
        When columns are missing.

    References
    ----------
    Farm Financial Standards Council, Financial Guidelines, as printed by Purdue Extension: capital debt repayment
    capacity, repayment margin, replacement margin.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> found = sr.coverage(sr.simulate(plan, histories=500, rng=7, keep=sr.coverage_columns(plan)))
    >>> found.years[0].before_household.median.value > found.years[0].after_household.median.value
    True
    """
    require_columns(run, coverage_columns(run.plan) if isinstance(run, Run) else (), "coverage_columns(plan)")
    plan, seasons = run.plan, seasons_of(run.plan)
    years = tuple(_coverage_year(run, y, season) for y, season in enumerate(seasons))
    by_year = {name: [year_of(run, name, season) for season in seasons] for name in ("loan", "household")}
    twice = {name: chance_seen(_core.missed_twice(columns), run) if len(seasons) > 1 else None for name, columns in by_year.items()}
    last = run.months[-1]
    goes_on = tuple((loan.name, loan.last_payment) for loan in loans(plan).loans if loan.last_payment > last)
    return Coverage(
        plan, years, _missed(run), twice["loan"], twice["household"], what_gives_first(run), goes_on, run.histories, run.key
    )  # fmt: skip


def _coverage_year(run: Run, y: int, season: int) -> CoverageYear:
    wear = wear_of_year(run.plan, y)
    columns = {name: year_of(run, name, season) for name in FORMULA}
    found = _core.coverage(**columns, overdrawn_before=np.maximum(0.0, -opening_cash(run, y)), wear=wear)
    money = run.money
    return CoverageYear(
        season, Estimate.of(_core.mean(columns["loan_payments"]), unit=money), Ratio.of(found.before_household), Ratio.of(found.after_household),
        Margin.of(found.available, money), Margin.of(found.capacity, money), Margin.of(found.repayment_margin, money),
        Margin.of(found.replacement_margin, money), wear, _missed(run, season),
    )  # fmt: skip


def _missed(run: Run, season: int | None = None) -> Estimate | None:
    """Chance of a missed payment in one season, or in any; None where nothing falls due in any history."""
    seasons = seasons_of(run.plan) if season is None else [season]
    if not any(year_of(run, "loan_payments", one).any() for one in seasons):
        return None
    return chance_seen(np.sum([year_of(run, "missed_payments", one) for one in seasons], axis=0) > 0.0, run)
