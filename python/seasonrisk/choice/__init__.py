# SPDX-License-Identifier: MIT
"""Choices under the same luck: what each changes, how surely, and why."""

from seasonrisk.choice.compare import compare, menu
from seasonrisk.choice.compared import (
    BoatShare,
    Caution,
    Compared,
    Comparison,
    MorePots,
    NewBoat,
    PolicyChange,
    RungChange,
    TwoBadYears,
)
from seasonrisk.choice.end_early import EndEarly, LastDay, end_early

__all__ = [
    "BoatShare",
    "Caution",
    "Compared",
    "Comparison",
    "EndEarly",
    "LastDay",
    "MorePots",
    "NewBoat",
    "PolicyChange",
    "RungChange",
    "TwoBadYears",
    "compare",
    "end_early",
    "menu",
]
