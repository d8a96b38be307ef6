# SPDX-License-Identifier: MIT
"""What is asked to be compared, as plans with names."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from seasonrisk.plan import Plan
from seasonrisk.values import Value, toml_text
from seasonrisk.words import seasons_of

__all__ = ["Choice", "Chosen", "chosen_plans"]

Choice: TypeAlias = "str | Mapping[str, Value | None] | Plan"

OWN_POTS = (
    "A plan of its own, not a choice made from this one: crowding and gear loss are counted against its own pots, so pots that it has more "
    "of do not crowd each other. Plan.choose makes a choice of it."
)


@dataclass(frozen=True)
class Chosen:
    """A choice made: its name, why, the plan with it, and what a reader must know."""

    name: str
    why: str
    plan: Plan
    notes: tuple[str, ...]


def chosen_plans(plan: Plan, choices: object) -> list[Chosen]:
    """The choices asked for, in order; all choices of the plan for None.

    Raises
    ------
    KeyError
        When the plan has no choice of that name.
    ValueError, TypeError
        When there is none, two have one name, or one is of a kind that cannot be meant.
    """
    if choices is None:
        choices = list(plan.choices)
        if not choices:
            raise ValueError("choices=None: the plan has no [[choice]]; name values by key path, such as {\"boat.0.fishery.0.count\": 520}")
    asked = [choices] if isinstance(choices, str | Mapping | Plan) else choices
    if not isinstance(asked, Sequence) or isinstance(asked, bytes):
        raise TypeError(f"choices={choices!r}: must be names of the plan's choices, values by key path, plans, or a list of these")
    if not asked:
        raise ValueError(f"choices={choices!r}: names no choice; leave it out for all of the plan")
    found = [_chosen(plan, one) for one in asked]
    names = [one.name for one in found]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise ValueError(f"choices: two are named {twice!r}; give one as a pair of a name and the choice")
    return found


def _chosen(plan: Plan, asked: object) -> Chosen:
    name = ""
    if isinstance(asked, tuple) and len(asked) == 2 and isinstance(asked[0], str):
        name, asked = asked
    if isinstance(asked, str):
        return Chosen(name or asked, _why(plan, asked), plan.choose(asked), ())
    if isinstance(asked, Mapping):
        if not asked:
            raise ValueError("choices: a mapping without values changes nothing; name a key path")
        return Chosen(name or ", ".join(map(_change, asked.items())), "", plan.choose(asked), ())
    if isinstance(asked, Plan):
        return _other_plan(plan, asked, name)
    raise TypeError(f"choices: {asked!r} is no name of a choice, no values by key path and no Plan")


def _change(change: tuple[str, Value | None]) -> str:
    path, value = change
    return f"without {path}" if value is None else f"{path} = {toml_text(value)}"


def _why(plan: Plan, choice: str) -> str:
    at = f"choice.{plan.choices.index(choice)}.why" if choice in plan.choices else ""
    return str(plan[at]) if at in plan else ""


def _other_plan(plan: Plan, other: Plan, name: str) -> Chosen:
    if other.money != plan.money:
        raise ValueError(f"choices: {other.name!r} counts in {other.money}, the plan in {plan.money}; only one money can be compared")
    if seasons_of(other) != seasons_of(plan):
        raise ValueError(f"choices: {other.name!r} has the seasons {seasons_of(other)}, the plan {seasons_of(plan)}; only the same years can be compared")
    changes = other.changes[len(plan.changes) :] if other.changes[: len(plan.changes)] == plan.changes else other.changes
    default = ", ".join(f"{path} = {value}" for path, value in changes) or other.name
    remembers = bool(other._chosen)  # made by choose: it knows the pots of the plan before
    return Chosen(name or default, "", other, () if remembers else (OWN_POTS,))
