# SPDX-License-Identifier: MIT
"""Questions that a decision asks of a plan and its choices, answered under the same luck."""

from seasonrisk.choice.drivers import Driver, Drivers, drivers
from seasonrisk.choice.worth_knowing import GuessWorth, WorthKnowing, worth_knowing

__all__ = ["Driver", "Drivers", "GuessWorth", "WorthKnowing", "drivers", "worth_knowing"]
