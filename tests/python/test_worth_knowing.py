# SPDX-License-Identifier: MIT
"""What pinning down a guess is worth, on choices small enough to know. All plans are invented."""

from __future__ import annotations

import math
from statistics import NormalDist

import numpy as np
import pytest
import seasonrisk as sr
from small_plan import bare, text

KEY = 20270601
NORMAL = NormalDist()


def buyers() -> sr.Plan:
    """1 GBP a kg for sure, or a buyer whose price is a guess: 10,000 kg a season."""
    plan = bare(species={"year_sd": 0.15})
    plan["choice"] = [{"name": "the new buyer", "why": "invented", "set": {"outlet.0.price.crab": {"low": 0.8, "typical": 1.05, "high": 1.378125}}}]
    return sr.Plan.parse(text(plan), "bare")


def test_the_price_of_a_new_buyer_is_worth_what_the_log_normal_law_says() -> None:
    """E[max(1, p)] - max(1, E[p]) for p = 1.05 exp(sd z), times 10,000 kg on average: partial means of the log-normal
    (closed form; the year's catch is independent of p and has mean one)."""
    found = sr.worth_knowing(buyers(), "the new buyer", of="running", histories=40_000, key=KEY)
    sd = math.log(1.05 / 0.8) / 1.281551565545
    mean = 1.05 * math.exp(sd * sd / 2.0)
    at = math.log(1.0 / 1.05) / sd  # z below which the old buyer pays more
    truth = 10_000.0 * (NORMAL.cdf(at) + mean * (1.0 - NORMAL.cdf(at - sd)) - mean)

    (row,) = found.rows
    assert row.path == "outlet.0.price.crab"
    assert found.best_now == 1
    assert found.choices == ("the plan as it is", "the new buyer")
    assert 0.0 < row.value.standard_error < 0.05 * truth
    assert abs(row.value.value - truth) < 4.0 * row.value.standard_error + 0.01 * truth
    assert abs(row.would_change.value - NORMAL.cdf(at)) < 4.0 * row.would_change.standard_error + 0.005
    assert row.sentence("season") in found.sentences()
    assert "is worth up to about" in row.sentence("season")
    assert "it would change the choice in 41 of 100 cases" in row.sentence("season")


def test_a_guess_that_never_changes_the_choice_is_worth_nothing() -> None:
    plan = bare(species={"year_sd": 0.15})
    plan["standing"] = [{"name": "bill", "amount": {"low": 400.0, "typical": 600.0, "high": 900.0}, "month": "apr"}]
    base = sr.Plan.parse(text(plan), "bare")
    found = sr.worth_knowing(base, {"outlet.0.price.crab": 1.5}, of="standing", histories=2_000, key=KEY)

    assert found.rows[0].value.value == 0.0
    assert found.rows[0].sentence("season") == "Pinning down bill: amount is worth nothing for this choice: it would not change it."
    assert "Pinning down any one of your guesses would change nothing we can see." in repr(found)


def test_runs_of_the_same_luck_are_taken_as_they_are() -> None:
    base = buyers()
    runs = [sr.simulate(p, histories=2_000, key=KEY) for p in (base, base.choose("the new buyer"))]
    by_run = sr.worth_knowing(runs[0], [runs[1]], of="running")
    by_plan = sr.worth_knowing(base, ["the new buyer"], of="running", histories=2_000, key=KEY)

    assert by_run.rows[0].value.value == pytest.approx(by_plan.rows[0].value.value, abs=1e-9)
    assert by_run.choices[1] == "choice 1"
    assert by_run.to_pandas().shape == (1, 4)


def test_a_choice_with_guesses_of_its_own_is_one_plan_beside_the_other() -> None:
    found = sr.worth_knowing(buyers(), [{"outlet.0.price.crab": sr.Guess(0.5, 1.0, 2.0)}, "the new buyer"], of="running", histories=2_000, key=KEY)

    assert [row.path for row in found.rows] == ["outlet.0.price.crab"]
    assert len(found.means) == 3
    assert np.argmax([mean.value for mean in found.means]) == found.best_now


def test_wrong_arguments_are_refused_by_name() -> None:
    base = buyers()
    for arguments, error, says in (
        ({"plan": base, "choices": []}, ValueError, "choices: names none"),
        ({"plan": base, "choices": 3}, TypeError, "not iterable|must be a name"),
        ({"plan": base, "choices": [3]}, TypeError, "must be a name, values by key path"),
        ({"plan": 3, "choices": "x"}, TypeError, "must be a Run or a Plan"),
        ({"plan": base, "choices": "another boat"}, KeyError, "no such choice"),
        ({"plan": base, "choices": "the new buyer", "of": 3}, TypeError, "must be the name of a column"),
    ):
        with pytest.raises(error, match=says):
            sr.worth_knowing(**arguments)  # type: ignore[arg-type]
