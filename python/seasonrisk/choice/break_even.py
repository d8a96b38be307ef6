# SPDX-License-Identifier: MIT
"""At which price, catch, number of days or other number of the plan a rung is just covered, and how sure that is."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from seasonrisk import _core
from seasonrisk.choice.inputs import Input, LastDay, What, input_of
from seasonrisk.choice.words_break_even import page, tried_table
from seasonrisk.engine import Rng, require_plan, simulate
from seasonrisk.errors import PlanError
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.progress import Progress
from seasonrisk.table import Table
from seasonrisk.words import RUNGS

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["BreakEven", "Crossing", "break_even"]

Z_95 = 1.959963984540054  # normal deviate of a two-sided 95% interval


@dataclass(frozen=True)
class Crossing:
    """One value at which the target is just reached.

    Attributes
    ----------
    value : Estimate
        In the unit of the number moved. An end of its interval that lies beyond the range searched is NaN.
    rising : bool
        The target is reached at this value and above; False: at this value and below.
    """

    value: Estimate
    rising: bool


@dataclass(frozen=True)
class BreakEven:
    """Where an estimate passes a target as a number of the plan is moved; ``print`` it for the answer in words.

    Attributes
    ----------
    moved : Input
        The number, its value in the plan and the range searched.
    of : str
        Column: a rung, ``"cash_room"``, or any other.
    target : float
        The mean, or each season when ``chance`` is given, is to be at least this, in the unit of the column.
    chance : float or None
        The share of seasons that is to reach ``target``; None for the mean.
    crossings : tuple of Crossing
        By value; empty when there is no such value in the range.
    tried : tuple of (float, Estimate)
        Every value simulated, rising, and the mean or chance there.
    turns : bool
        The mean or chance both rises and falls over the range: there may be more crossings than were found.
    histories, key : int
        Of each run; all runs have the same luck.
    days_fished : tuple of Estimate, or None
        For ``"days"``: mean fished days at the value found (the nearest to the plan's) and in the plan.
    """

    moved: Input
    of: str
    target: float
    chance: float | None
    crossings: tuple[Crossing, ...]
    tried: tuple[tuple[float, Estimate], ...] = field(repr=False)
    turns: bool
    histories: int
    key: int
    days_fished: tuple[Estimate, Estimate] | None = None

    @property
    def value(self) -> Estimate | None:
        """The value found, the nearest to the plan's when there are several; None when there is none in the range."""
        nearest = self.nearest
        return None if nearest is None else nearest.value

    @property
    def nearest(self) -> Crossing | None:
        """The crossing nearest to the plan's own value."""
        return min(self.crossings, key=lambda c: abs(c.value.value - self.moved.in_plan), default=None)

    @property
    def runs(self) -> int:
        """How many plans were simulated."""
        return len(self.tried)

    def plan_at(self, value: float) -> Plan:
        """The plan with the number moved to this value."""
        return self.moved.plan_at(value)

    @property
    def table(self) -> Table:
        """Every value tried, with the mean or the chance there."""
        return tried_table(self)

    def to_pandas(self) -> pd.DataFrame:
        """The table as a DataFrame.

        Raises
        ------
        MissingExtra
            When pandas is not installed.
        """
        return self.table.to_pandas()

    def __repr__(self) -> str:
        return page(self)

    def _repr_html_(self) -> str:
        return self.table._repr_html_()


def break_even(
    plan: Plan,
    what: What,
    *,
    of: str = "loan",
    target: float = 0.0,
    chance: float | None = None,
    between: tuple[float, float] | None = None,
    histories: int = 10_000,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: Progress = None,
) -> BreakEven:
    """Find the value of a number of the plan at which a rung is just covered.

    The range is looked over at nine values first, then each place where the target is passed is closed in on, under
    the same luck throughout. Its 95% interval is where the same curve passes the target less and more its error.

    Parameters
    ----------
    plan : Plan
    what : str, sequence of str, or mapping of str to (float, float)
        A key path such as ``"prices.fuel_per_l"``; one of ``"price"``, ``"catch"``, ``"bait"``, ``"fuel"``,
        ``"crew share"``, ``"draw"`` for all keys of that kind, or ``"days"`` for the last day of fishing; several of
        them, all multiplied by one factor; or key paths each with its values at 0 and at 1, moved together along that
        line. A guess is multiplied as a whole and told by its typical value.
    of : str
        Column that is to reach the target: a rung, ``"cash_room"`` (cash holds), or any other.
    target : float
        In the unit of the column.
    chance : float, optional
        Share of the seasons, above 0 and below 1, that is to reach the target; left out, the mean is to.
    between : (float, float), optional
        Range to search, in the unit of the key, or as factors for several. Left out: a fifth of what the plan has to
        five times that, as far as the key allows; 0 to 1 along a line.
    histories, rng, key, threads, progress
        As in `simulate`, for each of the 10 to 30 plans that are simulated.

    Returns
    -------
    BreakEven

    Raises
    ------
    KeyError
        For a key path or a column that the plan does not have.
    ValueError, TypeError
        For an argument outside its range, named with what is allowed; for a range with a plan that is not sound.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/smallest.toml")
    >>> found = sr.break_even(plan, "fuel", of="loan", histories=500, rng=7)
    >>> found.crossings[0].rising
    False
    """
    if chance is not None and not (isinstance(chance, int | float) and not isinstance(chance, bool) and 0.0 < chance < 1.0):
        raise ValueError(f"chance={chance!r}: must be above 0 and below 1; 0.9 is 9 seasons in 10")
    if isinstance(target, bool) or not isinstance(target, int | float) or not math.isfinite(target):
        raise ValueError(f"target={target!r}: must be a finite number")
    require_plan(plan)
    if of not in {info.name for info in _core.columns_of(plan._core)}:
        raise KeyError(f"of={of}: no such column; {', '.join(RUNGS)} and cash_room are the usual ones, and any that a run of the plan can keep will do")
    keep = [of, "days_fished"] if of != "days_fished" else [of]
    base = simulate(plan, histories=histories, rng=rng, key=key, threads=threads, keep=keep, progress=progress)
    moved = input_of(plan, what, between)
    fished = {moved.in_plan: base.mean("days_fished")}
    unit = base.column(of).unit.replace("money", plan.money)
    runs_done = 1

    def estimate_at(value: float) -> _core.Estimate:
        nonlocal runs_done
        run = base
        if value != moved.in_plan:
            try:
                changed = moved.plan_at(value)
            except PlanError as error:
                raise ValueError(f"between: at {moved.text(value)} the plan is not sound; give a narrower range\n{error}") from error
            shown = _counting_on(progress, runs_done * histories)
            run = simulate(changed, histories=histories, key=base.key, threads=threads, keep=keep, progress=shown)
            fished[value] = run.mean("days_fished")
            runs_done += 1
        return _core.mean(run[of]) if chance is None else _core.chance(run[of], float(target))

    wanted = float(target) if chance is None else float(chance)
    found = _core.break_even(estimate_at, grid=list(moved.grid), target=wanted, of_a_chance=chance is not None, step=moved.step)
    crossings = tuple(Crossing(_estimate(c, histories, moved.unit), c.rising) for c in found.crossings)
    kind = {"unit": unit} if chance is None else {"kind": "chance"}
    tried = tuple((t.input, Estimate.of(t.estimate, **kind)) for t in found.tried)  # type: ignore[arg-type]
    answer = BreakEven(moved, of, float(target), chance, crossings, tried, found.turns, histories, base.key)
    if not isinstance(moved, LastDay) or answer.value is None:
        return answer
    return replace(answer, days_fished=(fished[answer.value.value], fished[moved.in_plan]))


def _counting_on(progress: Progress, done_before: int) -> Progress:
    """A function that is told the seasons of all runs together."""
    if progress is None or isinstance(progress, bool):
        return progress
    return lambda done: progress(done_before + done)


def _estimate(crossing: _core.Crossing, n: int, unit: str) -> Estimate:
    """The value with the error that its interval stands for; from the side that is known when one is not."""
    half = [abs(end - crossing.input) for end in (crossing.low, crossing.high) if not math.isnan(end)]
    error = sum(half) / len(half) / Z_95 if half else math.nan
    return Estimate(crossing.input, error, crossing.low, crossing.high, n, crossing.exact, unit=unit)
