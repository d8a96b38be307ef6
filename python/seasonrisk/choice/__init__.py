# SPDX-License-Identifier: MIT
"""Choices under the same luck: what each changes, how surely, and why."""

from seasonrisk.choice.break_even import BreakEven, break_even
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
from seasonrisk.choice.drivers import Driver, Drivers, drivers
from seasonrisk.choice.end_early import EndEarly, LastDay, end_early
from seasonrisk.choice.promise import Promise, safe_promise
from seasonrisk.choice.reserve import Reserve, reserve
from seasonrisk.choice.time_off import DaysOff, TimeOff, time_off
from seasonrisk.choice.worth_knowing import GuessWorth, WorthKnowing, worth_knowing

__all__ = [
    "BoatShare",
    "BreakEven",
    "Caution",
    "Compared",
    "Comparison",
    "DaysOff",
    "Driver",
    "Drivers",
    "EndEarly",
    "GuessWorth",
    "LastDay",
    "MorePots",
    "NewBoat",
    "PolicyChange",
    "Promise",
    "Reserve",
    "RungChange",
    "TimeOff",
    "TwoBadYears",
    "WorthKnowing",
    "break_even",
    "compare",
    "drivers",
    "end_early",
    "menu",
    "reserve",
    "safe_promise",
    "time_off",
    "worth_knowing",
]
