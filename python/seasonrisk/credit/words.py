# SPDX-License-Identifier: MIT
"""Cells of tables that stand beside many others."""

from __future__ import annotations

from seasonrisk.estimate import Estimate
from seasonrisk.words import chance_text

__all__ = ["chance_cell", "seen_note"]


def chance_cell(chance: Estimate | None) -> str:
    """A chance in 100, short; `seen_note` tells what it is where none is seen.

    Examples
    --------
    >>> chance_cell(Estimate(0.0, 0.0, 0.0, 0.0003, 10_000, kind="chance"))
    'none seen'
    >>> chance_cell(Estimate(0.7243, 0.0014, 0.7215, 0.7271, 100_000, kind="chance"))
    '72.4'
    """
    if chance is None:
        return "-"
    if chance.exact and chance.value in (0.0, 1.0):
        return "all (exact)" if chance.value else "none (exact)"
    if chance.value in (0.0, 1.0):
        return "all seen" if chance.value else "none seen"
    return chance_text(chance, whole=False).removesuffix(" in 100")


def seen_note(histories: int) -> str:
    """What cells mean that show no number."""
    return f"Where none is seen it is fewer than 3 in {histories:,}; where all are seen, all but fewer than 3."
