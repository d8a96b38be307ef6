# SPDX-License-Identifier: MIT
"""More pots, or fewer: what a pot catches once they lie longer and crowd each other, and how soon they are paid back."""

from __future__ import annotations

import numpy as np

from seasonrisk import _core
from seasonrisk.choice.compared import MorePots
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.words import boats_of, seasons_of

__all__ = ["already_paid", "more_pots"]

SPENT = "business.spend_now"


def already_paid(plan: Plan, choice: Plan) -> Plan | None:
    """The choice in a season that no longer pays for its pots; None when it adds none, or spends nothing now for them."""
    if boats_of(plan) != boats_of(choice) or sum(pots_by_boat(choice)) <= sum(pots_by_boat(plan)):
        return None
    return choice.choose({SPENT: typical(plan, SPENT)}) if spent_now(plan, choice) > 0.0 else None


def more_pots(base: Run, run: Run, paid: Run | None = None) -> MorePots | None:
    """What the pots that the second run has more of, or fewer, do; None unless the same boats have another number of pots.

    ``paid`` is the run of `already_paid`, where there is one: what pots cost once must not be taken off what they bring
    a year, and then be held against it.
    """
    if boats_of(base.plan) != boats_of(run.plan):
        return None
    before, after = pots_by_boat(base.plan), pots_by_boat(run.plan)
    pots, had = sum(after) - sum(before), sum(before)
    if pots == 0.0 or had == 0.0:
        return None
    years = len(seasons_of(run.plan))
    later = run if paid is None else paid
    gain = np.ascontiguousarray((later["household"] - base["household"]) / years)
    yearly = Estimate.of(_core.mean_difference(np.zeros(run.histories), gain), unit=run.money)
    cost = cost_of_added(run.plan, before, after) if paid is None else spent_now(base.plan, run.plan)
    pays = cost is not None and yearly.low > 0.0
    payback = Estimate.of(_core.ratio_of_means(np.full(run.histories, cost), gain), unit="seasons") if pays else None
    catch = []
    for name in (e for e in base.columns if e.startswith("catch.") and e.count(".") == 1):
        unit = base.column(name).unit
        per_pot = [Estimate.of(_core.mean(np.ascontiguousarray(r[name] / years / p)), unit=unit) for r, p in ((base, had), (run, had + pots))]
        added = Estimate.of(_core.mean_difference(*(np.ascontiguousarray(r[name] / years / pots) for r in (base, run))), unit=unit)
        catch.append((name.removeprefix("catch."), unit, *per_pot, added))
    return MorePots(pots, tuple(catch), cost, payback, yearly, paid is not None)  # type: ignore[arg-type]


def spent_now(plan: Plan, choice: Plan) -> float:
    """Money that the choice spends once at the start, more than the plan."""
    return typical(choice, SPENT) - typical(plan, SPENT)


def pots_by_boat(plan: Plan) -> list[float]:
    """Pots of each boat: those of her first pot fishery, as bills are counted; the typical number of a guess."""
    found = []
    for b in range(len(boats_of(plan))):
        fisheries = (e.path.removesuffix(".gear") for e in plan.entries if e.path.startswith(f"boat.{b}.fishery.") and e.path.endswith(".gear") and e.value == "pots")
        first = next(fisheries, None)
        found.append(0.0 if first is None else typical(plan, f"{first}.count"))
    return found


def cost_of_added(plan: Plan, before: list[float], after: list[float]) -> float | None:
    """Money for the pots that boats have more of; None when none has more or a cost is not in the plan."""
    cost = 0.0
    for b, (had, has) in enumerate(zip(before, after, strict=True)):
        if has <= had:
            continue
        path = f"boat.{b}.gear_loss.pot_cost"
        if path not in plan:
            return None
        cost += (has - had) * typical(plan, path)
    return cost or None


def typical(plan: Plan, path: str) -> float:
    """The number at a path, or the middle of a guess; 0 for one that is left out."""
    value = plan.numbers.get(path, 0.0)
    return value if isinstance(value, float) else float(value.typical)
