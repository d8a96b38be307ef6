# SPDX-License-Identifier: MIT
"""A boat by herself, and a second boat beside the first: she may pay her own loan and leave the business no better off."""

from __future__ import annotations

import numpy as np

from seasonrisk import _core
from seasonrisk.choice.compared import BoatShare, NewBoat
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.words import boats_of

__all__ = ["boat_shares", "new_boat", "worth_unknown"]


def boat_shares(run: Run) -> tuple[BoatShare, ...]:
    """Each boat of a run by herself; empty for one boat, whose business is the boat."""
    found = []
    for name in boats_of(run.plan):
        if f"contribution.{name}" not in run:
            return ()
        has_loan = bool(run[f"loan_payments.{name}"].any())
        found.append(
            BoatShare(
                name,
                run.mean(f"contribution.{name}"),
                run.mean(f"after_own_loan.{name}"),
                run.chance(f"after_own_loan.{name}") if has_loan else None,
            )
        )
    return tuple(found)


def worth_unknown(plan: Plan) -> tuple[str, ...]:
    """A note for each boat that a loan is secured on although she is no asset: the end position counts the one alone."""
    assets = {str(e.value) for e in plan.entries if e.path.startswith("asset.") and e.path.endswith(".name")}
    secured = {str(e.value) for e in plan.entries if e.path.startswith("loan.") and e.path.endswith(".secured_on")}
    return tuple(
        f"{name} is no [[asset]] of the plan: at the end the loan on her is counted and her worth is not."
        for name in boats_of(plan)
        if name in secured - assets
    )


def new_boat(base: Run, run: Run) -> NewBoat | None:
    """What boats that only the second run has, or has no more, do to the business; None when both have the same."""
    come = tuple(name for name in boats_of(run.plan) if name not in boats_of(base.plan))
    gone = tuple(name for name in boats_of(base.plan) if name not in boats_of(run.plan))
    with_them, names, sign = (run, come, 1.0) if come else (base, gone, -1.0)
    if not names or f"contribution.{names[0]}" not in with_them:
        return None
    nothing = np.zeros(run.histories)

    def step(without: np.ndarray, with_it: np.ndarray) -> Estimate:
        return Estimate.of(_core.mean_difference(np.ascontiguousarray(without), np.ascontiguousarray(with_it)), unit=run.money)

    theirs = sum((sign * with_them[f"contribution.{name}"] for name in names), start=nothing)
    steps = [
        (f"{' and '.join(names)}: sales less her own costs and bills", step(nothing, theirs)),
        (f"the rest of the business {'beside' if come else 'without'} her", step(base["standing"], run["standing"] - theirs)),
    ]
    for words, column, takes in (
        ("loan payments", "loan_payments", True), ("overdraft interest", "overdraft_interest", True),
        ("tax", "tax", True), ("household draw", "draw", True), ("other income", "other_income", False),
    ):  # fmt: skip
        steps.append((words, step(run[column], base[column]) if takes else step(base[column], run[column])))
    return NewBoat(names, not come, tuple(steps))
