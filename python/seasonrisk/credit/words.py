# SPDX-License-Identifier: MIT
"""Cells of tables that stand beside many others."""

from __future__ import annotations

from seasonrisk.estimate import Estimate
from seasonrisk.words import in_100

__all__ = ["chance_cell", "seen_note"]


def chance_cell(chance: Estimate | None) -> str:
    """A chance for a column in 100; a dash where there is none, such as of a payment where none falls due.

    Examples
    --------
    >>> chance_cell(None), chance_cell(Estimate(0.7243, 0.0014, 0.7215, 0.7271, 100_000, kind="chance"))
    ('-', '72.4')
    """
    return "-" if chance is None else in_100(chance)


def seen_note(histories: int) -> str:
    """What "under" and "over" mean in such a column."""
    return f"Under or over a number: never seen, or always; then it is fewer than 3 in {histories:,}, or all but fewer than 3."
