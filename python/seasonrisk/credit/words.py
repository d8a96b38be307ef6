# SPDX-License-Identifier: MIT
"""Cells of tables that stand beside many others."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.estimate import Estimate
from seasonrisk.words import in_100

if TYPE_CHECKING:
    from seasonrisk.credit.coverage import Ratio

__all__ = ["NOT_KNOWN", "in_100_or_dash", "money_cell", "ratio_cells", "seen_note"]

NOT_KNOWN = "-"


def in_100_or_dash(chance: Estimate | None) -> str:
    """A chance for a column in 100; a dash where there is none, such as of a payment where none falls due.

    Examples
    --------
    >>> in_100_or_dash(None), in_100_or_dash(Estimate(0.7243, 0.0014, 0.7215, 0.7271, 100_000, kind="chance"))
    ('-', '72.4')
    """
    return NOT_KNOWN if chance is None else in_100(chance)


def money_cell(amount: Estimate) -> str:
    """Money to the digits it supports; what has no error to the whole unit, for pence are no concern of a year's sums.

    Examples
    --------
    >>> money_cell(Estimate(8926.97, 0.0, 8926.97, 8926.97, 2_000, exact=True)), money_cell(Estimate(8926.97, 30.0, 8868.0, 8986.0, 2_000))
    ('8,927', '8,950')
    """
    return f"{amount.value:,.0f}" if amount.exact else amount.amount_text


def ratio_cells(ratio: Ratio | None, none: str = NOT_KNOWN) -> list[str]:
    """Middle, 1 in 10, below 1.0 and below 1.25; without payments ``none``, and dashes."""
    if ratio is None:
        return [none, NOT_KNOWN, NOT_KNOWN, NOT_KNOWN]
    return [ratio.median.amount_text, ratio.bad.amount_text, in_100(ratio.below_1), in_100(ratio.below_1_25)]


def seen_note(histories: int) -> str:
    """What "under" and "over" mean in such a column."""
    return f"Under or over a number: never seen, or always; then it is fewer than 3 in {histories:,}, or all but fewer than 3."
