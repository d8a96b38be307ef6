# SPDX-License-Identifier: MIT
"""Checks of arguments, each with a message that names the argument, its value and what is allowed."""

from __future__ import annotations

import operator

__all__ = ["amount", "whole_number"]


def whole_number(name: str, value: object, *, lowest: int, highest: int) -> int:
    """``value`` as an int.

    Raises
    ------
    ValueError
        When it is no whole number (True is none) or outside the range.
    """
    allowed = f"must be a whole number from {lowest:,} to {highest:,}"
    if isinstance(value, bool):
        raise ValueError(f"{name}={value!r}: {allowed}")
    if isinstance(value, float) and value.is_integer():
        raise ValueError(f"{name}={value!r}: {allowed}; did you mean {int(value)}?")
    try:
        number = operator.index(value)  # type: ignore[arg-type]
    except TypeError:
        raise ValueError(f"{name}={value!r}: {allowed}") from None
    if not lowest <= number <= highest:
        raise ValueError(f"{name}={number}: {allowed}")
    return number


def amount(name: str, value: object, *, above: float) -> float:
    """``value`` as a float.

    Raises
    ------
    ValueError
        When it is no number, not finite, or not above the bound.
    """
    if isinstance(value, bool) or not isinstance(value, int | float) or not above < value < float("inf"):
        raise ValueError(f"{name}={value!r}: must be a number above {above:g}")
    return float(value)
