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

__all__ = [
    "BoatShare",
    "Caution",
    "Compared",
    "Comparison",
    "MorePots",
    "NewBoat",
    "PolicyChange",
    "RungChange",
    "TwoBadYears",
    "compare",
    "menu",
]
