# SPDX-License-Identifier: MIT
"""Pots hauled in rotation: how long today's have been down, as a factor on the catch."""

from __future__ import annotations

import math
from datetime import date


def fill(nights: float, time_constant_nights: float) -> float:
    return 1.0 - math.exp(-nights / time_constant_nights)


def rotation_factor(
    today: date,
    hauled: list[date],
    set_on: date,
    rounds: float,
    usual_nights: float,
    time_constant_nights: float,
) -> float:
    """Factor when today's pots were last hauled `rounds` haul days ago, counted from setting before that."""

    def factor(back: int) -> float:
        since = hauled[-back] if back <= len(hauled) else set_on
        return fill((today - since).days, time_constant_nights) / fill(usual_nights, time_constant_nights)

    whole = math.floor(rounds)
    part = rounds - whole
    return (1.0 - part) * factor(whole) + part * factor(whole + 1)
