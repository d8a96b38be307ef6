# SPDX-License-Identifier: MIT
"""The engine against the NumPy season: two programs, two streams of draws, the same seasons.

Both run 100,000 histories of the demo plan. Means, standard deviations and chances must lie within 4 standard
errors of their difference: a right pair fails one of the figures below in about 16,000 with other seeds; the
seeds are fixed. The expected values are the peer's own, written from the description of the model.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import numpy_plan
import numpy_season
import pytest
import seasonrisk as sr

DEMO = (Path(__file__).resolve().parents[2] / "examples/plans/one_boat.toml").read_text(encoding="utf-8")
N = 100_000
RUNGS = ("running", "standing", "loan", "household")
COLUMNS = (
    *RUNGS,
    *("sales", "fuel", "bait", "crew_pay", "selling_costs", "repairs", "claims", "pots_lost", "tax"),
    *("days_fished", "days_broken_down", "days_weather", "closing_cash", "lowest_cash", "cash_room"),
    *(f"cash.2027-{month:02d}" for month in (3, 6, 9, 12)),
)


@pytest.fixture(scope="module")
def peer() -> dict[str, np.ndarray]:
    return numpy_season.simulate(numpy_plan.read(DEMO), N, np.random.default_rng(2027))


@pytest.fixture(scope="module")
def run() -> sr.Run:
    return sr.simulate(sr.Plan.parse(DEMO), histories=N, key=2027, keep=["all"])


def error_of_sd(x: np.ndarray) -> float:
    """Standard error of a standard deviation from the fourth moment."""
    centred = x - x.mean()
    variance = np.mean(centred**2)
    return math.sqrt(max(np.mean(centred**4) - variance**2, 0.0) / (4.0 * variance * len(x)))


@pytest.mark.parametrize("column", COLUMNS)
def test_mean_and_spread_agree(column: str, run: sr.Run, peer: dict[str, np.ndarray]) -> None:
    a, b = run[column], peer[column]

    assert a.std() > 0.0
    assert abs(a.mean() - b.mean()) <= 4.0 * math.sqrt((a.var() + b.var()) / N)
    assert abs(a.std() - b.std()) <= 4.0 * math.hypot(error_of_sd(a), error_of_sd(b))


@pytest.mark.parametrize("column", [*RUNGS, "cash_room"])
def test_chances_agree(column: str, run: sr.Run, peer: dict[str, np.ndarray]) -> None:
    p, q = run.chance(column).value, (peer[column] >= 0.0).mean()

    assert abs(p - q) <= 4.0 * math.sqrt((p * (1.0 - p) + q * (1.0 - q)) / N)


def test_the_comparison_tells_a_wrong_season(run: sr.Run) -> None:
    """Negative control: weather with a quarter less persistence leaves the mean of days, not their spread."""
    wrong = numpy_plan.read(DEMO)
    wrong["weather"]["persistence"] *= 0.75

    a, b = run["days_weather"], numpy_season.simulate(wrong, N, np.random.default_rng(5))["days_weather"]

    assert abs(a.mean() - b.mean()) <= 4.0 * math.sqrt((a.var() + b.var()) / N)
    assert abs(a.std() - b.std()) > 4.0 * math.hypot(error_of_sd(a), error_of_sd(b))
