# SPDX-License-Identifier: MIT
"""How much can be promised to a regular: what is kept in most weeks, and what pays best."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.checks import amount
from seasonrisk.choice.words_promise import page, promise_table
from seasonrisk.engine import Rng, simulate
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.progress import Progress
from seasonrisk.run import Run
from seasonrisk.table import Table

__all__ = ["Promise", "Tried", "safe_promise"]

N_GRID = 9
FEW_KEPT = 0.05  # a promise kept in fewer weeks than this is as large as any that need be looked at
MOST_DOUBLINGS = 40


@dataclass(frozen=True)
class Tried:
    """One promise tried: the share of weeks it is kept in (None where not asked), and what the rung leaves."""

    quantity: float
    kept: Estimate | None
    pays: Estimate | None


@dataclass(frozen=True)
class Promise:
    """What can be promised to one regular; ``print`` it for the answer in words.

    Attributes
    ----------
    plan : Plan
    who, unit : str
        The regular, and the unit the grade is sold in.
    days_a_week : int
        Days of the week the order is due.
    in_plan : float
        Promised in the plan for each of these days (the typical value of a guess).
    safe : mapping of float to Estimate
        For each share of weeks asked for, the largest promise, for each due day, that is kept in it: of the weeks in
        which it is due, those with nothing short on any day.
    best : float
        The promise that pays best on average.
    as_good : tuple of (float, float)
        Lowest and highest promise tried that pays no less as far as these seasons can tell (within 2 errors of the
        season-by-season difference).
    best_kept : Estimate
        Share of the weeks in which the best-paying promise is kept.
    gain : Estimate
        Mean of ``of`` with the best promise, less the mean in the plan as it stands.
    most : float
        Largest promise looked at.
    of : str
        Column that is to be largest.
    histories, key, runs : int
        Histories of each run, the key of all of them, and how many plans were simulated.
    """

    plan: Plan
    who: str
    unit: str
    days_a_week: int
    in_plan: float
    safe: dict[float, Estimate]
    best: float
    as_good: tuple[float, float]
    best_kept: Estimate
    gain: Estimate
    most: float
    of: str
    tried: tuple[Tried, ...] = field(repr=False)
    histories: int
    key: int
    runs: int

    @property
    def table(self) -> Table:
        """Every promise tried, with the weeks it is kept in and what it pays."""
        return promise_table(self)

    def __repr__(self) -> str:
        return page(self)

    def _repr_html_(self) -> str:
        return self.table._repr_html_()


class _Search:
    """Runs of the plan with other promises, each made once and all with the same luck."""

    def __init__(self, plan: Plan, order: int, of: str, step: float, how: dict[str, object]) -> None:
        self.plan, self.at, self.of, self.step, self.how = plan, f"order.{order}.", of, step, how
        self.who = str(plan[self.at + "who"])
        self.kept: dict[float, NDArray[np.float64]] = {}
        self.pays: dict[float, NDArray[np.float64]] = {}
        self.base = self._run(plan, [of, f"weeks_due.{self.who}"])
        self.how = {**how, "rng": None, "key": self.base.key}
        self.runs = 1
        if not self.base[f"weeks_due.{self.who}"].any():
            raise ValueError(f"who={self.who!r}: this order is never due")

    def _run(self, plan: Plan, keep: list[str]) -> Run:
        return simulate(plan, keep=keep, **self.how)  # type: ignore[arg-type]

    def kept_at(self, quantity: float) -> _core.Estimate:
        """Share of the weeks, with the promise standing all season: nobody orders less after a short week."""
        if quantity not in self.kept:
            changed = self.plan.choose({self.at + "quantity": quantity, self.at + "leave_fraction": 0.0})
            run = self._run(changed, [f"weeks_kept.{self.who}", f"weeks_due.{self.who}"])
            self.kept[quantity] = run[f"weeks_kept.{self.who}"] / run[f"weeks_due.{self.who}"]
            self.runs += 1
        return _core.mean(self.kept[quantity])

    def pays_at(self, quantity: float) -> float:
        """Mean of the rung, with all that the plan says of short weeks."""
        if quantity not in self.pays:
            run = self._run(self.plan.choose({self.at + "quantity": quantity}), [self.of])
            self.pays[quantity] = run[self.of]
            self.runs += 1
        return float(_core.mean(self.pays[quantity]).value)

    def grid(self, low: float, high: float) -> list[float]:
        """At most nine promises on whole steps."""
        steps = np.unique(np.round(np.linspace(low / self.step, high / self.step, N_GRID)))
        return [float(n) * self.step for n in steps]

    def most(self, first: float) -> float:
        """A promise that is hardly ever kept, by doubling."""
        quantity = max(self.step, math.ceil(first / self.step) * self.step)
        for _ in range(MOST_DOUBLINGS):
            if self.kept_at(quantity).value < FEW_KEPT:
                return quantity
            quantity *= 2.0
        raise ValueError(f"who={self.who!r}: {quantity:g} and more are kept every week; is the step of {self.step:g} too small?")

    def best(self, most: float) -> float:
        """The best of a grid, then of ever finer ones around it."""
        low, high = 0.0, most
        while True:
            grid = self.grid(low, high)
            best = max(grid, key=self.pays_at)
            at = grid.index(best)
            if max(np.diff(grid)) <= 1.5 * self.step:
                return best
            low, high = grid[max(at - 1, 0)], grid[min(at + 1, len(grid) - 1)]


def safe_promise(
    plan: Plan,
    who: str | None = None,
    *,
    kept: float | Sequence[float] = (0.8, 0.9, 0.95),
    of: str = "running",
    step: float = 1.0,
    histories: int = 2_000,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: Progress = None,
) -> Promise:
    """How much can be promised to a regular.

    The plan is simulated anew for each promise tried, some 20 to 50 times, under the same luck: what is promised
    changes what is left to sell and to keep, so no one run could tell.

    Parameters
    ----------
    plan : Plan
        With at least one ``[[order]]``.
    who : str, optional
        The regular; may be left out when there is one order.
    kept : float or sequence of float
        Shares of the weeks, above 0.05 and below 1; 0.9 asks what is kept in 9 weeks of 10.
    of : str
        Column by which the best-paying promise is found.
    step : float
        The promise is a whole number of these, in sold units of the grade (kilograms, dozens).
    histories, rng, key, threads, progress
        As in `simulate`, for each plan.

    Returns
    -------
    Promise

    Raises
    ------
    KeyError
        When nobody of that name has an order.
    ValueError, TypeError
        For an argument outside its range, named with what is allowed.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/crab_by_the_bushel.toml")
    >>> found = sr.safe_promise(plan, "the Heron Inn", histories=100, rng=7)
    >>> found.safe[0.95].value <= found.safe[0.8].value
    True
    """
    if not isinstance(plan, Plan):
        raise TypeError(f"plan={plan!r}: must be a Plan; Plan.read makes one of a file")
    shares = (kept,) if isinstance(kept, int | float) else tuple(kept)
    if not shares or not all(isinstance(share, int | float) and FEW_KEPT < share < 1.0 for share in shares):
        raise ValueError(f"kept={kept!r}: must be above {FEW_KEPT:g} and below 1; 0.9 is 9 weeks in 10")
    step = amount("step", step, above=0.0)
    order = _order_of(plan, who)
    how: dict[str, object] = {"histories": histories, "rng": rng, "key": key, "threads": threads, "progress": progress}
    search = _Search(plan, order, of, step, how)
    quantity = plan.numbers[f"order.{order}.quantity"]
    in_plan = quantity if isinstance(quantity, float) else quantity.typical
    most = search.most(in_plan)
    unit = next(info.unit for info in _core.columns_of(plan._core) if info.name == f"ordered.{search.who}")
    safe = {float(share): _largest_kept(search, most, float(share), unit) for share in shares}
    best = search.best(most)
    column = search.pays[best]
    as_good = [tried for tried, pays in search.pays.items() if _no_worse(pays - column)]
    gain = Estimate.of(_core.mean(column - search.base[of]), unit=plan.money)
    return Promise(
        plan, search.who, unit, len(plan[f"order.{order}.days"]), in_plan, safe, best, (min(as_good), max(as_good)),  # type: ignore[arg-type]
        Estimate.of(search.kept_at(best)), gain, most, of, _tried(search), search.base.histories, search.base.key, search.runs,
    )  # fmt: skip


def _order_of(plan: Plan, who: str | None) -> int:
    names = [str(e.value) for e in plan.entries if e.path.startswith("order.") and e.path.endswith(".who")]
    if not names:
        raise ValueError("plan: has no [[order]], so nothing is promised to anyone")
    if who is None and len(names) > 1:
        raise ValueError(f"who=None: name one of those with an order: {', '.join(names)}")
    if who is not None and who not in names:
        raise KeyError(f"who={who}: has no order; those who have are {', '.join(names)}")
    return names.index(who) if who is not None else 0


def _largest_kept(search: _Search, most: float, share: float, unit: str) -> Estimate:
    found = _core.break_even(search.kept_at, grid=search.grid(0.0, most), target=share, of_a_chance=False, step=search.step)
    crossing = found.crossings[0]  # at nothing promised every week is kept, at `most` hardly any
    low, high = (crossing.input if math.isnan(end) else end for end in (crossing.low, crossing.high))
    return Estimate(crossing.input, (high - low) / 2.0 / 1.959963984540054, low, high, search.base.histories, crossing.exact, unit=unit)


def _no_worse(difference: NDArray[np.float64]) -> bool:
    mean = _core.mean(difference)
    error = 0.0 if len(difference) < 2 else mean.standard_error
    return bool(mean.value >= -2.0 * error)


def _tried(search: _Search) -> tuple[Tried, ...]:
    def of(columns: dict[float, NDArray[np.float64]], quantity: float, unit: str) -> Estimate | None:
        return Estimate.of(_core.mean(columns[quantity]), unit=unit) if quantity in columns else None

    money = search.plan.money
    return tuple(Tried(q, of(search.kept, q, ""), of(search.pays, q, money)) for q in sorted({*search.kept, *search.pays}))
