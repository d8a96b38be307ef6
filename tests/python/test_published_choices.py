# SPDX-License-Identifier: MIT
"""Figures of buying ahead, promising and pairing boats, found again in real plans.

Within 4 standard errors, mostly at 100,000 histories, plus what a landing made of whole days costs: a right engine
fails one figure in about 16,000 with another key.

A normal landing is the number of fishable days out of many, half of them good: skew 0 and kurtosis 3 - 2 / days. It
cannot be below nothing and its spread is small against its mean, so a landing base is laid under it: what is
promised or bought stands by that much higher, and a bill takes the base's worth away again.
"""

from __future__ import annotations

import math
from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from small_plan import bare, text

N = 100_000
KEY = 1962
ERRORS = 4.0


def simulated(plan: sr.Plan, keep: list[str], histories: int = N) -> sr.Run:
    return sr.simulate(plan, histories=histories, key=KEY, keep=keep)


def landing_plan(days: int, spread: float) -> tuple[dict[str, Any], float]:
    """Half of the days are fishable and land the same; and the mean landing, its spread being `spread`."""
    start = date(2027, 6, 1)
    a_day = 2.0 * spread / math.sqrt(days)
    plan = bare(
        season={"start": start, "end": start + timedelta(days=days - 1)},
        weather={"unfishable_fraction": 0.5},
        species={"per_haul": a_day / 100.0},
        business={"books_start": date(2027, 6, 1)},
    )
    return plan, 0.5 * days * a_day


def assert_best(plan: sr.Plan, here: sr.Run, less: str, more: str) -> None:
    """On the same luck both neighbours leave less."""
    for name in (less, more):
        worse = here["standing"] - simulated(plan.choose(name), ["standing"], here.histories)["standing"]
        assert worse.mean() > ERRORS * worse.std() / math.sqrt(here.histories)


def test_quota_bought_ahead_is_the_newsvendor() -> None:
    """nv-teddy: 3,000 bought at 10 for a landing of 2,100, spread 1,200, sold at 22: 1,057.4 are left over, 157.4 are
    not to be had, 12,737.19 is earned; best is 2,237.02.

    Source: parka exercise of Cachon & Terwiesch and of Simchi-Levi; outputs derived from the normal law in closed form.
    The season's limit is the quota: what comes above goes back. A day lands 139, which moves left-over and lost by
    0.25 (derived: the same sums over the binomial law).
    """
    plan, mean = landing_plan(days=300, spread=1200.0)
    base = mean - 2100.0
    plan["outlet"][0]["price"] = {"crab": 22.0}
    plan["limit"] = [{"species": "crab", "per": "season", "amount": base + 3000.0, "over": "stop"}]
    plan["standing"] = [
        {"name": "quota", "amount": 10.0 * 3000.0, "month": "jun"},
        {"name": "worth of the base", "amount": 22.0 * base, "month": "jun"},
    ]
    plan["choice"] = [
        {"name": f"{q:g}", "set": {"limit.0.amount": base + q, "standing.0.amount": 10.0 * q}}
        for q in (1737.02, 2237.02, 2737.02, 1e6)
    ]
    read = sr.Plan.parse(text(plan))
    here = simulated(read, ["catch.crab", "standing"])
    all_of_it = simulated(read.choose("1e+06"), ["catch.crab"])["catch.crab"]

    left = base + 3000.0 - here["catch.crab"]
    lost = all_of_it - here["catch.crab"]
    for found, published in ((left, 1057.4), (lost, 157.4)):
        assert found.mean() == pytest.approx(published, abs=0.25 + ERRORS * found.std() / math.sqrt(N))
    earned = here.mean("standing")
    assert earned.value == pytest.approx(12737.19, abs=22.0 * 0.25 + ERRORS * earned.standard_error)
    assert_best(read, simulated(read.choose("2237.02"), ["standing"]), "1737.02", "2737.02")


def test_a_promise_out_of_a_full_store_is_the_newsvendor() -> None:
    """nv-stockpyl: 2 a unit over, 18 a unit under, 120 on average, spread 10: best is 132.8155, at a cost of 35.0997.

    Source: documentation of stockpyl (Snyder & Shen, Fundamentals of Supply Chain Theory). Here the promise is the
    stock and the landing is what is asked of it: promised and not caught costs 2 (bought in at 22 for an order of 20),
    caught and not promised costs 18 (sold off for 2 instead of 20). The landing is kept for the day of the order, the
    season's last, and nobody else buys before. A day lands 1.8, which moves the cost by 0.11 (derived as above).
    """
    best = 132.8155
    plan, mean = landing_plan(days=120, spread=10.0)
    base = mean - 120.0
    last = plan["season"]["end"]
    assert last.isoweekday() == 2  # the order's Tuesday
    plan["outlet"] = [{"name": "quay", "price": {"crab": 20.0}, "daily_limit": 0.0}]
    plan["holding"] = [
        {
            "grade": "crab",
            "keep_for": "quay",
            "keep_fraction": 1.0,
            "capacity": 1000.0,
            "longest_days": 120,
            "forced_price_fraction": 0.1,
        }
    ]
    plan["order"] = [
        {
            "who": "the hotel",
            "grade": "crab",
            "quantity": base + best,
            "days": ["Tuesday"],
            "from": last,
            "to": last,
            "price": 20.0,
            "buy_in_price": 22.0,
        }
    ]
    plan["choice"] = [{"name": f"{q:+g}", "set": {"order.0.quantity": base + best + q}} for q in (-6.0, 6.0)]
    read = sr.Plan.parse(text(plan))
    histories = 20_000
    run = simulated(read, ["standing", "catch.crab", "short.the hotel"], histories)

    cost = 20.0 * run["catch.crab"] - run["standing"]
    assert run["catch.crab"].mean() - base == pytest.approx(120.0, abs=ERRORS * 10.0 / math.sqrt(histories))
    assert cost.mean() == pytest.approx(35.0997, abs=0.11 + ERRORS * cost.std() / math.sqrt(histories))
    # The best promise is kept in 1 season of 10, 2 / (2 + 18), but for half a day's landing: 0.91 x its density there.
    short = np.mean(run["short.the hotel"] > 0.0)
    assert short == pytest.approx(0.9, abs=0.91 * 0.0175 + ERRORS * math.sqrt(0.09 / histories))
    assert_best(read, run, "-6", "+6")


def two_boats() -> dict[str, Any]:
    plan = bare()
    plan["species"].append({**plan["species"][0], "name": "lobster"})
    plan["outlet"][0]["price"] = {"crab": 1.0, "lobster": 1.0}
    second = {**plan["boat"][0], "name": "Second Wind"}
    second["fishery"] = [{**second["fishery"][0], "species": ["lobster"]}]
    plan["boat"].append(second)
    return plan


def test_two_boats_that_break_down_apart_are_seldom_down_on_one_day() -> None:
    """both-down, rho 0: each is down 1 day in 5, both 1 in 25 (independent).

    Up for 40 days on average (odds 1 in 40 a day out), then down for 10: 1 in 5 in the long run, here the third year.
    """
    plan = two_boats()
    plan["business"].update(books_start=date(2027, 3, 1), years=3)
    plan["season"] = {"start": date(2027, 3, 1), "end": date(2028, 2, 28)}
    for boat in plan["boat"]:
        boat["breakdown"] = [
            {"kind": "any", "per_100_days": -100.0 * math.log1p(-1.0 / 40.0), "repair": 0.0, "days_lost": 10}
        ]
    columns = ["days_fished.2029", "days_both.2029", "days_broken_down.2029"]
    run = sr.simulate(sr.Plan.parse(text(plan)), histories=20_000, key=KEY, keep=columns)

    fished, both_fished, down = (run[column] for column in columns)
    both_down = 365.0 - (fished - both_fished)
    for days, share in ((down / 2.0, 0.2), (both_down, 0.04)):
        assert days.mean() / 365.0 == pytest.approx(share, abs=ERRORS * days.std() / 365.0 / math.sqrt(20_000))


@pytest.mark.parametrize(("rho", "both"), [(0.0, 0.04), (0.3, 0.066146), (0.6, 0.099235), (0.9, 0.149932)])
def test_two_boats_have_their_bad_years_together(rho: float, both: float) -> None:
    """both-down: each misses in 1 year of 5, both in 0.04 to 0.15 of them, by the tie of their normal causes.

    Derived: bivariate normal. A plan ties no two boats' days by rho (breakdowns are apart, weather is one for the
    harbour); it ties years: each boat has its own species, and a miss is a year in the lowest fifth.
    """
    spread, one_in_five = 0.25, -0.8416212
    plan = two_boats()
    for species in plan["species"]:
        species["year_sd"] = spread
    plan["together"] = {"species_year_correlation": rho}
    run = simulated(sr.Plan.parse(text(plan)), ["catch.crab", "catch.lobster"])

    worst = 100.0 * 100.0 * math.exp(spread * one_in_five - 0.5 * spread**2)  # 100 hauls on 100 days
    crab, lobster = run["catch.crab"] < worst, run["catch.lobster"] < worst
    for seen, odds in ((crab, 0.2), (lobster, 0.2), (crab & lobster, both)):
        assert seen.mean() == pytest.approx(odds, abs=ERRORS * math.sqrt(odds * (1.0 - odds) / N))
