# SPDX-License-Identifier: MIT
"""The owner's own caution: what a choice is worth to him who fears a bad season, beside money and chances."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.choice.compared import Caution
from seasonrisk.estimate import Estimate

__all__ = ["AS_IT_IS", "CANNOT_SAY", "caution_of"]

AS_IT_IS = "as it is"
#: Where the answer rests on fewer than half of the histories, the worst: what decides then has mostly not been seen.
CANNOT_SAY = "cannot be said"


def caution_of(
    base: NDArray[np.float64], choices: Mapping[str, NDArray[np.float64]], largest_loss: float, money: str
) -> Caution:
    """Worth of each choice at the tolerance of the largest loss, at half and at twice it.

    Parameters
    ----------
    base : array
        What is left after everything in each history, as it is [money].
    choices : mapping of str to array
        The same with each choice.
    largest_loss : float
        The largest loss one would take at 1 chance in 20 [money].
    money : str
        Three letters.
    """
    tolerance = _core.tolerance_of(largest_loss)
    tolerances = (tolerance / 2.0, tolerance, tolerance * 2.0)
    worth = tuple(
        {name: Estimate.of(_core.certainty_equivalent_difference(base, values, r), unit=money) for name, values in choices.items()}
        for r in tolerances
    )
    return Caution(largest_loss, tolerances, worth, tuple(map(_best, worth)))


def _best(worth: Mapping[str, Estimate]) -> str:
    if any(np.isnan(estimate.standard_error) and not estimate.exact for estimate in worth.values()):
        return CANNOT_SAY
    name, most = max(worth.items(), key=lambda item: item[1].value)
    return name if most.value > 2.0 * most.standard_error else AS_IT_IS
