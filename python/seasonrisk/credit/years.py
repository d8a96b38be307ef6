# SPDX-License-Identifier: MIT
"""The money years of a run: which column is which year's, which months end it, and when a payment falls due."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.values import EventSize, Guess
from seasonrisk.words import column_of, seasons_of

__all__ = ["books_start", "length_of", "month_of", "number_at", "require_columns", "text_at", "typical_at", "year_columns", "year_of"]


def year_columns(plan: Plan, names: Iterable[str]) -> list[str]:
    """These columns of every season of a plan."""
    return [column_of(plan, name, season) for name in names for season in seasons_of(plan)]


def year_of(run: Run, name: str, season: int) -> NDArray[np.float64]:
    """The values of a column in one season."""
    return run[column_of(run.plan, name, season)]


def require_columns(run: Run, names: Iterable[str], how: str) -> None:
    """Refuse a run that did not keep what is looked at.

    Raises
    ------
    TypeError
        For what is no run.
    ValueError
        Naming the columns, and how to keep them.
    """
    if not isinstance(run, Run):
        raise TypeError(f"run={run!r:.60}: must be a Run; simulate gives one")
    lacking = [name for name in names if name not in run]
    if lacking:
        raise ValueError(f"run: did not keep {', '.join(lacking[:4])}{' and others' if len(lacking) > 4 else ''}; simulate(plan, keep={how}) keeps them")


def books_start(plan: Plan) -> dt.date:
    """First day of the first money year: as the plan says, or the first of the month three months before the season."""
    if "business.books_start" in plan:
        return plan.date("business.books_start")
    start = plan.date("season.start")
    months = start.year * 12 + start.month - 1 - 3
    return dt.date(months // 12, months % 12 + 1, 1)


def month_of(plan: Plan, month: int) -> str:
    """The month of the account, 0 first, as ``"2027-03"``."""
    start = books_start(plan)
    months = start.year * 12 + start.month - 1 + month
    return f"{months // 12}-{months % 12 + 1:02d}"


def number_at(plan: Plan, path: str) -> float | Guess | EventSize:
    """The number at a path; 0 where the plan has none."""
    return plan.numbers.get(path, 0.0)


def typical_at(plan: Plan, path: str) -> float:
    """The number at a path, of a guess the typical one; 0 where the plan has none."""
    value = number_at(plan, path)
    return value.typical if isinstance(value, Guess | EventSize) else value


def text_at(plan: Plan, path: str) -> str:
    """The text at a path; empty where the plan has none."""
    return str(plan[path]) if path in plan else ""


def length_of(plan: Plan, section: str) -> int:
    """How many entries a list of the plan has."""
    places = {int(e.path.split(".")[1]) for e in plan.entries if e.path.startswith(section + ".")}
    return len(places)
