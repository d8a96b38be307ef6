# SPDX-License-Identifier: MIT
"""What gives first in a year that runs short, and who covers it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.credit import words_coverage
from seasonrisk.credit.assets import assets_bought
from seasonrisk.credit.chances import chance_seen, mean_where
from seasonrisk.credit.years import number_at, year_of
from seasonrisk.estimate import Estimate
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.words import seasons_of

__all__ = ["COLUMNS", "COVERERS", "Coverer", "WhatGivesFirst", "opening_cash", "overdraft_limit", "what_gives_first"]

#: Who covers a shortage, in this order, each with what he gives.
COVERERS = {
    "reserve": "reserve: the account as the year begins",
    "overdraft": "overdraft, up to its limit",
    "household": "household: lives on other income alone",
    "other_income": "other income: goes to the boat too",
    "nobody": "nobody: still short",
}

# The opening balance, where it is a guess, follows from these.
COLUMNS = ("closing_cash", "owed_to_us", "owed_by_us")


@dataclass(frozen=True)
class Coverer:
    """One who covers short years.

    Attributes
    ----------
    name : str
        One of `COVERERS`.
    chance : Estimate
        That he gives something in some year of a history.
    mean : Estimate
        What he gives on average in the short years; of all of them the sum is the mean shortage.
    """

    name: str
    chance: Estimate
    mean: Estimate


@dataclass(frozen=True)
class WhatGivesFirst:
    """Short years: how often, how much, and who covers them in order.

    Attributes
    ----------
    chance : Estimate
        Of a short year (household rung below 0) in a history.
    shortage : Estimate
        Mean of a history that has short years, all its years together; NaN when none has.
    coverers : tuple of Coverer
        In order; the last is nobody. Their means add up to ``shortage``.
    by_year : tuple of (season, chance of a short year, mean shortage when short)
    money : str
    n_years : int
    """

    chance: Estimate
    shortage: Estimate
    coverers: tuple[Coverer, ...]
    by_year: tuple[tuple[int, Estimate, Estimate], ...]
    money: str
    n_years: int

    @property
    def table(self) -> Table:
        """One row for each who covers."""
        return words_coverage.gives_first_table(self)

    def __repr__(self) -> str:
        return "\n".join([*words_coverage.gives_first_lines(self)])

    def _repr_html_(self) -> str:
        return self.table._repr_html_()


def what_gives_first(run: Run) -> WhatGivesFirst:
    """Who covers the years in which the household rung is below 0, in the order of `COVERERS`.

    The shortage is that of the year as earned; a squeeze within a year shows in the working capital. The parts add up
    to the shortage in every history.

    Parameters
    ----------
    run : Run
        With the columns of `coverage_columns` kept.
    """
    seasons, limit = seasons_of(run.plan), overdraft_limit(run)
    parts = {name: np.zeros(run.histories) for name in ("shortage", *COVERERS)}
    by_year = []
    for y, season in enumerate(seasons):
        columns = {name: year_of(run, name, season) for name in ("household", "draw", "other_income")}
        found = _core.who_covers(**columns, opening_cash=opening_cash(run, y), overdraft_limit=limit)
        for name, total in parts.items():
            total += getattr(found, name)
        short = found.shortage > 0.0
        by_year.append((season, chance_seen(short, run), mean_where(found.shortage, short, run.money)))
    is_short = parts["shortage"] > 0.0
    coverers = tuple(
        Coverer(name, chance_seen(parts[name] > 0.0, run), mean_where(parts[name], is_short, run.money)) for name in COVERERS
    )
    return WhatGivesFirst(
        chance_seen(is_short, run), mean_where(parts["shortage"], is_short, run.money), coverers, tuple(by_year), run.money, len(seasons)
    )  # fmt: skip


def overdraft_limit(run: Run) -> NDArray[np.float64]:
    """The limit in every history: as the plan says, or where that is a guess, as it was drawn."""
    limit = number_at(run.plan, "business.overdraft_limit")
    if isinstance(limit, float):
        return np.full(run.histories, limit)
    return run["cash_room"] - run["lowest_cash"]


def opening_cash(run: Run, y: int) -> NDArray[np.float64]:
    """Balance on the first day of a money year, 0 first, in every history."""
    if y > 0:
        return run[f"cash.{run.months[12 * y - 1]}"]
    opening = number_at(run.plan, "business.opening_cash")
    if isinstance(opening, float):
        return np.full(run.histories, opening)
    return _drawn_opening(run)


def _drawn_opening(run: Run) -> NDArray[np.float64]:
    """Drawn with the other guesses: what the reconciliation of earned and paid leaves for it."""
    earned_to_paid = run["closing_cash"] - run["household"] + run["owed_to_us"] - run["owed_by_us"]
    return earned_to_paid + assets_bought(run.plan)
