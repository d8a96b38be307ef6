# SPDX-License-Identifier: MIT
"""Published odds that an account ever falls below zero, found again in the cash of real plans.

The classical risk process: money comes in at a steady rate, claims of exponential size come at random and are paid
at once. A plan says it as a catch that never differs, sold every day, and breakdowns that cost no day. Interest on
the overdraft is charged for any evening below zero, so an account was ever overdrawn when some was; month ends
alone would miss most of it.

What a plan cannot say exactly: claims in 25 slices a fifth of their mean wide (each of one size, its mean), and
evenings for moments. The day's takings are in before the claim of that evening, where the process has on average half
of them: so the account opens lower by half a day's takings. How far the published odds are from those of such a plan
was worked out apart from the engine, by a recursion over days and cash; that `left_over` is added to 4 standard errors
(a right engine fails one figure in about 16,000 with another key).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import seasonrisk as sr
from compound_plan import DAYS, compound_plan, exponential, slices
from small_plan import text

N = 30_000
KEY = 1962
ERRORS = 4.0


def cash_run(cash: float, claims: float, mean_claim: float, income: float, units: int, years: int) -> sr.Run:
    """Claims and income are for one of the units of time, which fill the years."""
    days = DAYS * years
    sizes, odds = slices(*exponential(mean_claim), np.arange(25) * mean_claim / 5.0)
    plan = compound_plan(sizes, claims * units / years * odds, years)
    takings = income * units / days
    plan["species"][0]["per_haul"] = takings / 100.0  # of 100 hauls, sold at 1
    plan["business"].update(opening_cash=cash - takings / 2.0, overdraft_rate_fraction=0.01)
    by_year = [f"overdraft_interest.{2027 + y}" for y in range(years)]
    keep = ["overdraft_interest", "cash_room", *by_year]
    return sr.simulate(sr.Plan.parse(text(plan)), histories=N, key=KEY, keep=keep)


def tolerance(odds: float, left_over: float) -> float:
    return left_over + ERRORS * math.sqrt(odds * (1.0 - odds) / N)


# Quantlet help page INSexactexpfin (Mista 2003), formula Asmussen 1984: 5 claims of mean 5 a year, income 32.5; odds of
# ruin within 1, 2 ... 10 years.
FINITE = {
    1.0: [0.61081, 0.66798, 0.69145, 0.70424, 0.71219, 0.71752, 0.72128, 0.72403, 0.72610, 0.72769],
    5.0: [0.44703, 0.51928, 0.55066, 0.56815, 0.57916, 0.58660, 0.59189, 0.59577, 0.59869, 0.60094],
}


@pytest.mark.parametrize("cash", FINITE)
def test_odds_of_an_overdrawn_account_within_so_many_years(cash: float) -> None:
    """RUIN-04. Control: month ends see fewer of them."""
    run = cash_run(cash, claims=5.0, mean_claim=5.0, income=32.5, units=10, years=10)

    ruined = np.zeros(N, dtype=bool)
    for year, published in enumerate(FINITE[cash]):
        ruined |= run[f"overdraft_interest.{2027 + year}"] > 0.0
        assert ruined.mean() == pytest.approx(published, abs=tolerance(published, left_over=0.0009))
    assert 1.0 - run.chance("cash_room").value < FINITE[cash][-1] - 2.0 * tolerance(FINITE[cash][-1], left_over=0.0009)


@pytest.mark.parametrize(
    ("cash", "published", "left_over"),
    [(0.0, 0.6, 0.0034), (1000.0, 0.0812, 0.0007), (2000.0, 0.01099, 0.0008)],
)
def test_odds_of_an_account_that_is_ever_overdrawn(cash: float, published: float, left_over: float) -> None:
    """RUIN-01: 3 claims of mean 200 for an income of 1,000: 0.6 exp(-cash / 500), whatever the time.

    Source: Dutang, Goulet & Pigeon, risk vignette of the R package actuar, section 7, in money 1,000 times larger.
    After 14 times 1,000 of income hardly any is left to come; it is in the left-over too.
    """
    run = cash_run(cash, claims=3.0, mean_claim=200.0, income=1000.0, units=14, years=10)

    ruined = run["overdraft_interest"] > 0.0
    assert ruined.mean() == pytest.approx(published, abs=tolerance(published, left_over))
