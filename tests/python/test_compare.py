# SPDX-License-Identifier: MIT
"""Choices compared under the same luck. Source where none is named: the definitions of the rungs, worked out here from
the columns of plain runs with the same key, and common practice for arguments."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import seasonrisk as sr
from seasonrisk import _core, summary
from seasonrisk.words_compare import difference_text

PLANS = Path(__file__).resolve().parents[2] / "examples/plans"
KEY = 20270601
CHOICES = [(path.stem, choice) for path in sorted(PLANS.glob("*.toml")) for choice in sr.Plan.read(path).choices]


@cache
def plan_of(stem: str) -> sr.Plan:
    return sr.Plan.read(PLANS / f"{stem}.toml")


@cache
def compared(stem: str) -> sr.Comparison:
    return sr.compare(plan_of(stem), histories=2_000, key=KEY)


def columns(plan: sr.Plan, histories: int = 2_000, key: int = KEY) -> sr.Run:
    return sr.simulate(plan, histories=histories, key=key, keep="all")


# ------------------------------------------------------------------------------------------------------- same luck


@pytest.mark.parametrize("stem", sorted({stem for stem, _ in CHOICES}))
def test_a_choice_that_changes_nothing_changes_no_bit_of_any_column(stem: str) -> None:
    plan = plan_of(stem)
    null = plan.choose({"boat.0.fishery.0.count": plan["boat.0.fishery.0.count"]})
    before, after = columns(plan, 500), columns(null, 500)

    assert before.columns == after.columns
    for name in before.columns:
        np.testing.assert_array_equal(before[name], after[name], err_msg=name)
    (choice,) = sr.compare(plan, null, histories=500, key=KEY)
    for change in choice.rungs.values():
        for name in ("mean", "chance", "gained", "lost", "better", "worse", "bad", "middling", "good", "worst_tenth"):
            found = getattr(change, name)
            assert (found.value, found.standard_error, found.exact) == (0.0, 0.0, True)
    assert all(step.exact and step.value == 0.0 for _, step in choice.steps)


@pytest.mark.parametrize(("stem", "name"), CHOICES)
def test_same_luck_makes_the_error_of_a_difference_smaller_than_independent_runs(stem: str, name: str) -> None:
    """Ratio of the two errors, measured with 20,000 seasons: 0.0015 (a loan's term) to 0.175 (a boat laid up half the
    year), so 6 to 700 times smaller; below 0.25 is asked. Without a whole boat half the business goes, and what is left
    shares less with it: 0.38, and below 0.45 is asked."""
    mean = compared(stem)[name].mean
    before, after = (columns(p)["household"] for p in (plan_of(stem), plan_of(stem).choose(name)))
    apart = math.hypot(before.std(ddof=1), after.std(ddof=1)) / math.sqrt(len(before))

    print(f"\n{stem}: {name}: {mean.standard_error / apart:.3f}")
    assert mean.standard_error < (0.45 if name.startswith("Without") else 0.25) * apart


def test_without_the_same_luck_the_error_would_not_be_smaller() -> None:
    """Negative control: seasons of another key differ by as much as independent ones, to 4 errors of a ratio of spreads
    (1 / sqrt(2 n) each)."""
    plan = plan_of("two_boats_whelk")
    before, after = columns(plan)["household"], columns(plan.choose("The buyer takes 2000 a day"), key=KEY + 1)["household"]
    apart = math.hypot(before.std(ddof=1), after.std(ddof=1))

    assert (after - before).std(ddof=1) / apart == pytest.approx(1.0, abs=4.0 / math.sqrt(len(before)))


# --------------------------------------------------------------------------------------------------- what it holds


@pytest.mark.parametrize(("stem", "name"), CHOICES)
def test_where_the_difference_comes_from_adds_up(stem: str, name: str) -> None:
    choice = compared(stem)[name]

    assert sum(step.value for _, step in choice.steps) == pytest.approx(choice.mean.value, abs=1e-6)


def test_the_steps_of_the_engine_are_those_of_the_page() -> None:
    here = [(column, rung, float(sign)) for rung, steps in summary.STEPS.items() for column, _, sign in steps]

    assert _core.money_steps() == here


def test_every_number_is_what_the_columns_say() -> None:
    plan = plan_of("two_boats_whelk")
    name = plan.choices[0]
    choice = compared("two_boats_whelk")[name]
    before, after = columns(plan), columns(plan.choose(name))

    for rung in (*summary.STEPS, "cash_room"):
        change, x, y = choice.rungs[rung], before[rung], after[rung]
        np.testing.assert_array_equal(choice.differences[rung], y - x)
        assert change.mean.value == pytest.approx((y - x).mean())
        assert change.mean.standard_error == pytest.approx((y - x).std(ddof=1) / math.sqrt(len(x)), abs=1e-9)
        assert change.base_chance.value == np.mean(x >= 0.0)
        assert change.choice_chance.value == np.mean(y >= 0.0)
        assert change.gained.value == np.mean((x < 0.0) & (y >= 0.0))
        assert change.lost.value == np.mean((x >= 0.0) & (y < 0.0))
        assert change.better.value == pytest.approx(np.mean(y > x), abs=2e-3)  # rounding of sums is no gain
        assert change.bad.value == pytest.approx(np.sort(y)[199] - np.sort(x)[199])
        assert change.worst_tenth.value == pytest.approx(np.sort(y)[:200].mean() - np.sort(x)[:200].mean())
    assert choice.end_position.value == pytest.approx((after["end_position"] - before["end_position"]).mean())


def test_two_bad_years_running_are_counted_over_the_years_of_each_run() -> None:
    plan = plan_of("three_boats_five_years")
    name = plan.choices[-1]
    two = compared("three_boats_five_years")[name].two_bad_years
    assert two is not None

    for found, run in ((two.base, columns(plan)), (two.choice, columns(plan.choose(name)))):
        missed = np.array([run[f"loan.{year}"] < 0.0 for year in range(2027, 2032)])
        assert found.value == np.mean((missed[1:] & missed[:-1]).any(axis=0))
    assert two.difference.value == pytest.approx(two.choice.value - two.base.value)
    assert compared("two_boats_whelk").choices[0].two_bad_years is None  # one year has no two


# -------------------------------------------------------------------------------------------------- equal for you


def test_what_surely_differs_by_less_than_you_care_is_equal_for_you() -> None:
    plan = plan_of("one_boat")
    found = sr.compare(plan, [("a little dearer", {"boat.0.standing.0.amount": plan["boat.0.standing.0.amount"] + 40})], histories=2_000, key=KEY, indifference=100.0)  # type: ignore[operator]
    mean = found.choices[0].mean

    assert -100.0 < mean.low <= mean.high < 0.0
    assert found.choices[0].equal_within(100.0)
    assert not found.choices[0].equal_within(10.0)
    assert not found.choices[0].equal_within(None)
    assert "Equal for you, for they differ from the plan as it is by less than 100 GBP: a little dearer." in " ".join(repr(found).split())


def test_choices_are_held_against_the_best_of_them_too() -> None:
    plan = plan_of("one_boat")
    bill = plan["boat.0.standing.0.amount"]
    assert isinstance(bill, float)
    choices = [(name, {"boat.0.standing.0.amount": bill - less}) for name, less in (("best", 900.0), ("nearly", 850.0), ("far", 300.0))]
    said = " ".join(repr(sr.compare(plan, choices, histories=2_000, key=KEY, indifference=100.0)).split())

    assert "Equal for you to the best of them, best: nearly." in said
    assert "Cannot be told from the best" not in said


def test_what_cannot_be_told_apart_is_said_with_the_seasons_it_would_take() -> None:
    found = sr.compare(plan_of("two_boats_whelk"), "Deductible 4000 on both boats", histories=40, key=KEY)
    mean = found.choices[0].mean
    said = " ".join(repr(found).split())

    if not found.choices[0].told_apart:
        assert "cannot be told from the plan as it is with 40 seasons" in said
    assert (abs(mean.value) < 2.0 * mean.standard_error) == ("cannot be told" in said)


@pytest.mark.parametrize(
    ("estimate", "words"),
    [
        (sr.Estimate(0.0, 0.0, 0.0, 0.0, 100, exact=True, unit="GBP"), "no difference"),
        (sr.Estimate(5.0, math.nan, math.nan, math.nan, 1, unit="GBP"), "about 5.0 GBP more, how sure is unknown"),
        (sr.Estimate(-2310.0, 90.0, -2490.0, -2130.0, 10_000, unit="GBP"), "2,300 GBP less, give or take 200"),
    ],
)
def test_a_difference_in_words(estimate: sr.Estimate, words: str) -> None:
    assert difference_text(estimate) == words


# --------------------------------------------------------------------------------------------------------- caution


def test_caution_is_worked_out_at_half_and_twice_the_tolerance() -> None:
    """Certainty equivalent by its definition, -R ln E exp(-x / R), in NumPy; R = L / ln 20 (Delquie 2008: L / 3)."""
    plan = plan_of("one_boat")
    found = sr.compare(plan, {"boat.0.insurance.deductible": 6000, "boat.0.insurance.premium": 1500}, histories=1_000, key=KEY, largest_loss=9_000.0)
    caution, choice = found.caution, found.choices[0]
    assert caution is not None
    r = 9_000.0 / math.log(20.0)
    assert caution.tolerances == pytest.approx((r / 2.0, r, 2.0 * r))
    before, after = columns(plan, 1_000)["household"], columns(choice.plan, 1_000)["household"]
    for tolerance, worth in zip(caution.tolerances, caution.worth, strict=True):
        by_hand = [-tolerance * np.log(np.mean(np.exp(-x / tolerance))) for x in (before, after)]
        assert worth[choice.name].value == pytest.approx(by_hand[1] - by_hand[0], rel=1e-9)
    page = " ".join(found.page().split())
    assert "never in their place" in page
    assert "The answer rests on the few worst of these seasons; simulate more of them, or name a larger loss." in page
    assert caution.best[0] == "cannot be said"  # a thousand seasons, and a tolerance a tenth of the worst of them

    bolder = sr.compare(plan, {"boat.0.insurance.deductible": 6000, "boat.0.insurance.premium": 1500}, histories=1_000, key=KEY, largest_loss=150_000.0)
    assert bolder.caution is not None
    said = "The advice is the same" if bolder.caution.steady else "The advice depends on it"
    assert said in " ".join(bolder.page().split())


# ----------------------------------------------------------------------------------------------------------- pages


@pytest.mark.parametrize("stem", sorted({stem for stem, _ in CHOICES}))
def test_pages_are_narrow_say_each_choice_and_end_with_the_cautions(stem: str) -> None:
    found = compared(stem)
    for text in (found.page(), repr(found)):
        assert max(map(len, text.splitlines())) <= 100
        assert all(choice.name.split(",")[0][:30] in " ".join(text.split()) for choice in found)
    assert " ".join(found.page().split()).endswith(" ".join(sr.CAUTIONS))
    assert "<table>" in found._repr_html_()
    assert len(found.to_pandas()) == len(found) + 1  # the plan as it is stands among them
