# SPDX-License-Identifier: MIT
"""The twin on plans that use everything: against the engine, and against sums that must hold whatever the luck.

All expected values are the twin's own, or follow from the definitions of the rungs and of a day.
"""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from twin import plan_values
from twin.goods import goods_of
from twin.market import count_at
from twin.money import Loan
from twin.philox import Luck
from twin.season import simulate
from twin.three_boat_plan import BOOKS_CLOSE_EARLY, PLAIN_DAYS, THREE_BOATS
from twin.three_year_plan import THREE_WINTERS
from twin.years import Years

KEY = 0x5EA50_0F_B0A7
PLANS = {
    "three winters": (THREE_WINTERS, None, 300),
    "three boats": (THREE_BOATS, None, 30),
    "three boats, more pots": (THREE_BOATS, "More pots, softer price", 15),
    "three boats, home in October": (THREE_BOATS, "Home in October", 15),
    "three boats, books close early": (BOOKS_CLOSE_EARLY, None, 15),
    "three boats, plain days": (PLAIN_DAYS, None, 30),
}
LOST_DAYS = (
    "rest",
    "off",
    "ashore",
    "laid_up",
    "broken_down",
    "no_skipper",
    "no_crew",
    "limit",
    "weather",
    "stayed_in",
)
# The engine counts the first boat's bad days and the pots of every fishery, and sums kept dates over the years.
READ_DIFFERENTLY = ("bad_weather_days", "pots_left", "family.")


@cache
def rows(name: str) -> list[dict[str, float]]:
    text, choice, histories = PLANS[name]
    base = plan_values.read(text)
    plan = plan_values.choose(base, choice) if choice else base
    return [simulate(plan, KEY, history, base) for history in range(histories)]


def drawn(name: str, history: int) -> dict[str, Any]:
    text, choice, _ = PLANS[name]
    plan = plan_values.read(text)
    return plan_values.drawn(plan_values.choose(plan, choice) if choice else plan, Luck(KEY, history))


@pytest.mark.parametrize("name", PLANS)
def test_every_column_equals_the_twin(name: str) -> None:
    text, choice, histories = PLANS[name]
    plan = sr.Plan.parse(text)
    run = sr.simulate(plan.choose(choice) if choice else plan, histories=histories, key=KEY, keep=["all"])

    shared = [column for column in rows(name)[0] if column in set(run.columns)]
    assert len(shared) > 200
    for column in shared:
        if not column.startswith(READ_DIFFERENTLY):
            expected = [row[column] for row in rows(name)]
            np.testing.assert_allclose(run[column], expected, rtol=1e-9, atol=1e-6, err_msg=column)


@pytest.mark.parametrize("name", PLANS)
def test_the_books_reconcile(name: str) -> None:
    """Opening cash + household rung - owed to us + owed by us - assets bought - repaid early = closing cash."""
    for history, c in enumerate(rows(name)[:10]):
        v = drawn(name, history)
        first = plan_values.books_start(v)
        last_year = first.year + v["business"]["years"]
        bought = sum(a["cost"] for a in v.get("asset", []) if first <= a["bought"] and a["bought"].year < last_year)
        closing = v["business"]["opening_cash"] + c["household"] - c["owed_to_us"] + c["owed_by_us"] - bought
        closing -= c["loan_repaid_early"]
        assert closing == pytest.approx(c["closing_cash"], abs=1e-6)


@pytest.mark.parametrize("name", PLANS)
def test_every_season_day_is_fished_or_lost_to_one_cause(name: str) -> None:
    boats = len(drawn(name, 0)["boat"])
    seasons = {"three winters": 147 * 3}.get(name, 203 * 5)

    for c in rows(name):
        assert c["days_fished"] + sum(c[f"days_{cause}"] for cause in LOST_DAYS) == boats * seasons


@pytest.mark.parametrize("name", PLANS)
def test_all_that_is_landed_is_sold_or_dies_or_is_left(name: str) -> None:
    for history, c in enumerate(rows(name)[:10]):
        v = drawn(name, history)
        landed = dict.fromkeys(range(len(v["species"])), 0.0)
        for good in goods_of(v):
            gone = [f"{what}.{good.name}" for what in ("died", "forced", "unsold", "held")]
            gone += [f"sold.{outlet['name']}.{good.name}" for outlet in v["outlet"]]
            gone += [f"delivered.{order['who']}" for order in v.get("order", []) if order["grade"] == good.name]
            landed[good.species] += sum(c.get(column, 0.0) for column in gone) / good.sold_units_per_unit
        for k, species in enumerate(v["species"]):
            assert landed[k] == pytest.approx(c[f"catch.{species['name']}"], rel=1e-9)


@pytest.mark.parametrize("name", PLANS)
def test_years_and_boats_add_up(name: str) -> None:
    v = drawn(name, 0)
    years = [v["season"]["start"].year + y for y in range(v["business"]["years"])]

    for c in rows(name)[:5]:
        for column in ("household", "sales", "days_fished", "crew_pay", "tax", "pots_lost"):
            assert c[column] == pytest.approx(sum(c[f"{column}.{year}"] for year in years))
            if len(v["boat"]) > 1 and column not in ("household", "tax"):
                assert c[column] == pytest.approx(sum(c[f"{column}.{boat['name']}"] for boat in v["boat"]))


def test_everything_happens_in_the_plan_of_three_boats() -> None:
    """What never happens would be compared in vain."""
    happens = [f"days_{cause}" for cause in LOST_DAYS] + [
        "days_setting",
        "days_gear_in",
        "days_both",
        "storms",
        "claims",
    ]
    happens += ["quota_lease", "switch_costs", "missed_settlements", "rehire", "order_shortfalls", "tax", "total_loss"]
    happens += ["missed_payments", "loan_repaid_early", "shortfall", "overdraft_interest", "died.large", "died.cocks", "forced.large", "unsold.small", "family.school play"]

    for column in happens:
        assert np.count_nonzero([row[column] for row in rows("three boats")]) >= 2, column
    assert any(row["held.large"] > 0.0 for row in rows("three boats, books close early"))


def test_last_years_catch_is_met_exactly() -> None:
    """exp(s C - s^2/2) of the year before the first is the stated fraction (definition of last_year_fraction).

    Conditioning moves the weather's year as well, by its own share; only what is carried on is kept.
    """
    for history in range(5):
        luck = Luck(KEY, history)
        v = plan_values.drawn(plan_values.read(THREE_BOATS), luck)
        years = Years(v, luck)
        common, own = years.last_year()
        before = [luck.normal_in_year(2026, "year_catch_species", k) for k in range(2)]
        weather = years.r_wc**2 * sum((now - then) / years.own for now, then in zip(own, before, strict=True))

        for k, species in enumerate(v["species"]):
            c, sd = years.catch_state(2026, common, own[k]) + weather, species["year_sd"]
            assert math.exp(sd * c - sd * sd / 2.0) == pytest.approx(species["last_year_fraction"], rel=1e-12)


@pytest.mark.parametrize(("mean", "sd"), [(3.0, None), (0.4, None), (9.0, 6.0), (250.0, 40.0), (5.0, 1.0)])
def test_demand_is_a_count_with_its_mean_and_sd(mean: float, sd: float | None) -> None:
    """Poisson, or negative binomial when the sd is larger than a Poisson's; 20,000 even steps of u."""
    steps = 20_000
    counts = np.array([count_at(mean, sd, (i + 0.5) / steps) for i in range(steps)])

    assert counts.mean() == pytest.approx(mean, rel=2e-3)
    assert counts.std() == pytest.approx(max(math.sqrt(mean), sd or 0.0), rel=5e-3)


def test_a_loan_with_interest_alone_at_first_is_paid_off_in_its_term() -> None:
    """12,000 at 6% over 2 years monthly, 6 months of 60 each, then 18 level payments (annuity, by hand 698.78)."""
    loan = Loan({"balance": 12000.0, "rate_fraction": 0.06, "years_left": 2, "interest_only_months": 6})

    paid = [loan.pay()[0] for _ in range(24)]

    assert paid[:6] == pytest.approx([60.0] * 6)
    assert paid[6:] == pytest.approx([12000.0 * 0.005 / (1.0 - 1.005**-18)] * 18)
    assert loan.left == pytest.approx(0.0, abs=1e-8)
    assert loan.pay() == (0.0, 0.0)
