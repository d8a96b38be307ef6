# SPDX-License-Identifier: MIT
"""Every number that went in, for the end of a page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.values import EventSize, Guess, number_as_typed

if TYPE_CHECKING:
    from seasonrisk.plan import Plan

__all__ = ["assumptions", "with_sources"]


def assumptions(plan: Plan) -> list[tuple[str, str, str, str, str, str]]:
    """Every number of the plan: key, low, typical, high, unit, meaning."""
    rows = []
    for entry in plan.entries:
        if entry.kind not in ("number", "size"):
            continue
        value = plan.numbers[entry.path]
        points = (value.low, value.typical, value.high) if isinstance(value, Guess | EventSize) else (None, value, None)
        low, typical, high = ("" if point is None else number_as_typed(point) for point in points)
        unit = entry.unit.replace("money", plan.money)
        meaning = entry.meaning + (" (each event anew)" if isinstance(value, EventSize) else "")
        rows.append((entry.path, low, typical, high, unit, meaning))
    return rows


def with_sources(plan: Plan) -> list[tuple[str, ...]]:
    """The numbers that say something, each with where it came from: those that are 0 and not told of are left out."""
    rows: list[tuple[str, ...]] = []
    for row in assumptions(plan):
        source = plan.source_of(row[0])
        if source is None and row[2] == "0":
            continue
        told = "not told" if source is None else source.origin + (f": {source.where}" if source.where else "")
        rows.append((*row, told))
    return rows
