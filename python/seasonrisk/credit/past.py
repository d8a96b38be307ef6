# SPDX-License-Identifier: MIT
"""Past years beside the model: what the plan would have shown for such a year, and what it came to."""

from __future__ import annotations

import re
from dataclasses import dataclass

from seasonrisk import _core
from seasonrisk.credit import words_past
from seasonrisk.credit.chances import chance_below
from seasonrisk.credit.years import length_of, require_columns
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.words import column_of, seasons_of

__all__ = ["PastFigure", "PastYear", "PastYears", "past_columns", "past_years", "what_happened"]

#: 1 in 10 below, the middle, 1 in 10 above.
LEVELS = (0.1, 0.5, 0.9)


@dataclass(frozen=True)
class PastFigure:
    """One actual beside the model's spread of it.

    Attributes
    ----------
    name : str
        Column of results, such as ``"sales"``.
    meaning, unit : str
    actual : float
        As typed in the plan.
    low, median, high : Estimate
        Of one simulated year: 1 in 10 below, the middle, 1 in 10 above.
    below : Estimate
        Share of the simulated years below the actual.
    """

    name: str
    meaning: str
    unit: str
    actual: float
    low: Estimate
    median: Estimate
    high: Estimate
    below: Estimate

    @property
    def words(self) -> str:
        """Its name, short enough for a table."""
        return self.name.replace("_", " ")

    @property
    def outside(self) -> bool:
        """Whether the actual lies outside the 1-in-10 marks, on either side; of what the plan knows exactly, a whole unit from it."""
        if not self.spread:
            return abs(self.actual - self.median.value) >= 1.0
        return not self.low.value <= self.actual <= self.high.value

    @property
    def spread(self) -> bool:
        """Whether the model's figure differs from history to history; otherwise the plan knows it exactly."""
        return not self.median.exact


@dataclass(frozen=True)
class PastYear:
    """One past year, beside one season of the plan.

    Attributes
    ----------
    year : int
        Calendar year in which that season began.
    season : int
        The season of the run it stands beside.
    figures : tuple of PastFigure
    """

    year: int
    season: int
    figures: tuple[PastFigure, ...]

    @property
    def outside(self) -> tuple[PastFigure, ...]:
        """Figures outside the 1-in-10 marks."""
        return tuple(figure for figure in self.figures if figure.outside)


@dataclass(frozen=True)
class PastYears:
    """Past years beside the model; ``print`` it for the page.

    Attributes
    ----------
    plan : Plan
    years : tuple of PastYear
        Oldest first; empty when the plan tells none.
    histories, key : int
    after : bool
        The year-end form: what was shown for this very season, and what happened.
    """

    plan: Plan
    years: tuple[PastYear, ...]
    histories: int
    key: int
    after: bool = False

    @property
    def table(self) -> Table:
        """One row for each actual."""
        return words_past.table(self)

    def __repr__(self) -> str:
        return words_past.page(self)

    def _repr_html_(self) -> str:
        return self.table._repr_html_()


def past_columns(plan: Plan, actuals: Plan | None = None) -> list[str]:
    """Columns of a run of ``plan`` that `past_years` and `what_happened` look at.

    Parameters
    ----------
    plan : Plan
        Of the run.
    actuals : Plan, optional
        The plan in which the past years are written, when that is another.
    """
    told = _actuals(actuals or plan)
    return list(dict.fromkeys(column_of(plan, name, _season_for(plan, year)) for year, figures in told.items() for name in figures))


def past_years(plan: Plan, run: Run) -> PastYears:
    """Each ``[[past_year]]`` before the first season, beside the model's spread of such a year: the run's first season.

    Parameters
    ----------
    plan : Plan
        In which the past years are written.
    run : Run
        With the columns of `past_columns` kept.

    Returns
    -------
    PastYears

    Raises
    ------
    ValueError
        When columns are missing.
    """
    require_columns(run, past_columns(run.plan, plan) if isinstance(run, Run) else (), "past_columns(plan)")
    first = seasons_of(run.plan)[0]
    return _beside(plan, run, [year for year in _actuals(plan) if year < first], after=False)


def what_happened(run: Run, plan: Plan) -> PastYears:
    """The year-end form: what a run showed for its own seasons, and what they came to.

    Parameters
    ----------
    run : Run
        Made before the season, with the columns of `past_columns` kept.
    plan : Plan
        In which the season's ``[[past_year]]`` has been written since.

    Returns
    -------
    PastYears

    Raises
    ------
    ValueError
        When columns are missing, the plan tells of none of the run's seasons, or it is in another money.
    """
    if isinstance(run, Run) and run.money != plan.money:
        raise ValueError(f"run: is in {run.money}, and the plan tells of {plan.money}; both must be of one money")
    require_columns(run, past_columns(run.plan, plan) if isinstance(run, Run) else (), "past_columns(plan)")
    own = [year for year in _actuals(plan) if year in seasons_of(run.plan)]
    if not own:
        raise ValueError(f"plan: tells of no season of the run; write a [[past_year]] with year = {seasons_of(run.plan)[0]}")
    return _beside(plan, run, own, after=True)


def _beside(plan: Plan, run: Run, years: list[int], *, after: bool) -> PastYears:
    told = _actuals(plan)
    found = []
    for year in sorted(years):
        season = _season_for(run.plan, year)
        figures = tuple(_figure(plan, run, name, actual, season) for name, actual in told[year].items())
        found.append(PastYear(year, season, figures))
    return PastYears(plan, tuple(found), run.histories, run.key, after)


def _figure(plan: Plan, run: Run, name: str, actual: float, season: int) -> PastFigure:
    values = run[column_of(run.plan, name, season)]
    entry = next(e for e in plan.entries if re.fullmatch(rf"past_year\.\d+\.{name}", e.path))
    unit = run.money if entry.unit == "money" else entry.unit
    low, median, high = (Estimate.of(_core.quantile(values, level), unit=unit) for level in LEVELS)
    return PastFigure(name, entry.meaning, unit, actual, low, median, high, chance_below(values, actual))


def _actuals(plan: Plan) -> dict[int, dict[str, float]]:
    """By year the figures that the plan tells, by name."""
    found: dict[int, dict[str, float]] = {}
    for n in range(length_of(plan, "past_year")):
        at = f"past_year.{n}."
        figures = {path.removeprefix(at): float(value) for path, value in plan.numbers.items() if path.startswith(at)}  # type: ignore[arg-type]
        found[int(plan[at + "year"])] = figures  # type: ignore[arg-type]
    return found


def _season_for(plan: Plan, year: int) -> int:
    """The season of a run that a past year stands beside: its own, or for one before it the first."""
    seasons = seasons_of(plan)
    return year if year in seasons else seasons[0]
