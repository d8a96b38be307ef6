# SPDX-License-Identifier: MIT
"""Questions that compare plans season by season under the same luck."""

from seasonrisk.choice.break_even import BreakEven, break_even
from seasonrisk.choice.promise import Promise, safe_promise
from seasonrisk.choice.reserve import Reserve, reserve

__all__ = ["BreakEven", "Promise", "Reserve", "break_even", "reserve", "safe_promise"]
