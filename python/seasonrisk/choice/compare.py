# SPDX-License-Identifier: MIT
"""Two or more plans, season by season under the same luck."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping, Sequence
from typing import TypeAlias

import numpy as np

from seasonrisk import _core, progress as progress_
from seasonrisk.checks import amount, whole_number
from seasonrisk.choice.boats import boat_shares, new_boat, worth_unknown
from seasonrisk.choice.caution import caution_of
from seasonrisk.choice.choosing import Choice, Chosen, chosen_plans
from seasonrisk.choice.compared import Compared, Comparison, Hours, RungChange, TwoBadYears
from seasonrisk.choice.more_pots import already_paid, more_pots
from seasonrisk.choice.policies import policy_changes
from seasonrisk.engine import MOST_HISTORIES, Rng, key_from, require_plan, simulate
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.values import Value
from seasonrisk.words import FEW, RUNGS, seasons_of
from seasonrisk.words_compare import seen

__all__ = ["compare", "menu"]

Tell: TypeAlias = "Callable[[int], object] | None"


def compare(
    plan: Plan,
    choices: Choice | Sequence[Choice | tuple[str, Choice]] | None = None,
    *,
    histories: int = 10_000,
    rng: Rng = None,
    key: int | None = None,
    indifference: float | None = None,
    largest_loss: float | None = None,
    threads: int = 0,
    progress: progress_.Progress = None,
) -> Comparison:
    """Compare choices with a plan as it is: each meets the same weather, catch, prices and breakdowns.

    Parameters
    ----------
    plan : Plan
    choices : str, mapping, Plan, or sequence of them
        Names of choices written in the plan, values by key path, or plans made with `Plan.replace`; a pair of a name
        and one of these gives it that name. Left out, all choices of the plan.
    histories : int
        How many seasons, for each of them.
    rng, key
        As in `simulate`.
    indifference : float, optional
        Money of a season, or of a whole run of several: choices that surely differ by less are equal for you.
    largest_loss : float, optional
        The largest loss of a season (or of a run) that you would take at 1 chance in 20: adds what each choice is worth
        to an owner so cautious, beside money and chances.
    threads : int
        0 for as many as this process may use.
    progress : None, bool or callable
        As in `simulate`; counts the seasons of all plans.

    Returns
    -------
    Comparison

    Raises
    ------
    KeyError
        When the plan has no choice of that name.
    PlanError
        When the plan with a choice has problems.
    ValueError, TypeError
        For an argument outside its range or of a kind that cannot be meant, named with what is allowed.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> found = sr.compare(plan, {"boat.0.fishery.0.count": 520}, histories=1000, rng=7)
    >>> found.choices[0].rungs["household"].mean.n
    1000
    """
    require_plan(plan)
    asked = chosen_plans(plan, choices)
    histories = whole_number("histories", histories, lowest=1, highest=MOST_HISTORIES)
    if indifference is not None:
        indifference = amount("indifference", indifference, above=0.0)
    if largest_loss is not None:
        largest_loss = amount("largest_loss", largest_loss, above=0.0)
    drawn = key_from(rng, key)

    compared: list[Compared] = []
    household: dict[str, np.ndarray] = {}
    without_cost = [already_paid(plan, choice.plan) for choice in asked]
    n_plans = 1 + len(asked) + sum(paid is not None for paid in without_cost)
    with progress_.shown(progress, histories * n_plans) as tell:
        done = itertools.count(0, histories)

        def run_of(one: Plan) -> Run:
            return _run(one, histories, drawn, threads, tell, next(done))

        base = run_of(plan)
        for choice, later in zip(asked, without_cost, strict=True):
            run = run_of(choice.plan)
            compared.append(_compared(base, run, choice, None if later is None else run_of(later)))
            if largest_loss is not None:
                household[choice.name] = run["household"]
    caution = None if largest_loss is None else caution_of(base["household"], household, largest_loss, plan.money)
    return Comparison(plan, tuple(compared), base.facts, base.histories, boat_shares(base), indifference, caution)


def menu(
    plan: Plan,
    what: str | Mapping[str, Mapping[str, Value | None]],
    values: Sequence[Value] | None = None,
    *,
    histories: int = 10_000,
    rng: Rng = None,
    key: int | None = None,
    indifference: float | None = None,
    largest_loss: float | None = None,
    threads: int = 0,
    progress: progress_.Progress = None,
) -> Comparison:
    """Compare several values of one number of a plan, or several sets of values that change together.

    Parameters
    ----------
    plan : Plan
    what : str or mapping
        A key path, with ``values`` for it; or, by name, the values by key path of each item on the menu: a deductible
        with its premium, the terms of a loan, pay by share or by the day, an engine rebuilt.
    values : sequence of values
        In the unit of the key. One that the plan has already is left out: it is the plan as it is.
    histories, rng, key, indifference, largest_loss, threads, progress
        As in `compare`.

    Returns
    -------
    Comparison

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> found = sr.menu(plan, "boat.0.insurance.deductible", [1500, 3500], histories=1000, rng=7)
    >>> [choice.name for choice in found]
    ['deductible 3500']
    """
    require_plan(plan)
    items: list[tuple[str, Choice]]
    if isinstance(what, str):
        if values is None or isinstance(values, str) or not isinstance(values, Sequence) or not values:
            raise ValueError(f"values={values!r}: must be a list of values for {what}")
        short = what.rsplit(".", 1)[-1]
        items = [(f"{short} {_plain(value)}", {what: value}) for value in values if what not in plan or plan[what] != value]
        if not items:
            raise ValueError(f"values={values!r}: {what} is that already in the plan")
    elif isinstance(what, Mapping):
        if values is not None:
            raise ValueError("values: goes with a key path; a mapping holds its values itself")
        items = [(str(name), changes) for name, changes in what.items()]
    else:
        raise TypeError(f"what={what!r}: must be a key path, or values by key path under a name for each item")
    return compare(
        plan, items, histories=histories, rng=rng, key=key, indifference=indifference, largest_loss=largest_loss, threads=threads, progress=progress
    )  # fmt: skip


def _plain(value: Value) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _columns(plan: Plan) -> list[str]:
    """Columns that a comparison looks at, as far as this plan has them."""
    steps = {column for column, _, _ in _core.money_steps()}
    years = {f"loan.{year}" for year in seasons_of(plan)}
    first_parts = ("catch.", "contribution.", "after_own_loan.", "loan_payments.")
    return [
        info.name
        for info in _core.columns_of(plan._core)
        if info.name in steps or info.name in RUNGS or info.name in years or info.name in ("cash_room", "end_position", "hours") or info.name.startswith(first_parts)
    ]


def _run(plan: Plan, histories: int, key: int, threads: int, tell: Tell, done_before: int) -> Run:
    onward = None if tell is None else lambda done: tell(done_before + done)
    return simulate(plan, histories=histories, key=key, threads=threads, keep=_columns(plan), progress=onward)


def _compared(base: Run, run: Run, choice: Chosen, paid: Run | None) -> Compared:
    found = _core.compare(dict(base._values), dict(run._values))
    money = base.money
    rungs = {name: RungChange.of(change, money) for name, change in found.rungs}
    two = found.two_bad_years
    twice = None if two is None else TwoBadYears(*(Estimate.of(one, "chance") for one in (two.base, two.choice, two.difference)))
    assert found.end_position is not None  # always kept, see _columns
    bought = new_boat(base, run)
    notes = choice.notes if bought is None else (*choice.notes, *worth_unknown(choice.plan))
    return Compared(
        name=choice.name,
        why=choice.why,
        plan=choice.plan,
        rungs=rungs,
        end_position=Estimate.of(found.end_position, unit=money),
        two_bad_years=twice,
        steps=tuple((name, Estimate.of(step, unit=money)) for name, step in found.steps),
        boats=boat_shares(run),
        new_boat=bought,
        pots=more_pots(base, run, paid),
        policies=policy_changes(base.plan, run.plan),
        notes=notes,
        hours=_hours(base, run),
        differences={name: run[name] - base[name] for name in rungs},
    )


def _hours(base: Run, run: Run) -> Hours | None:
    """None when hours are in neither plan, or do not differ as far as these histories can tell."""
    if "hours" not in base or "hours" not in run:
        return None
    more = Estimate.of(_core.mean_difference(base["hours"], run["hours"]), unit="hours")
    if more.n <= FEW or not seen(more):
        return None
    left = np.ascontiguousarray(run["household"] - base["household"])
    an_hour = _core.ratio_of_means(left, np.ascontiguousarray(run["hours"] - base["hours"]))
    return Hours(more, Estimate.of(an_hour, unit=f"{run.money} an hour"))
