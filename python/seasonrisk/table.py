# SPDX-License-Identifier: MIT
"""A small table that prints as text, shows as HTML in a notebook, and goes to pandas."""

from __future__ import annotations

import html
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from seasonrisk.frames import frame

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Table"]


@dataclass(frozen=True)
class Table:
    """Rows under column heads.

    Attributes
    ----------
    title : str
        What it shows, in one line.
    heads : sequence of str
        Column heads; units stand in them or in the title.
    rows : sequence of sequences of str
        Cells as shown. Every column but the first is set to the right.
    values : sequence of sequences, optional
        The same cells as values, for `to_pandas`; the shown text where there is none.
    """

    title: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]
    values: Sequence[Sequence[Any]] = field(default=(), repr=False)

    def lines(self) -> list[str]:
        """Its text, line by line, without the title."""
        grid = [list(self.heads), *map(list, self.rows)]
        widths = [max(len(row[c]) for row in grid) for c in range(len(self.heads))]
        return [
            "  ".join(
                cell.rjust(w) if c else cell.ljust(w) for c, (cell, w) in enumerate(zip(row, widths, strict=True))
            ).rstrip()
            for row in grid
        ]

    def to_pandas(self) -> pd.DataFrame:
        """The table as a DataFrame, of values where there are values.

        Raises
        ------
        MissingExtra
            When pandas is not installed.
        """
        return frame([list(row) for row in self.values or self.rows], columns=list(self.heads))

    def __str__(self) -> str:
        return "\n".join([self.title, *("  " + line for line in self.lines())])

    __repr__ = __str__

    def _repr_html_(self) -> str:
        cell = "<td style='text-align:{}'>{}</td>"
        rows = "".join(
            "<tr>"
            + "".join(cell.format("right" if c else "left", html.escape(text)) for c, text in enumerate(row))
            + "</tr>"
            for row in self.rows
        )
        heads = "".join(
            f"<th style='text-align:{'right' if c else 'left'}'>{html.escape(h)}</th>" for c, h in enumerate(self.heads)
        )
        return f"<table><caption>{html.escape(self.title)}</caption><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"
