# SPDX-License-Identifier: MIT
"""What can be promised to a regular.

Source: the newsvendor (Arrow, Harris & Marschak 1951) the other way round, with the supply by chance and the promise
chosen. Promised Q at price p, the rest sold at v, b paid back for what is short: it pays best where
P(landing < Q) = (p - v) / (p - v + b). The landing is log-normal with mean 100, so its quantiles are closed forms.
"""

from __future__ import annotations

import math
import statistics
from datetime import date
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from small_plan import bare, text

KEY = 311
SPREAD = 0.3


def order_plan(**order: Any) -> sr.Plan:
    """100 kg a day on average, each day by itself; on Wednesdays a promise comes first, the rest fetches 4."""
    plan = bare(species={"day_sd": SPREAD, "day_persistence": 0.0}, outlet={"price": {"crab": 4.0}})
    plan["order"] = [{"who": "the inn", "grade": "crab", "quantity": 50.0, "days": ["Wednesday"], "price": 6.0, "refund_per_unit": 3.0, **order}]
    return sr.Plan.parse(text(plan))


def landing(level: float) -> float:
    """Quantile of a day's landing, kg."""
    return 100.0 * math.exp(SPREAD * statistics.NormalDist().inv_cdf(level) - SPREAD**2 / 2.0)


def ask(plan: sr.Plan, **asked: Any) -> sr.Promise:
    return sr.safe_promise(plan, **{"histories": 1000, "key": KEY, **asked})


def test_what_is_kept_is_the_quantile_of_the_landing() -> None:
    found = ask(order_plan(), kept=(0.8, 0.9, 0.95))

    for share, value in found.safe.items():
        truth = landing(1.0 - share)
        # Kept at the largest whole promise not above the quantile; the interval is in whole kilograms.
        assert value.low - 1.0 <= truth <= value.high + 1.0, share
        assert abs(value.value - truth) < 2.0
        assert value.value == math.floor(value.value)
    assert list(found.safe) == [0.8, 0.9, 0.95]


def test_intervals_cover_the_closed_form() -> None:
    """60 runs of 200 seasons of 14 weeks: with a true coverage of 0.95, fewer than 50 come once in 4,000 times. The truth
    is a whole number. Control: the same interval 4 kg off covers next to nothing."""
    plan, truth = order_plan(), math.floor(landing(0.1))
    covered, moved = 0, 0
    for key in range(60):
        value = ask(plan, kept=0.9, histories=200, key=key).safe[0.9]
        covered += value.low <= truth <= value.high
        moved += value.low <= truth + 4 <= value.high
    assert covered >= 50
    assert moved <= 10


def test_what_pays_best_is_the_newsvendors_quantile() -> None:
    """(6 - 4) / (6 - 4 + 3) = 0.4. The top is flat: half a kilogram off costs less than a penny a week."""
    found = ask(order_plan(), histories=4000)

    low, high = found.as_good
    assert low <= landing(0.4) <= high
    assert abs(found.best - landing(0.4)) < 3.0
    assert found.gain.value > 2.0 * found.gain.standard_error  # more than the plan's 50 pays


def test_a_short_week_that_costs_more_makes_the_best_promise_smaller() -> None:
    """Same source, the other way: b = 18 gives a tenth."""
    found = ask(order_plan(refund_per_unit=18.0), histories=4000)

    assert abs(found.best - landing(0.1)) < 3.0


def test_where_a_short_week_costs_nothing_more_always_pays() -> None:
    plan = order_plan(refund_per_unit=0.0)
    found = ask(plan, histories=200)

    assert found.best >= 0.9 * found.most
    assert found.most > landing(0.95)


def test_weeks_are_counted_by_the_engine() -> None:
    """1 June 2027 is a Tuesday and the season ends on a Wednesday, 8 September: 15 Wednesdays, 15 weeks. Two due days a
    week are one week; the week is kept only when neither is short. Without luck 100 are landed each day."""
    keep = ["weeks_due.the inn", "weeks_kept.the inn", "short.the inn"]
    still = order_plan(quantity=100.0).replace({"species.0.day_sd": 0.0})
    once = sr.simulate(still, histories=2, key=KEY, keep=keep)
    over = sr.simulate(still.replace({"order.0.quantity": 100.001}), histories=2, key=KEY, keep=keep)
    both = order_plan(days=["Wednesday", "Friday"], quantity=90.0)
    twice = sr.simulate(both, histories=2000, key=KEY, keep=keep)

    assert np.all(once["weeks_due.the inn"] == 15.0)
    assert np.all(once["weeks_kept.the inn"] == 15.0)
    assert np.all(over["weeks_kept.the inn"] == 0.0)
    assert np.all(twice["weeks_due.the inn"] == 15.0)
    p = 1.0 - statistics.NormalDist().cdf((math.log(0.9) + SPREAD**2 / 2.0) / SPREAD)
    expected = 14.0 * p * p + p  # the last week has no Friday
    assert abs(twice["weeks_kept.the inn"].mean() - expected) < 4.0 * twice["weeks_kept.the inn"].std() / math.sqrt(2000.0)


def test_weeks_start_anew_each_year() -> None:
    plan = order_plan(quantity=200.0).replace({"business.years": 2, "species.0.day_sd": 0.0})
    run = sr.simulate(plan, histories=2, key=KEY, keep=["weeks_due.the inn.2027", "weeks_due.the inn.2028", "weeks_kept.the inn"])

    assert run["weeks_due.the inn.2027"][0] == 15.0
    assert run["weeks_due.the inn.2028"][0] == 14.0  # 8 September 2028 is a Friday
    assert run["weeks_kept.the inn"][0] == 0.0


def test_what_cannot_be_meant_is_refused_by_name(plan: sr.Plan) -> None:
    with pytest.raises(ValueError, match=r"has no \[\[order\]\]"):
        sr.safe_promise(plan)
    with pytest.raises(KeyError, match="those who have are the inn"):
        ask(order_plan(), who="the club")
    with pytest.raises(ValueError, match="kept=9: must be above"):
        ask(order_plan(), kept=9)
    with pytest.raises(ValueError, match="step=0: must be a number above 0"):
        ask(order_plan(), step=0)
    with pytest.raises(ValueError, match="never due"):
        ask(order_plan(**{"from": date(2027, 6, 3), "to": date(2027, 6, 8)}))  # no Wednesday among them


def test_the_page_says_what_counts() -> None:
    page = " ".join(repr(ask(order_plan(), histories=200)).split())

    assert "kept in 90 of 100 weeks: up to 6" in page
    assert "Pays best on average" in page
    assert "A week counts as kept when nothing is short" in page
