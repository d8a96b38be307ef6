# SPDX-License-Identifier: MIT
"""What generated plans are made of: numbers known or guessed, sizes of events, months, weekdays."""

from __future__ import annotations

import calendar
from typing import Any, TypeAlias

from hypothesis import strategies as st

Values: TypeAlias = dict[str, Any]

WEEKDAYS = calendar.day_name


def known(low: float, high: float) -> st.SearchStrategy[float]:
    """One of 101 round numbers from low to high, so that a failing plan can be read."""
    return st.integers(0, 100).map(lambda n: float(f"{low + (high - low) * n / 100:.4g}"))


def spread(low: float, high: float) -> st.SearchStrategy[Values]:
    """A low, a typical and a high point around numbers above 0."""
    return known(low, high).map(lambda x: {"low": 0.75 * x, "typical": x, "high": 1.3 * x})


def number(low: float, high: float) -> st.SearchStrategy[float | Values]:
    """A number as an owner writes it: known, or a guess."""
    return known(low, high) | spread(low, high)


def days(low: int, high: int) -> st.SearchStrategy[int | Values]:
    """A whole number of days or weeks: known, or a guess."""
    whole = st.integers(low, high)
    return whole | whole.map(lambda n: {"low": n, "typical": n + 1, "high": n + 4})


def size(low: float, high: float) -> st.SearchStrategy[float | Values]:
    """The size of single events: always the same, or spread."""
    return known(low, high) | spread(low, high)


def months(low: float, high: float) -> st.SearchStrategy[float | Values]:
    """One number for all months, or some months with their own."""
    words = [name.lower() for name in calendar.month_abbr[1:]]
    return number(low, high) | st.dictionaries(st.sampled_from(words), number(low, high), min_size=1, max_size=4)


def weekdays(most: int) -> st.SearchStrategy[list[str]]:
    return st.lists(st.sampled_from(list(WEEKDAYS)), min_size=1, max_size=most, unique=True)


def maybe(entry: st.SearchStrategy[Values]) -> st.SearchStrategy[list[Values]]:
    """A list of no or one entry."""
    return st.lists(entry, max_size=1)


def optional_table(**keys: st.SearchStrategy[Any]) -> st.SearchStrategy[Values]:
    """A table in which each key may be left out."""
    return st.fixed_dictionaries({}, optional=keys)


def among(names: list[str]) -> st.SearchStrategy[list[str]]:
    """Some of the names, at least one, in the order of the plan."""
    return st.sets(st.sampled_from(names), min_size=1).map(lambda found: [name for name in names if name in found])
