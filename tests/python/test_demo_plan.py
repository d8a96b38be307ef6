# SPDX-License-Identifier: MIT
"""The demo plan is a believable season.

Source of the bounds: a rule of thumb for one boat (from memory, bracketed by measured catch rates and prices):
yearly sales spread by 15 to 30 in 100, and by less than 8 when no year differs from another. Fixed keys; the
figures lie more than ten standard errors inside the bounds, so a false alarm is out of the question.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import seasonrisk as sr

DEMO = sr.Plan.read(Path(__file__).resolve().parents[2] / "examples" / "plans" / "one_boat.toml")
NO_YEARS = {key: 0.0 for key in DEMO.numbers if key.endswith(".year_sd")}
KNOWN = {key: value.typical for key, value in DEMO.numbers.items() if isinstance(value, sr.Guess)}


def spread_of_sales(plan: sr.Plan) -> float:
    sales = sr.simulate(plan, histories=100_000, key=20270601, keep=["sales"])["sales"]
    return float(sales.std() / sales.mean())


def test_yearly_sales_spread_by_15_to_30_in_100() -> None:
    assert 0.15 < spread_of_sales(DEMO) < 0.30


def test_without_year_effects_and_guesses_a_season_is_nearly_certain() -> None:
    assert set(NO_YEARS) >= {"species.0.year_sd", "species.1.year_sd", "outlet.0.year_sd", "weather.year_sd"}
    assert len(KNOWN) >= 8

    assert 0.02 < spread_of_sales(DEMO.choose({**NO_YEARS, **KNOWN})) < 0.08


@pytest.mark.parametrize("key", ["species.0.year_sd", "outlet.0.year_sd"])
def test_one_year_effect_alone_brings_much_of_the_spread_back(key: str) -> None:
    # Control: the bound above does see a year effect.
    others = {name: value for name, value in NO_YEARS.items() if name != key}

    assert spread_of_sales(DEMO.choose({**others, **KNOWN})) > 0.08
