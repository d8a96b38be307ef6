# SPDX-License-Identifier: MIT
"""What a plan supposes for certain. Expected values by hand: the bare plan lands 100 kg a day for 100 days and sells
them at 1 GBP; all luck is that of the plan without the event. Figures are invented."""

from __future__ import annotations

import math
from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from small_plan import bare, text

START = bare()["season"]["start"]
KEY = 0x5EA
DAYS_LOST = ("rest", "off", "ashore", "laid_up", "broken_down", "no_skipper", "no_crew", "limit", "weather", "stayed_in")


def supposing(*events: dict[str, Any], plan: dict[str, Any] | None = None) -> sr.Plan:
    return sr.Plan.parse(text((plan or bare()) | {"suppose": list(events)}))


def one(plan: sr.Plan, *names: str) -> list[float]:
    run = sr.simulate(plan, histories=1, key=KEY, keep=list(names))
    return [float(run[name][0]) for name in names]


def with_luck(years: int = 1) -> dict[str, Any]:
    """Weather, years, breakdowns and a hired skipper who may go."""
    plan = bare(
        business={"years": years},
        weather={"unfishable_fraction": 0.3, "persistence": 0.4, "year_sd": 0.3},
        species={"year_sd": 0.2, "year_carry": 0.5, "day_sd": 0.3},
        outlet={"year_sd": 0.1, "year_carry": 0.3},
        together={"price_catch_correlation": -0.4},
    )
    plan["boat"][0] |= {
        "skipper": "hired",
        "skipper_gap_odds_per_year": 0.3,
        "skipper_gap_weeks": 2,
        "breakdown": [{"kind": "engine", "per_100_days": 3.0, "repair": 500.0, "days_lost": 2}],
    }
    return plan


def test_a_closure_takes_its_days_and_no_more() -> None:
    """21 of 100 days: 7,900 of 10,000."""
    plan = supposing({"what": "closure", "from": START + timedelta(days=30), "days": 21})

    assert one(plan, "days_limit", "days_fished", "sales") == [21.0, 79.0, 7900.0]


def test_a_closure_that_outlasts_the_season_ends_with_it() -> None:
    plan = supposing({"what": "closure", "from": START + timedelta(days=90), "days": 60})

    assert one(plan, "days_limit", "days_fished") == [10.0, 90.0]


def test_a_breakdown_takes_its_days_and_its_bill_and_no_insurer_pays() -> None:
    """10 days of 100: sales 9,000, running 9,000 - 6,500. The policy would pay what is above 1,000 of a claim."""
    plan = bare()
    plan["boat"][0]["insurance"] = {"hull_value": 50000.0, "premium": 0.0, "pay_month": "may", "deductible": 1000.0}
    event = {"what": "breakdown", "from": START + timedelta(days=10), "days": 10, "cost": 6500.0}

    found = one(supposing(event, plan=plan), "days_broken_down", "days_fished", "repairs", "claims", "running")

    assert found == [10.0, 90.0, 6500.0, 0.0, 2500.0]


def test_the_bill_of_a_breakdown_is_paid_on_its_first_day() -> None:
    """1 July, after 30 days at 100 a day paid at once: 10,000 + 3,000 at the end of June, + 3,100 - 4,000 in July."""
    plan = supposing({"what": "breakdown", "from": date(2027, 7, 1), "cost": 4000.0})

    assert one(plan, "cash.2027-06", "cash.2027-07", "days_broken_down") == [13000.0, 12100.0, 0.0]


def test_no_skipper_for_some_days_and_for_the_season() -> None:
    some = supposing({"what": "no skipper", "from": START, "days": 7})
    whole = supposing({"what": "no skipper"})

    assert one(some, "days_no_skipper", "sales") == [7.0, 9300.0]
    assert one(whole, "days_no_skipper", "sales") == [100.0, 0.0]


def test_an_event_comes_in_its_own_year_alone() -> None:
    plan = bare(business={"years": 3})
    event = {"what": "closure", "year": 2, "from": START, "days": 40}

    found = one(supposing(event, plan=plan), "sales.2027", "sales.2028", "sales.2029", "days_limit")

    assert found == [10000.0, 6000.0, 10000.0, 40.0]


def test_an_event_meets_the_boat_it_names() -> None:
    plan = bare()
    plan["boat"].append(plan["boat"][0] | {"name": "Second"})
    event = {"what": "no skipper", "boat": "Second"}

    found = one(supposing(event, plan=plan), "days_no_skipper.Bare Poles", "days_no_skipper.Second", "sales")

    assert found == [0.0, 100.0, 10000.0]


def test_a_broken_boat_calls_on_the_owner() -> None:
    """The second boat is broken down for 5 days and takes the owner off his own for 3 of them."""
    plan = bare()
    plan["boat"].append(plan["boat"][0] | {"name": "Second", "skipper": "hired", "owner_days_per_breakdown": 3})
    event = {"what": "breakdown", "boat": "Second", "from": START + timedelta(days=50), "days": 5}

    found = one(supposing(event, plan=plan), "days_broken_down.Second", "days_no_skipper.Bare Poles", "days_fished")

    assert found == [5.0, 3.0, 192.0]


def test_a_bad_catch_is_the_1_in_10_low_of_the_year_and_prices_answer_it() -> None:
    """Catch exp(s z - s^2/2) with z = -1.2816; of prices tied by -1 in the limit: here r = -0.4, and the rest of the
    price is the plan's own luck, so that over many histories the mean price is exp(sd r z - sd^2 r^2 / 2)."""
    plan = with_luck() | {"weather": {"unfishable_fraction": 0.0}}
    plan["species"][0]["day_sd"] = 0.0
    plan["boat"] = bare()["boat"]
    run = sr.simulate(supposing({"what": "bad catch"}, plan=plan), histories=20_000, key=KEY, keep=["catch.crab", "sales"])
    z, s, sd, r = -1.281551565545, 0.2, 0.1, -0.4
    price = run["sales"] / run["catch.crab"]

    np.testing.assert_allclose(run["catch.crab"], 10000.0 * math.exp(s * z - s * s / 2.0), rtol=1e-12)
    error = price.std() / math.sqrt(len(price))
    assert price.mean() == pytest.approx(math.exp(sd * r * z - (sd * r) ** 2 / 2.0), abs=4.0 * error)


@pytest.mark.parametrize("event", [
    {"what": "closure", "from": START + timedelta(days=20), "days": 25, "year": 2},
    {"what": "breakdown", "from": START + timedelta(days=20), "days": 25, "cost": 900.0, "year": 2},
    {"what": "no skipper", "year": 2},
    {"what": "bad catch", "year": 2},
])  # fmt: skip
def test_all_other_years_keep_their_luck(event: dict[str, Any]) -> None:
    """To the bit: weather, catch, prices and breakdowns of the years before and after are those of the plan."""
    keep = [f"{name}.{year}" for name in ("sales", "days_weather", "repairs", "days_fished") for year in (2027, 2029)]
    keep += ["bad_weather_days.2028"]
    plan = with_luck(years=3)
    run, plain = (
        sr.simulate(one_plan, histories=200, key=KEY, keep=keep)
        for one_plan in (supposing(event, plan=plan), sr.Plan.parse(text(plan)))
    )

    for name in keep:
        assert (run[name] == plain[name]).all(), name


@pytest.mark.parametrize("event", [
    {"what": "closure", "from": START + timedelta(days=20), "days": 25},
    {"what": "breakdown", "from": START + timedelta(days=20), "days": 25, "cost": 900.0},
    {"what": "no skipper", "from": START + timedelta(days=60)},
])  # fmt: skip
def test_an_event_never_adds_a_day_and_every_day_has_one_cause(event: dict[str, Any]) -> None:
    names = ["days_fished", *(f"days_{cause}" for cause in DAYS_LOST)]
    run, plain = (
        sr.simulate(one_plan, histories=400, key=KEY, keep=names)
        for one_plan in (supposing(event, plan=with_luck()), sr.Plan.parse(text(with_luck())))
    )

    assert (run["days_fished"] <= plain["days_fished"]).all()
    assert (run["days_fished"] < plain["days_fished"]).any()
    assert (sum(run[name] for name in names) == 100.0).all()


@pytest.mark.parametrize("cost", [0.0, 900.0])
def test_the_books_balance_with_an_event(cost: float) -> None:
    """Closing cash is opening cash and the household rung, where nothing is owed at the end (no loan, no tax)."""
    event = {"what": "breakdown", "from": START + timedelta(days=20), "days": 25, "cost": cost}
    run = sr.simulate(supposing(event, plan=with_luck()), histories=200, key=KEY, keep=["closing_cash", "household"])

    np.testing.assert_allclose(run["closing_cash"], 10000.0 + run["household"], rtol=0.0, atol=1e-7)


def test_an_event_of_no_days_and_no_cost_changes_nothing() -> None:
    keep = ["household", "closing_cash", "days_fished", "days_weather", "sales"]
    event = {"what": "closure", "from": START, "days": 0}
    run, plain = (
        sr.simulate(one_plan, histories=200, key=KEY, keep=keep)
        for one_plan in (supposing(event, plan=with_luck()), sr.Plan.parse(text(with_luck())))
    )

    for name in keep:
        np.testing.assert_allclose(run[name], plain[name], rtol=1e-12, err_msg=name)
