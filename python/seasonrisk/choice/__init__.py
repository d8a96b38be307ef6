# SPDX-License-Identifier: MIT
"""Choices under the same luck: what each would change, season by season."""

from seasonrisk.choice.end_early import EndEarly, LastDay, end_early

__all__ = ["EndEarly", "LastDay", "end_early"]
