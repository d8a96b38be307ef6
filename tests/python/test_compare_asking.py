# SPDX-License-Identifier: MIT
"""What may be asked to be compared, and what is refused and how. Source: common practice for arguments."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
import seasonrisk as sr

PLANS = Path(__file__).resolve().parents[2] / "examples/plans"
KEY = 20270601


@cache
def plan_of(stem: str) -> sr.Plan:
    return sr.Plan.read(PLANS / f"{stem}.toml")


# -------------------------------------------------------------------------------------------------- what is asked


def test_choices_are_names_values_plans_or_pairs() -> None:
    plan = plan_of("two_boats_whelk")
    values = {"boat.0.fishery.0.count": 600}
    found = sr.compare(plan, [plan.choices[0], values, ("six hundred", plan.replace(values))], histories=200, key=KEY)

    assert [choice.name for choice in found] == [plan.choices[0], "boat.0.fishery.0.count = 600", "six hundred"]
    assert [bool(choice.notes) for choice in found] == [False, False, True]
    assert "its own pots" in found["six hundred"].notes[0]
    # Against its own pots nothing crowds: the plan of its own catches more than the choice of the same pots.
    assert found["six hundred"].rungs["running"].mean.value > found["boat.0.fishery.0.count = 600"].rungs["running"].mean.value
    assert found["boat.0.fishery.0.count = 600"].why == ""
    with pytest.raises(KeyError, match="choice=nothing: was not compared; these were"):
        found["nothing"]


def test_left_out_all_choices_of_the_plan_are_compared() -> None:
    plan = plan_of("two_boats_whelk")
    assert tuple(choice.name for choice in sr.compare(plan, histories=10, key=KEY)) == plan.choices


@pytest.mark.parametrize(
    ("choices", "error", "says"),
    [
        ("Moor pots", KeyError, "choice=Moor pots: the plan has no such choice"),
        ([], ValueError, "names no choice"),
        ({}, ValueError, "a mapping without values changes nothing"),
        ([{"boat.0.fishery.0.count": 450}, {"boat.0.fishery.0.count": 450}], ValueError, "two are named"),
        (7, TypeError, "choices=7: must be names"),
        (b"More", TypeError, "must be names"),
        ([7], TypeError, "7 is no name of a choice"),
        ({"boat.0.fishery.0.count": -4}, sr.PlanError, "boat.0.fishery.0.count = -4"),
    ],
)
def test_choices_that_cannot_be_meant_are_refused_by_name(choices: object, error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=re.escape(says)):
        sr.compare(plan_of("one_boat"), choices, histories=10, key=1)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("name", "value"),
    [("histories", 0), ("indifference", 0.0), ("indifference", "500"), ("largest_loss", -1.0), ("key", -1), ("threads", 5000)],
)
def test_arguments_outside_their_range_are_refused_by_name(name: str, value: object) -> None:
    options = {"histories": 10, "key": 1, name: value}
    with pytest.raises(ValueError, match=rf"{name}="):
        sr.compare(plan_of("two_boats_whelk"), **options)  # type: ignore[arg-type]


def test_what_is_no_plan_and_a_plan_without_choices_are_refused() -> None:
    with pytest.raises(TypeError, match="must be a Plan"):
        sr.compare("one_boat", histories=10)  # type: ignore[arg-type]
    with pytest.raises(ValueError, match=r"the plan has no \[\[choice\]\]"):
        sr.compare(plan_of("smallest"), histories=10)


def test_plans_in_another_money_or_of_other_years_are_refused() -> None:
    plan = plan_of("one_boat")
    with pytest.raises(ValueError, match="counts in EUR, the plan in GBP"):
        sr.compare(plan, plan.replace({"business.money": "EUR"}), histories=10)
    with pytest.raises(ValueError, match="only the same years can be compared"):
        sr.compare(plan, plan.replace({"business.years": 2}), histories=10)


def test_progress_counts_the_seasons_of_all_plans() -> None:
    told: list[int] = []
    sr.compare(plan_of("one_boat"), {"boat.0.fishery.0.count": 450}, histories=60_000, key=KEY, progress=told.append)

    assert told == sorted(told)
    assert max(told) > 60_000
    assert max(told) <= 120_000


def test_ctrl_c_in_the_second_run_passes_on() -> None:
    def stop(done: int) -> None:
        if done > 100_000:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        sr.compare(plan_of("one_boat"), {"boat.0.fishery.0.count": 450}, histories=100_000, key=KEY, progress=stop)


# ------------------------------------------------------------------------------------------------------------ menu


def test_a_menu_of_values_leaves_out_the_one_the_plan_has() -> None:
    plan = plan_of("one_boat")
    has = plan["boat.0.insurance.deductible"]
    found = sr.menu(plan, "boat.0.insurance.deductible", [has, 3500, 7000], histories=300, key=KEY)

    assert [choice.name for choice in found] == ["deductible 3500", "deductible 7000"]
    direct = sr.compare(plan, {"boat.0.insurance.deductible": 7000}, histories=300, key=KEY).choices[0]
    assert found["deductible 7000"].mean == direct.mean


def test_a_menu_of_values_that_change_together_has_their_names() -> None:
    plan = plan_of("one_boat")
    items = {"lower": {"boat.0.insurance.deductible": 750, "boat.0.insurance.premium": 3900}, "no boat loan": {"loan.0.balance": 1.0}}
    found = sr.menu(plan, items, histories=300, key=KEY)

    assert [choice.name for choice in found] == ["lower", "no boat loan"]
    assert found["no boat loan"].mean.value > 0.0


@pytest.mark.parametrize(
    ("what", "values", "error", "says"),
    [
        ("boat.0.insurance.deductible", None, ValueError, "values=None: must be a list of values"),
        ("boat.0.insurance.deductible", [], ValueError, "must be a list of values"),
        ({"a": {"loan.0.balance": 1.0}}, [1.0], ValueError, "a mapping holds its values itself"),
        (5, [1.0], TypeError, "what=5"),
    ],
)
def test_menus_that_cannot_be_meant_are_refused(what: object, values: object, error: type[Exception], says: str) -> None:
    with pytest.raises(error, match=re.escape(says)):
        sr.menu(plan_of("one_boat"), what, values, histories=10)  # type: ignore[arg-type]
