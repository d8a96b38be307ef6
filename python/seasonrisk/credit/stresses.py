# SPDX-License-Identifier: MIT
"""A plan under the stresses that lenders ask for, all met by the same luck."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from seasonrisk import _core, progress as progress_
from seasonrisk.checks import whole_number
from seasonrisk.credit import words_stresses
from seasonrisk.credit.coverage import CoverageYear, coverage, coverage_columns
from seasonrisk.credit.fixed_stresses import FIXED, DoesNotApply, PlanAndPeak
from seasonrisk.credit.peak import PeakWeeks
from seasonrisk.credit.years import require_columns, text_at
from seasonrisk.engine import MOST_HISTORIES, Rng, key_from, require_plan, simulate
from seasonrisk.errors import PlanError
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.words import RUNGS

__all__ = ["Stressed", "Stresses", "stress_columns", "stresses"]

DEFAULT_HISTORIES = 10_000


@dataclass(frozen=True)
class Stressed:
    """A plan under one stress, or as it is.

    Attributes
    ----------
    name : str
    how : str
        What was changed, in words.
    plan : Plan
        With the stress.
    chances : mapping of str to Estimate
        Chance of each rung, all years together, and of ``"cash_room"``: cash within the overdraft.
    missed : Estimate or None
        Chance of any missed loan payment; None when none is due.
    worst_year : CoverageYear or None
        Both forms of coverage in the year with the lowest median of the farm-finance form; None without payments.
    difference : Estimate
        Mean difference of what is left after everything, season by season against the plan as it is.
    lowest, lowest_bad : Estimate
        Lowest month end: in the middle, and 1 in 10.
    own : bool
        One of the owner's own.
    """

    name: str
    how: str
    plan: Plan
    chances: Mapping[str, Estimate]
    missed: Estimate | None
    worst_year: CoverageYear | None
    difference: Estimate
    lowest: Estimate
    lowest_bad: Estimate
    own: bool = False


@dataclass(frozen=True)
class Stresses:
    """All stresses of a plan; ``print`` it, ``found["Fuel 50 in 100 dearer"]`` for one of them.

    Attributes
    ----------
    plan : Plan
    as_it_is : Stressed
        The plan itself.
    stresses : tuple of Stressed
        Those that apply: the fixed ones in their order, then the owner's own.
    do_not_apply : tuple of (name, why)
        Fixed ones for which the plan has nothing that they could touch.
    peak : PeakWeeks or None
        The weeks that are lost in one of them.
    histories, key : int
    """

    plan: Plan
    as_it_is: Stressed
    stresses: tuple[Stressed, ...]
    do_not_apply: tuple[tuple[str, str], ...]
    peak: PeakWeeks | None
    histories: int
    key: int

    def __getitem__(self, name: str) -> Stressed:
        for stress in self.stresses:
            if stress.name == name:
                return stress
        why = dict(self.do_not_apply).get(name)
        raise KeyError(f"stress={name}: " + (f"does not apply, {why}" if why else f"there is none; there are {', '.join(s.name for s in self)}"))

    def __iter__(self) -> Iterator[Stressed]:
        return iter(self.stresses)

    def __len__(self) -> int:
        return len(self.stresses)

    @property
    def table(self) -> Table:
        """One row for each: chances."""
        return words_stresses.table(self)

    @property
    def money_table(self) -> Table:
        """One row for each: coverage in the worst year, lowest cash."""
        return words_stresses.money_table(self)

    def __repr__(self) -> str:
        return words_stresses.page(self)

    def _repr_html_(self) -> str:
        return self.table._repr_html_() + self.money_table._repr_html_()


def stresses(
    plan: Plan | Run,
    *,
    histories: int | None = None,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: progress_.Progress = None,
) -> Stresses:
    """Put a plan under the nine fixed stresses and the owner's own, under the same luck.

    Parameters
    ----------
    plan : Plan or Run
        Its ``[[stress]]`` entries come after the fixed ones, none of which can be left out. Of a run that kept the
        columns of `lender_columns` the first histories are taken as the plan as it is, and met again under each stress.
    histories : int, optional
        For each of them; left out, 10,000, or of a run the half, 1,000 at least: under the same luck fewer will do.
    rng, key
        As in `simulate`; a run has its own.
    threads
        As in `simulate`.
    progress : None, bool or callable
        As in `simulate`; counts the histories of all of them.

    Returns
    -------
    Stresses

    Raises
    ------
    PlanError
        When the plan with one of its own stresses has problems.
    ValueError
        For an argument outside its range, or a run without the columns or histories asked for.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> found = sr.stresses(plan, histories=300, rng=7)
    >>> found["Fuel 50 in 100 dearer"].difference.value < 0.0
    True
    """
    base = None
    if isinstance(plan, Run):
        base = _first_of(plan, histories, rng=rng, key=key)
        plan, histories, drawn = base.plan, base.histories, base.key
    else:
        require_plan(plan)
        histories = whole_number("histories", DEFAULT_HISTORIES if histories is None else histories, lowest=1, highest=MOST_HISTORIES)
        drawn = key_from(rng, key)
    at = PlanAndPeak(plan, drawn)
    fixed, none = _fixed(at)
    made = [*fixed, *((name, _why(plan, name), plan.under(name)) for name in plan.stresses)]

    def run(one: Plan, tell: Callable[[int], object] | None, n: int) -> Run:
        onward = None if tell is None else lambda done: tell(n * histories + done)
        return simulate(one, histories=histories, key=drawn, threads=threads, keep=stress_columns(one), progress=onward)

    runs_before = 1 if base is None else 0
    with progress_.shown(progress, histories * (runs_before + len(made))) as tell:
        if base is None:
            base = run(plan, tell, 0)
        found = [
            _stressed(name, how, base, run(under, tell, runs_before + n), own=n >= len(fixed)) for n, (name, how, under) in enumerate(made)
        ]
    return Stresses(plan, _stressed("as it is", "", base, base), tuple(found), tuple(none), at.found_peak, histories, drawn)


def _first_of(run: Run, histories: int | None, *, rng: Rng, key: int | None) -> Run:
    """The first histories of a run: what a shorter run would have been."""
    for name, given in (("rng", rng), ("key", key)):
        if given is not None:
            raise ValueError(f"{name}={given!r}: a run has its own; leave it out, or give the plan instead")
    require_columns(run, stress_columns(run.plan), "lender_columns(plan)")
    if run.facts.stream_version != _core.stream_version:
        raise ValueError(f"stream_version={run.facts.stream_version}: this version ({_core.stream_version}) would draw others; simulate the plan anew")
    wanted = max(run.histories // 2, min(run.histories, 1_000)) if histories is None else histories
    first = whole_number("histories", wanted, lowest=1, highest=run.histories)
    return Run(run.plan, {run.column(name): run[name][:first] for name in stress_columns(run.plan)}, run.facts)


def _fixed(at: PlanAndPeak) -> tuple[list[tuple[str, str, Plan]], list[tuple[str, str]]]:
    """Those that apply, each with how it was made and the plan under it; and why the others do not."""
    made, none = [], []
    for name, make in FIXED.items():
        try:
            stress = make(at)
            made.append((name, stress.how, stress.plan_of(at.plan)))
        except DoesNotApply as why:
            none.append((name, str(why)))
        except PlanError as error:
            none.append((name, f"the plan is not sound with it: {error.findings[0].message}"))
    return made, none


def _why(plan: Plan, stress: str) -> str:
    return text_at(plan, f"stress.{plan.stresses.index(stress)}.why").removesuffix(".") or "as the plan says"


def stress_columns(plan: Plan) -> list[str]:
    """Columns of each run that are looked at."""
    return list(dict.fromkeys([*coverage_columns(plan), *RUNGS]))


def _stressed(name: str, how: str, base: Run, run: Run, *, own: bool = False) -> Stressed:
    found = coverage(run)
    difference = Estimate.of(_core.mean_difference(base["household"], run["household"]), unit=run.money)
    return Stressed(
        name, how, run.plan, {rung: run.chance(rung) for rung in (*RUNGS, "cash_room")}, found.missed, found.worst_year, difference,
        run.quantile("lowest_cash", 0.5), run.quantile("lowest_cash", 0.1), own,
    )  # fmt: skip
