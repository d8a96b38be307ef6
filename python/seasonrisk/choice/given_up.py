# SPDX-License-Identifier: MIT
"""What days at home give up: measures that ending early and time off have in common."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.estimate import Estimate
from seasonrisk.run import Run
from seasonrisk.summary import STEPS, half_width
from seasonrisk.table import Table

__all__ = ["STEP_COLUMNS", "chance_of_change", "for_each_day", "for_each_day_at_home", "mean_given_up", "quantile_of", "where_from"]

#: Columns that `where_from` needs.
STEP_COLUMNS = tuple(name for steps in STEPS.values() for name, _, _ in steps)


def mean_given_up(base: Run, ours: Run, column: str, unit: str) -> Estimate:
    """Mean of what the first run has more, history by history."""
    return Estimate.of(_core.mean_difference(ours[column], base[column]), unit=unit)


def chance_of_change(base: Run, ours: Run, column: str, at_least: float = 0.0) -> Estimate:
    """Chance with the second run less that with the first."""
    return Estimate.of(_core.chance_difference(base[column], ours[column], at_least), unit="share")


def quantile_of(values: NDArray[np.float64], level: float, money: str) -> Estimate:
    """The value that a share ``level`` of the histories does not pass."""
    return Estimate.of(_core.quantile(values, level), unit=money)


def for_each_day(mean: Estimate, days: int, money: str) -> Estimate:
    """A mean by calendar day; unknown for no days."""
    if days == 0:
        return _unknown(money, mean.n)
    low, high = sorted((mean.low / days, mean.high / days))
    return Estimate(mean.value / days, mean.standard_error / abs(days), low, high, mean.n, mean.exact, unit=f"{money} a day")


def for_each_day_at_home(given_up: NDArray[np.float64], gained: NDArray[np.float64], money: str) -> Estimate:
    """Mean given up over mean days gained; unknown when no day is gained in any history."""
    if not gained.any():
        return _unknown(money, len(gained))
    return Estimate.of(_core.ratio_of_means(given_up, gained), unit=f"{money} a day")


def where_from(base: Run, ours: Run, title: str, money: str) -> Table:
    """What the difference is made of, mean by mean; it adds up to what is left after everything."""
    rows, values = [], []
    for name, words, sign in (step for steps in STEPS.values() for step in steps):
        mean = Estimate.of(_core.mean_difference(sign * base[name], sign * ours[name]), unit=money)
        if mean.exact and mean.value == 0.0:
            continue
        rows.append([words, mean.amount_text, mean.error_text])
        values.append([words, mean.value, half_width(mean)])
    total = Estimate.of(_core.mean_difference(base["household"], ours["household"]), unit=money)
    rows.append(["= left after all", total.amount_text, total.error_text])
    values.append(["= left after all", total.value, half_width(total)])
    return Table(title, ["", "mean", "\u00b1"], rows, values)


def _unknown(money: str, n: int) -> Estimate:
    return Estimate(np.nan, np.nan, np.nan, np.nan, n, unit=f"{money} a day")
