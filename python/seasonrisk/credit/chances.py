# SPDX-License-Identifier: MIT
"""Chances of what is seen in a history, and means of those in which it is."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.estimate import Estimate
from seasonrisk.run import Run

__all__ = ["chance_below", "chance_seen", "mean_where"]


def chance_below(values: NDArray[np.float64], limit: float) -> Estimate:
    """Share of the histories below ``limit``; exact where all of them have one value."""
    return Estimate.of(_core.chance(values, limit), "chance").complement()


def chance_seen(is_it: NDArray[np.float64] | NDArray[np.bool_], run: Run) -> Estimate:
    """Share of the histories that show it: 1 or 0 in each.

    Equal counts can be luck, so it is exact only where the run has no luck at all: every history leaves the same.
    """
    found = Estimate.of(_core.chance(np.ascontiguousarray(is_it, dtype=np.float64), 1.0), "chance")
    left = run["household"]
    return replace(found, exact=found.exact and bool((left == left[0]).all()))


def mean_where(values: NDArray[np.float64], where: NDArray[np.bool_], money: str) -> Estimate:
    """Mean over the histories ``where`` it is true; unknown where there are none."""
    if not where.any():
        return Estimate(math.nan, math.nan, math.nan, math.nan, 0, unit=money)
    return Estimate.of(_core.mean(np.ascontiguousarray(values[where])), unit=money)
