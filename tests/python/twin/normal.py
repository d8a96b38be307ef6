# SPDX-License-Identifier: MIT
"""Quantile of the standard normal and the mean of a squashed normal."""

from __future__ import annotations

import math
from functools import lru_cache
from statistics import NormalDist

import numpy as np

# Python's own inv_cdf is algorithm AS241 (Wichura 1988, doi 10.2307/2347330); its documentation says so.
normal_quantile = NormalDist().inv_cdf

# 16-node Gauss-Hermite rule for the weight exp(-x^2/2), scaled so that the weights add to one.
_nodes, _weights = np.polynomial.hermite_e.hermegauss(16)
NODES = [float(x) for x in _nodes]
WEIGHTS = [float(w) / math.sqrt(2.0 * math.pi) for w in _weights]


def expit(x: float) -> float:
    if x >= 0.0:
        return 1.0 / (1.0 + math.exp(-x))
    e = math.exp(x)
    return e / (1.0 + e)


@lru_cache(maxsize=64)
def centre_for_mean(fraction: float, sd: float) -> float:
    """The `a` for which expit(a + sd z), z standard normal, has mean `fraction` (0 < fraction < 1)."""

    def mean(a: float) -> float:
        return sum(w * expit(a + sd * x) for x, w in zip(NODES, WEIGHTS, strict=True))

    low, high = -60.0, 60.0
    for _ in range(80):  # bisection: no derivative to get wrong
        middle = 0.5 * (low + high)
        low, high = (middle, high) if mean(middle) < fraction else (low, middle)
    return 0.5 * (low + high)
