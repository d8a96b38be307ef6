# SPDX-License-Identifier: MIT
"""Premium against deductible: how many claims a year would eat what a higher deductible saves."""

from __future__ import annotations

from seasonrisk.choice.compared import PolicyChange
from seasonrisk.plan import Plan
from seasonrisk.words import boats_of

__all__ = ["policy_changes"]


def policy_changes(base: Plan, choice: Plan) -> tuple[PolicyChange, ...]:
    """Of each boat whose deductible and premium go opposite ways, both known numbers; empty where there is none."""
    found = []
    for name in boats_of(base):
        if name not in boats_of(choice):
            continue
        at = [(plan, f"boat.{boats_of(plan).index(name)}.insurance.") for plan in (base, choice)]
        numbers = [plan.numbers.get(path + key) for key in ("premium", "deductible") for plan, path in at]
        known = [number for number in numbers if isinstance(number, float)]
        if len(known) < 4:
            continue
        premium, new_premium, deductible, new_deductible = known
        saved, more = premium - new_premium, new_deductible - deductible
        if saved * more > 0.0:
            found.append(PolicyChange(name, saved, more))
    return tuple(found)
