# SPDX-License-Identifier: MIT
"""Words and digits. Source of the rules: the written printing rule (a number is rounded to the smallest 1, 2 or 5
times a power of ten that is not below its error; "72 in 100" only when it is sure to a point); cases from memory."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import seasonrisk as sr
from hypothesis import given, strategies as st
from seasonrisk import words
from seasonrisk.estimate import rounded, rounded_up, step_for
from seasonrisk.words import chance_text
from small_plan import bare, text


def chance(p: float, n: int = 10_000, *, exact: bool = False) -> sr.Estimate:
    error = math.sqrt(p * (1.0 - p) / n)
    return sr.Estimate(p, error, p - 2.0 * error, p + 2.0 * error, n, exact, "chance")


@given(st.floats(min_value=1e-6, max_value=1e9))
def test_the_step_is_the_smallest_of_1_2_5_not_below_the_error(error: float) -> None:
    steps = sorted(digit * 10.0**k for k in range(-7, 11) for digit in (1.0, 2.0, 5.0))
    step = step_for(error)

    assert any(math.isclose(step, s, rel_tol=1e-9) for s in steps)
    assert step >= error * (1.0 - 1e-9)
    below = max((low for low, high in pairwise(steps) if math.isclose(high, step, rel_tol=1e-9)), default=0.0)
    assert below < error * (1.0 + 1e-9)


@given(st.floats(min_value=-1e8, max_value=1e8), st.floats(min_value=1e-3, max_value=1e6))
def test_rounding_moves_a_number_by_no_more_than_half_a_step(value: float, error: float) -> None:
    shown = float(rounded(value, error).replace(",", ""))

    assert abs(shown - value) <= 0.5 * step_for(error) * (1.0 + 1e-6) + 1e-9


@pytest.mark.parametrize(
    ("value", "error", "shown"),
    [
        (12345.0, 99.0, "12,300"), (12345.0, 101.0, "12,400"), (12345.0, 201.0, "12,500"), (0.0, 5.0, "0"),
        (-0.4, 1.0, "0"), (-1250.0, 10.0, "-1,250"), (3.14159, 0.004, "3.140"), (math.nan, 1.0, "unknown"),
        (1234.0, 0.0, "1,234"), (1234.567, 0.0, "1,234.57"), (1234.0, math.nan, "1,200"),
    ],
)  # fmt: skip
def test_numbers_are_rounded_to_what_their_error_supports(value: float, error: float, shown: str) -> None:
    assert rounded(value, error) == shown


@pytest.mark.parametrize(
    ("half", "shown"),
    [(0.0, "0"), (0.71, "0.8"), (0.0951, "0.1"), (254.0, "300"), (1000.0, "1,000"), (1001.0, "2,000")],
)
def test_the_width_of_an_interval_is_never_shown_too_small(half: float, shown: str) -> None:
    assert rounded_up(half) == shown


@pytest.mark.parametrize(
    ("p", "n", "said"),
    [
        (0.72, 10_000, "72 in 100"), (0.72, 100, "about 7 in 10"), (0.02, 100, "fewer than 1 in 10"), (0.97, 100, "more than 9 in 10"),
        (0.0, 10_000, "fewer than 3 in 10,000"), (1.0, 10_000, "all but fewer than 3 in 10,000"), (0.004, 100_000, "4 in 1,000"),
        (0.9976, 100_000, "998 in 1,000"), (0.0001, 10_000, "fewer than 1 in 1,000"), (0.9999, 10_000, "more than 999 in 1,000"),
        (0.5, 2, "1 of the 2 simulated, too few to say"),
    ],
)  # fmt: skip
def test_a_chance_is_said_no_surer_than_it_is(p: float, n: int, said: str) -> None:
    assert chance_text(chance(p, n)) == said


def test_a_chance_without_luck_is_said_to_be_exact() -> None:
    assert chance_text(chance(1.0, exact=True)) == "every season (exact)"
    assert chance_text(chance(0.0, exact=True)) == "no season (exact)"


def test_an_estimate_prints_itself_with_its_unit_and_error() -> None:
    assert str(sr.Estimate(12345.6, 130.0, 12090.8, 12600.4, 10_000, unit="GBP")) == "12,400 GBP, give or take 300"
    assert str(sr.Estimate(26.0, 0.0, 26.0, 26.0, 100, exact=True, unit="days")) == "26 days exact"
    assert str(sr.Estimate(math.nan, math.nan, math.nan, math.nan, 0, unit="GBP")) == "unknown"


def test_the_first_sentence_says_chance_and_shortfall_of_the_run(run: sr.Run) -> None:
    x = run["household"]
    good = round(100.0 * np.mean(x >= 0.0))

    said = words.households_sentence(run)

    assert said.startswith(f"In {good} of 100 seasons like these the boat pays its way and the household; ")
    assert f"in the other {100 - good} it is short, on average by about " in said
    shown = float(said.split("about ")[1].split(" GBP")[0].replace(",", ""))
    assert abs(shown + x[x < 0.0].mean()) < 4.0 * run.shortfall_when_missed("household").standard_error


@pytest.mark.parametrize(
    ("draw", "says"),
    [(0.0, "the boat pays its way and the household, with"), (5000.0, "the season is short, on average by about")],
)
def test_a_plan_without_luck_is_said_to_have_none(draw: float, says: str) -> None:
    plan = bare()
    plan["household"] = {"draw_per_month": draw}
    run = sr.simulate(sr.Plan.parse(text(plan)), histories=50, key=1)

    assert words.households_sentence(run).startswith("There is no luck in these numbers: ")
    assert says in words.households_sentence(run)


def test_few_seasons_give_a_sentence_without_counts(plan: sr.Plan) -> None:
    few = words.households_sentence(sr.simulate(plan, histories=200, key=1))
    two = words.households_sentence(sr.simulate(plan, histories=2, key=1))

    assert few.startswith("In about ")
    assert two == "2 simulated seasons are too few to say how often the boat pays its way and the household."


@pytest.mark.parametrize(
    "must_say",
    ["for the skipper alone", "not financial, insurance, tax or legal advice", "only as good as the numbers", "Local rules",
     "Rest and lifejackets matter more", "not a promise"],
)  # fmt: skip
def test_the_cautions_say(must_say: str) -> None:
    assert must_say in " ".join(sr.CAUTIONS)
