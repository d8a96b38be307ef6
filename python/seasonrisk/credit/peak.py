# SPDX-License-Identifier: MIT
"""The weeks of a plan's first season that bring most."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np

from seasonrisk.days import replay
from seasonrisk.errors import PlanError
from seasonrisk.plan import Plan
from seasonrisk.words import counted, day_text

__all__ = ["PeakWeeks", "peak_weeks"]

PEAK_DAYS = 21
REPLAYED = 60  # histories looked at day by day: enough to place the weeks, and done in a second


@dataclass(frozen=True)
class PeakWeeks:
    """A run of calendar days inside the first season.

    Attributes
    ----------
    first : date
    days : int
    share : float
        Of the season's mean sales, those made on these days.
    replayed : int
        Histories whose sales were added up day by day.
    """

    first: dt.date
    days: int
    share: float
    replayed: int

    @property
    def last(self) -> dt.date:
        """Last of these days."""
        return self.first + dt.timedelta(days=self.days - 1)

    def __str__(self) -> str:
        return (
            f"{day_text(self.first)} to {day_text(self.last)}: of all {counted(self.days, 'day')} running in the first season those with the "
            f"largest mean sales, {100.0 * self.share:.0f} in 100 of the season's, by {counted(self.replayed, 'season')} told day by day"
        )


def peak_weeks(plan: Plan, *, key: int, days: int = PEAK_DAYS) -> PeakWeeks:
    """The calendar days running, inside the first season, whose mean sales are largest.

    Parameters
    ----------
    plan : Plan
    key : int
        Of the run; its first histories are told day by day.
    days : int
        How many; a shorter season is taken whole.
    """
    plan = _first_year_of(plan)
    start, end = plan.date("season.start"), plan.last_day
    n_days = (end - start).days + 1
    days = min(days, n_days)
    sales = np.zeros(n_days)
    for history in range(REPLAYED):
        told = replay(plan, key=key, history=history)
        first = int((start - told.dates[0].item()).days)
        for name in told:
            if name == "sales" or name.startswith("sales."):
                sales += told[name][first : first + n_days]
    sums = np.convolve(sales, np.ones(days), mode="valid")
    best = int(sums.argmax())
    total = float(sales.sum())
    return PeakWeeks(start + dt.timedelta(days=best), days, float(sums[best]) / total if total > 0.0 else 0.0, REPLAYED)


def _first_year_of(plan: Plan) -> Plan:
    """A plan of one year is told sooner; one that only makes sense over its years is told whole."""
    try:
        return plan.replace({"business.years": 1})
    except PlanError:
        return plan
