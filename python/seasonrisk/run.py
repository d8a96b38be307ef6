# SPDX-License-Identifier: MIT
"""What comes of simulating a plan.

``print(run)`` for the page, ``run["household"]`` for the values of one quantity in every history, `Run.chance`,
`Run.quantile` and the like for numbers with their errors, `Run.replay` for one history day by day, `Run.save` to
keep it.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core, summary
from seasonrisk.checks import whole_number
from seasonrisk.days import DayTable, replay
from seasonrisk.estimate import Estimate
from seasonrisk.frames import frame
from seasonrisk.plan import Plan
from seasonrisk.table import Table

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Column", "Run", "RunFacts"]


@dataclass(frozen=True)
class Column:
    """What a column of a run holds: its name, its unit in words and its meaning in one line."""

    name: str
    unit: str
    meaning: str


@dataclass(frozen=True)
class RunFacts:
    """How a run was made: all that is needed to make it again, and how long it took."""

    key: int
    histories_asked: int
    stream_version: int
    version: str
    threads: int
    instructions: str
    seconds: float


class Run:
    """What a simulation gives back: one value per history of every quantity kept.

    Attributes
    ----------
    plan : Plan
    facts : RunFacts
        Key, versions, threads, instruction set and seconds of the run.
    columns : tuple of str
        Names of the quantities kept.
    histories : int
        Histories completed, from the first on.
    """

    def __init__(self, plan: Plan, columns: Mapping[Column, NDArray[np.float64]], facts: RunFacts) -> None:
        self.plan, self.facts = plan, facts
        self._info = {column.name: column for column in columns}
        self._values = {column.name: values for column, values in columns.items()}
        self.columns = tuple(self._values)
        self.histories = len(next(iter(self._values.values())))

    # ------------------------------------------------------------------------------------------- what was asked
    @property
    def key(self) -> int:
        """Key of all its draws: ``simulate(plan, key=run.key, ...)`` gives the same run again."""
        return self.facts.key

    @property
    def complete(self) -> bool:
        """Whether all histories asked for were simulated."""
        return self.histories == self.facts.histories_asked

    @property
    def money(self) -> str:
        """Three letters of the plan's currency."""
        return self.plan.money

    # --------------------------------------------------------------------------------------------------- columns
    def __getitem__(self, name: str) -> NDArray[np.float64]:
        """The values of one quantity, one per history: a read-only view of the engine's memory."""
        if name in self._values:
            return self._values[name]
        if any(name == info.name for info in _core.columns_of(self.plan._core)):
            raise KeyError(f"column={name}: was not kept in this run; simulate(..., keep=[{name!r}, ...]) keeps it")
        near = difflib.get_close_matches(name, self.columns, n=1)
        raise KeyError(f"column={name}: there is none of that name" + (f"; did you mean {near[0]}?" if near else ""))

    def __contains__(self, name: object) -> bool:
        return name in self._values

    def __iter__(self) -> Iterator[str]:
        return iter(self.columns)

    def column(self, name: str) -> Column:
        """Unit and meaning of a column."""
        self[name]
        return self._info[name]

    def _unit(self, name: str) -> str:
        unit = self.column(name).unit
        return self.money if unit == "money" else unit

    # ------------------------------------------------------------------------------------------ numbers with errors
    def chance(self, name: str, at_least: float = 0.0) -> Estimate:
        """Share of histories in which the column is ``at_least`` or more; 95% interval by Wilson (1927).

        Parameters
        ----------
        name : str
            A column; ``"household"`` asks whether that rung is cleared, ``"cash_room"`` whether cash holds.
        at_least : float
            In the unit of the column.
        """
        return Estimate.of(_core.chance(self[name], at_least), "chance")

    def mean(self, name: str) -> Estimate:
        """Mean over the histories, in the column's unit; its error is the spread over the root of their number."""
        return Estimate.of(_core.mean(self[name]), unit=self._unit(name))

    def standard_deviation(self, name: str) -> Estimate:
        """Standard deviation between histories, in the column's unit."""
        return Estimate.of(_core.standard_deviation(self[name]), unit=self._unit(name))

    def quantile(self, name: str, level: float) -> Estimate:
        """The value that a share ``level`` (above 0, below 1) of the histories do not pass; 0.1 is a 1-in-10 low."""
        return Estimate.of(_core.quantile(self[name], level), unit=self._unit(name))

    def shortfall_when_missed(self, name: str, target: float = 0.0) -> Estimate:
        """How far below ``target`` the column is on average in the histories that miss it."""
        return Estimate.of(_core.shortfall_when_missed(self[name], target), unit=self._unit(name))

    def worst_share_mean(self, name: str, share: float = 0.1) -> Estimate:
        """Mean of the lowest ``share`` (above 0, at most 1) of the histories."""
        return Estimate.of(_core.worst_share_mean(self[name], share), unit=self._unit(name))

    # --------------------------------------------------------------------------------------------------- cash
    @property
    def months(self) -> tuple[str, ...]:
        """Months of the money year whose end was kept, ``"2027-03"`` first."""
        return tuple(name.removeprefix("cash.") for name in self.columns if name.startswith("cash."))

    def month_cash(self, levels: Sequence[float] = summary.FAN) -> summary.MonthCash:
        """Cash at the end of each month of the money year: what a share of the histories does not pass.

        Parameters
        ----------
        levels : sequence of float
            Shares above 0 and below 1.
        """
        return summary.month_cash(self, levels)

    def lowest_month(self) -> summary.LowestMonth:
        """The month whose end most often has the least cash, and how often that is."""
        return summary.lowest_month(self)

    # ------------------------------------------------------------------------------------------------ all at once
    def summary(self) -> Table:
        """The numbers a skipper asks for, each with its error."""
        return summary.summary(self)

    def replay(self, history: int) -> DayTable:
        """One history of this run, day by day.

        Parameters
        ----------
        history : int
            Counted from 0.

        Raises
        ------
        ValueError
            When there is no such history, or the run was made by a version with other draws.
        """
        history = whole_number("history", history, lowest=0, highest=self.histories - 1)
        if self.facts.stream_version != _core.stream_version:
            raise ValueError(
                f"stream_version={self.facts.stream_version}: this run's draws were made by version {self.facts.version}; "
                f"this version ({_core.stream_version}) would draw others"
            )
        return replay(self.plan, key=self.key, history=history)

    def to_pandas(self) -> pd.DataFrame:
        """A DataFrame with one row per history and one column per quantity.

        Raises
        ------
        MissingExtra
            When pandas is not installed.
        """
        return frame(self._values).rename_axis("history")

    def save(self, path: str | Path, *, overwrite: bool = False) -> None:
        """Keep the run in a file that `Run.load`, or NumPy alone, reads again; see `seasonrisk.store`.

        Raises
        ------
        FileExistsError
            When the file is there and ``overwrite`` is not given.
        """
        from seasonrisk.store import save

        save(self, path, overwrite=overwrite)

    @classmethod
    def load(cls, path: str | Path) -> Run:
        """A run that was saved.

        Raises
        ------
        ValueError
            When the file is no saved run, or one of a later format.
        """
        from seasonrisk.store import load

        return load(path)

    def report(self, path: str | Path, *, paper: str = "A4", overwrite: bool = False) -> None:
        """Write one page that needs nothing beside it: chances, bad years, pictures, assumptions, cautions.

        Parameters
        ----------
        path : str or Path
            Ending in ``.html`` or ``.pdf``.
        paper : {"A4", "letter"}
            What it is laid out for when printed.
        overwrite : bool
            Whether a file of that name may be written over.

        Raises
        ------
        FileExistsError
            When the file is there and ``overwrite`` is not given.
        ValueError
            When the name ends in neither, or a column the page needs was not kept.
        MissingExtra
            When Jinja2 or matplotlib, or for a PDF WeasyPrint, is not installed.
        """
        from seasonrisk.report import html_page, require_page, write_page

        require_page(path, overwrite=overwrite)
        write_page(path, html_page(self, paper=paper), overwrite=overwrite)

    def __repr__(self) -> str:
        from seasonrisk.page import short_page

        return short_page(self)

    def _repr_html_(self) -> str:
        return self.summary()._repr_html_()
