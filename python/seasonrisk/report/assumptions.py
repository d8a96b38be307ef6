# SPDX-License-Identifier: MIT
"""Every number that went in, for the end of a page."""

from __future__ import annotations

import tomllib
from typing import TYPE_CHECKING, Any

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
    typed = tomllib.loads(plan.text.removeprefix("\ufeff"))
    changed = tuple(path for path, _ in plan.changes)
    for row in assumptions(plan):
        source = plan.source_of(row[0])
        if source is None and row[2] == "0":
            continue
        if source is not None:
            told = source.origin + (f": {source.where}" if source.where else "")
        else:
            told = "not told" if _stands(typed, row[0]) or row[0].startswith(changed) else "default"
        rows.append((*row, told))
    return rows


def _stands(typed: Any, path: str) -> bool:
    """Whether a plan's values give the number at a key path, by itself or in one value for all of its section."""
    if not path or not isinstance(typed, dict | list):
        return True
    if isinstance(typed, list):
        place, _, rest = path.partition(".")
        return int(place) >= len(typed) or _stands(typed[int(place)], rest)  # one that is not in the file was added to it
    return any(path == key or (path.startswith(f"{key}.") and _stands(typed[key], path[len(key) + 1 :])) for key in typed)
