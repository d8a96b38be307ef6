# SPDX-License-Identifier: MIT
"""Questions that compare plans season by season under the same luck."""

from seasonrisk.choice.break_even import BreakEven, break_even

__all__ = ["BreakEven", "break_even"]
