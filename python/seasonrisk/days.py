# SPDX-License-Identifier: MIT
"""One history day by day: what happened on each day of its money year."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.checks import whole_number
from seasonrisk.frames import frame
from seasonrisk.plan import Plan
from seasonrisk.table import Table

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["DayTable", "replay"]


class DayTable:
    """Named columns with one value per day of the money year.

    Attributes
    ----------
    dates : ndarray of shape (n_days,), datetime64[D]
    why : ndarray of shape (n_days,), str
        ``"hauled"``, ``"setting"``, or why the boat was not out; empty outside the season.
    columns : tuple of str
        Names of the other columns; ``table["cash"]`` is one of them, float64.
    """

    def __init__(self, found: _core.ReplayDict, *, key: int, history: int) -> None:
        self.dates: NDArray[np.datetime64] = found["days"].view("datetime64[D]")
        self.why = np.array(found["why"])
        self._columns = found["columns"]
        self._info = {info.name: info for info in found["info"]}
        self.columns = tuple(self._columns)
        self.key, self.history = key, history
        for values in (self.dates, self.why, *self._columns.values()):
            values.setflags(write=False)

    def __getitem__(self, name: str) -> NDArray[np.float64]:
        """One column, read-only."""
        if name not in self._columns:
            raise KeyError(f"column={name}: there are {', '.join(self.columns)}")
        return self._columns[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.columns)

    def __len__(self) -> int:
        return len(self.dates)

    def unit(self, name: str) -> str:
        """Unit of a column, in words."""
        return self._info[name].unit

    def to_pandas(self) -> pd.DataFrame:
        """A DataFrame by date, with the column ``why`` first.

        Raises
        ------
        MissingExtra
            When pandas is not installed.
        """
        return frame({"why": self.why, **self._columns}, index=self.dates).rename_axis("date")

    def _table(self, most: int = 8) -> Table:
        season = np.flatnonzero(self.why != "")
        heads = ("date", "why", *self.columns[2:])
        rows = [
            (
                str(self.dates[day]),
                str(self.why[day]),
                *(f"{self._columns[name][day]:,.2f}" for name in self.columns[2:]),
            )
            for day in season[:most]
        ]
        title = (
            f"History {self.history} of key {self.key}, day by day: the first {len(rows)} of {len(season)} season days"
        )
        return Table(title, heads, rows)

    def __repr__(self) -> str:
        # Several boats have a column each; a day counts once, whoever was out.
        boats = [self[name] for name in self.columns if name == "out" or name.startswith("out.")]
        out = int(np.count_nonzero(np.any(boats, axis=0)))
        first, last = self.dates[0], self.dates[-1]
        return (
            f"<DayTable: history {self.history} of key {self.key}, {len(self)} days from {first} to {last}, {out} out>\n"
            f"  columns: why, {', '.join(self.columns)}"
        )

    def _repr_html_(self) -> str:
        return self._table()._repr_html_()


def replay(plan: Plan, *, key: int, history: int) -> DayTable:
    """One history of a run, day by day, with the very draws it had there.

    Parameters
    ----------
    plan : Plan
        The plan of the run.
    key : int
        The run's key, `Run.key`.
    history : int
        Which history, counted from 0.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> days = sr.replay(sr.Plan.read("examples/plans/one_boat.toml"), key=7, history=0)
    >>> len(days)
    366
    """
    key = whole_number("key", key, lowest=0, highest=2**64 - 1)
    history = whole_number("history", history, lowest=0, highest=2**48 - 1)
    return DayTable(_core.replay(plan._core, key, history), key=key, history=history)
