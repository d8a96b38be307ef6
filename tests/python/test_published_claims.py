# SPDX-License-Identifier: MIT
"""Published figures of deductibles and layers, found again in the repairs and claims of real plans.

A plan knows no exponential or Pareto repair bill, so the law is cut into slices, each a kind of breakdown with the
slice's mean as its size, and a season's repairs are a compound Poisson sum: with LOSSES a season, its mean and
variance over LOSSES are the mean and the second moment of one loss. Mean sizes are exact, for the deductible is an
edge of the slices; what the slices cost of the spread is said at each test.

Within 4 standard errors at 100,000 histories: a right engine fails one figure in about 16,000 with another key.
Source of all: Frees (ed.), Loss Data Analytics.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from compound_plan import compound_plan, exponential, insured, pareto, slices
from small_plan import text

N = 100_000
KEY = 1962
ERRORS = 4.0
LOSSES = 20.0  # mean number a season


def simulated(plan: dict[str, Any], keep: list[str]) -> Any:
    return sr.simulate(sr.Plan.parse(text(plan)), histories=N, key=KEY, keep=keep)


def error_of_mean(values: np.ndarray) -> float:
    return float(values.std() / math.sqrt(N))


def error_of_variance(values: np.ndarray) -> float:
    return error_of_mean((values - values.mean()) ** 2)


def test_a_deductible_of_100_on_exponential_losses_of_1000() -> None:
    """INS-01, example 3.4.1: per loss the insurer pays 904.837 on average, with variance 990,944.

    Losses themselves have mean 1,000 and variance 1,000,000, so only the difference that the deductible makes need
    be found, on the same losses: what is left to the owner. That tells 990,944 from 1,000,000. Slices cost of that
    difference only the spread in the two below 100, 20 of 9,056.
    """
    law = exponential(1000.0)
    sizes, odds = slices(*law, np.concatenate([[0.0, 50.0], 100.0 * 1.35 ** np.arange(16)]))
    run = simulated(insured(compound_plan(sizes, LOSSES * odds), 100.0), ["repairs", "claims"])
    repairs, claims = run["repairs"], run["claims"]

    left = repairs - claims
    assert left.mean() / LOSSES == pytest.approx(1000.0 - 904.837418, abs=ERRORS * error_of_mean(left) / LOSSES)
    assert claims.mean() / LOSSES == pytest.approx(904.837418, abs=ERRORS * error_of_mean(claims) / LOSSES)

    # Var(X) - Var(Y) = (E[X^2] - E[Y^2]) - (E[X]^2 - E[Y]^2); the last brackets hold published means.
    both = (repairs - repairs.mean()) ** 2 - (claims - claims.mean()) ** 2
    second_moments = both.mean() / LOSSES
    variance = 1_000_000.0 - (second_moments - (1000.0**2 - 904.837418**2))
    tolerance = ERRORS * error_of_mean(both) / LOSSES + 20.0
    assert variance == pytest.approx(990_944.0, abs=tolerance)
    assert tolerance < 0.5 * (1_000_000.0 - 990_944.0)


def test_losses_of_a_pareto_law_capped_at_5000() -> None:
    """INS-04, example 3.4.6: of Pareto(5, 3,600) losses an insurer bears 85 in 100 up to 5,000: 741.5103 on average;
    without the cap his spread is 987.6108.

    No policy of a plan has a cap or bears a share of a loss. The owner's part beside a deductible of 5,000 is the
    loss capped at 5,000, so the published figures are 85 in 100 of the owner's mean and of the spread of a loss.
    The slices, each a fifth wider than the one below, cost 3.1 of the spread.
    """
    law = pareto(5.0, 3600.0)
    edges = np.concatenate([[0.0], 5000.0 * 1.2 ** np.arange(-20, 10)])
    sizes, odds = slices(*law, edges)
    run = simulated(insured(compound_plan(sizes, LOSSES * odds), 5000.0), ["repairs", "claims"])
    repairs, left = run["repairs"], run["repairs"] - run["claims"]

    assert 0.85 * left.mean() / LOSSES == pytest.approx(741.5103, abs=ERRORS * 0.85 * error_of_mean(left) / LOSSES)
    mean, second_moment = 900.0, repairs.var() / LOSSES  # mean: theta / (alpha - 1)
    assert repairs.mean() / LOSSES == pytest.approx(mean, abs=ERRORS * error_of_mean(repairs) / LOSSES)
    spread = 0.85 * math.sqrt(second_moment - mean**2)
    error = 0.85**2 * error_of_variance(repairs) / LOSSES / (2.0 * spread)
    assert spread == pytest.approx(987.6108, abs=ERRORS * error + 3.1)
    assert 0.85 * repairs.mean() / LOSSES > 741.5103 + 2.0 * ERRORS * error_of_mean(repairs) / LOSSES  # the cap is seen


@pytest.mark.parametrize("rough", [False, True], ids=["Poisson", "more spread than Poisson"])
def test_fewer_claims_pay_when_the_deductible_rises(rough: bool) -> None:
    """INS-16, examples 5.5.2 and 5.5.3: losses of a Pareto(4, 150) law; when 0.4 a season pay over a deductible of
    30, 0.1075 pay over 100, whatever the law of their number.

    The book's second law, negative binomial, has no place in a plan; fishing days that come in good and bad years
    spread the number of losses too (breakdowns come on days out), and the mean must stay.
    """
    law = pareto(4.0, 150.0)
    sizes, odds = slices(*law, np.array([0.0, 30.0, 60.0, 100.0, 200.0]))
    losses = 0.4 / float(law[0](np.array(30.0)))
    plan = insured(compound_plan(sizes, (2.0 if rough else 1.0) * losses * odds), 30.0)
    if rough:
        plan["weather"] = {"unfishable_fraction": 0.5, "year_sd": 2.0}
    plan["choice"] = [{"name": "Bear more", "set": {"boat.0.insurance.deductible": 100.0}}]
    plan_read = sr.Plan.parse(text(plan))
    paid, paid_over_100 = (
        sr.simulate(p, histories=N, key=KEY, keep=["claims_paid"])["claims_paid"]
        for p in (plan_read, plan_read.choose("Bear more"))
    )

    assert paid.mean() == pytest.approx(0.4, abs=ERRORS * error_of_mean(paid))
    assert paid_over_100.mean() == pytest.approx(0.1075, abs=5e-5 + ERRORS * error_of_mean(paid_over_100))
    assert (paid_over_100 <= paid).all()
    excess = paid.var() - paid.mean()  # 0 of a Poisson count
    if rough:
        assert excess > 2.0 * ERRORS * error_of_variance(paid)
    else:
        assert abs(excess) < ERRORS * error_of_variance(paid)
