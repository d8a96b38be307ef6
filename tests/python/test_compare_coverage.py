# SPDX-License-Identifier: MIT
"""Intervals that a comparison prints cover the truth in about 95 of 100 runs, on a plan and not on made-up columns.

The truth is that of a run 400 times as long with another key, whose own error is a twentieth of the runs'. 368 to 392 of
400: a true coverage of 0.95 falls outside in 4.4 of 1,000, and the keys are fixed."""

from __future__ import annotations

from functools import cache

import pytest
import seasonrisk as sr
from small_plan import bare, text

RUNS, HISTORIES = 400, 1_000
CHANGES = {"boat.0.fishery.0.count": 130, "household.draw_per_month": 445.0}


@cache
def plan() -> sr.Plan:
    """A season whose household rung is cleared in about half, with luck of the year, of the day and of the weather."""
    plan = bare(
        weather={"unfishable_fraction": 0.3, "persistence": 0.4},
        species={"year_sd": 0.25, "day_sd": 0.3, "day_persistence": 0.5, "usual_soak_nights": 2.0, "soak_time_constant_nights": 2.0},
        boat={"gear_loss": {"season_fraction": 0.1, "pot_cost": 30.0, "replace": "at once"}},
        household={"draw_per_month": 430.0},
    )
    plan["boat"][0]["fishery"][0]["elasticity"] = 0.7
    return sr.Plan.parse(text(plan))


def found(key: int, histories: int) -> dict[str, sr.Estimate]:
    choice = sr.compare(plan(), CHANGES, histories=histories, key=key, threads=1).choices[0]
    change = choice.rungs["household"]
    names = ("mean", "chance", "gained", "better", "bad", "middling", "good", "worst_tenth", "choice_chance")
    estimates = {name: getattr(change, name) for name in names}
    assert choice.pots is not None
    assert choice.pots.payback_seasons is not None
    ((_, _, before, after, added),) = choice.pots.catch
    return {**estimates, "payback": choice.pots.payback_seasons, "a pot": before, "a pot after": after, "a pot added": added}


@cache
def covered() -> dict[str, int]:
    truth = {name: estimate.value for name, estimate in found(1, RUNS * HISTORIES).items()}
    counts = dict.fromkeys(truth, 0)
    for run in range(RUNS):
        for name, estimate in found(1_000 + run, HISTORIES).items():
            counts[name] += estimate.low <= truth[name] <= estimate.high
    return counts


def test_the_plan_has_luck_that_the_choice_changes() -> None:
    estimates = found(1, 4_000)

    assert 0.2 < estimates["choice_chance"].value < 0.8
    assert 0.02 < estimates["gained"].value < 0.5
    assert 0.05 < estimates["better"].value < 0.99


@pytest.mark.parametrize(
    "name", ["mean", "chance", "gained", "better", "bad", "middling", "good", "worst_tenth", "payback", "a pot", "a pot after", "a pot added"]
)
def test_the_interval_covers_the_truth(name: str) -> None:
    print(f"\n{name}: {covered()[name]} of {RUNS}")
    assert 0.92 * RUNS <= covered()[name] <= 0.98 * RUNS


def test_an_error_of_half_the_size_would_be_seen() -> None:
    """Negative control: an interval half as wide covers 67 in 100 (2 Phi(0.98) - 1), far below the 92 asked."""
    truth, halves = found(1, RUNS * HISTORIES)["mean"].value, 0
    for run in range(100):
        mean = found(1_000 + run, HISTORIES)["mean"]
        halves += abs(mean.value - truth) <= 0.98 * mean.standard_error
    assert halves < 85
