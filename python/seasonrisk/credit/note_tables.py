# SPDX-License-Identifier: MIT
"""Tables of the lender's page: what the figures of this package hold, short enough for a page of paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.credit.words import NOT_KNOWN, in_100_or_dash, money_cell, ratio_cells
from seasonrisk.credit.words_stresses import case_name
from seasonrisk.table import Table
from seasonrisk.values import number_as_typed
from seasonrisk.words import month_text, seasons_of
from seasonrisk.words_compare import short_name

if TYPE_CHECKING:
    from seasonrisk.credit.coverage import Coverage
    from seasonrisk.credit.loans import Loans
    from seasonrisk.credit.past import PastFigure, PastYears
    from seasonrisk.credit.stresses import Stresses

__all__ = ["coverage_table", "loans_table", "past_table", "stresses_table"]


def loans_table(found: Loans) -> Table:
    """One row for each loan: what it is, what is owed at the end of each year simulated, and what is held against it."""
    seasons = seasons_of(found.plan)
    ends = list(dict.fromkeys([seasons[0], seasons[-1]]))
    rows = []
    for loan in found.loans:
        by_season = {year.season: year for year in loan.years}
        first = by_season[seasons[0]]
        rows.append(
            [
                short_name(loan.name, 24) + (f", on {short_name(loan.secured_on, 20)}" if loan.secured_on and loan.secured_on not in loan.name else ""),
                f"{loan.balance:,.0f}", number_as_typed(loan.rate_fraction, times=100), month_text(loan.last_payment),
                *(f"{by_season[season].balance:,.0f}" if season in by_season else "0" for season in ends),
                *(NOT_KNOWN if value is None else f"{value:,.0f}" for value in (first.security_value, first.forced_value)),
                NOT_KNOWN if first.owed_to_forced is None else f"{first.owed_to_forced:.2f}",
            ]
        )  # fmt: skip
    heads = ["", "owed now", "rate", "last due", *(f"end {season}" for season in ends), "security", "forced", "ratio"]
    return Table(f"What is owed, {found.plan.money}, at a rate in 100 a year, and what is held against it at the end of {seasons[0]}", heads, rows)


def coverage_table(found: Coverage) -> Table:
    """One row for each year, both forms side by side."""
    rows = []
    for year in found.years:
        ratios = [*ratio_cells(year.before_household), *ratio_cells(year.after_household)]
        rows.append([str(year.season), money_cell(year.payments), *ratios, in_100_or_dash(year.missed)])
    form = ["1 in 10", "below 1", "1.25"]
    heads = ["year", "payments", "before", *form, "after", *form, "missed"]
    return Table(f"How many times a year's money covers its loan payments, {found.plan.money}; chances in 100", heads, rows)


def stresses_table(found: Stresses) -> Table:
    """One row for each hard case, the plan as it is first."""
    rows = []
    for case in (found.as_it_is, *found):
        ratio = None if case.worst_year is None else case.worst_year.after_household
        shown = [NOT_KNOWN, NOT_KNOWN] if ratio is None else [ratio.median.amount_text, ratio.bad.amount_text]
        chances = [case.chances["loan"], case.chances["household"], case.missed]
        rows.append([case_name(case, 30), *map(in_100_or_dash, chances), *shown, case.lowest.amount_text, case.lowest_bad.amount_text])
    heads = ["", "loans", "household", "missed", "times", "1 in 10", "cash low", "1 in 10"]
    return Table(f"Under each hard case, {found.histories:,} simulated; chances in 100; {found.plan.money}", heads, rows)


def past_table(found: PastYears) -> Table:
    """One row for each figure, a column for each year, and the model's spread; a star stands at what lies outside it."""
    figures: dict[str, dict[int, PastFigure]] = {}
    for year in found.years:
        for figure in year.figures:
            figures.setdefault(figure.name, {})[year.year] = figure
    rows = []
    for by_year in figures.values():
        one = next(iter(by_year.values()))
        unit = "" if one.unit == found.plan.money else f" ({one.unit})"
        actuals = [_actual(by_year.get(year.year)) for year in found.years]
        rows.append([one.words + unit, *actuals, *map(money_cell, (one.low, one.median, one.high))])
    heads = ["", *(str(year.year) for year in found.years), "1 in 10 below", "middle", "1 in 10 above"]
    return Table(f"What past years came to, and three marks of the model's first season, {found.plan.money}; * lies outside them", heads, rows)


def _actual(figure: PastFigure | None) -> str:
    if figure is None:
        return NOT_KNOWN
    return number_as_typed(figure.actual) + (" *" if figure.outside else "")
