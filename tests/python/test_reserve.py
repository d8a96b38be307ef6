# SPDX-License-Identifier: MIT
"""Money put by for breakdowns. Sources: sums by hand, closed forms beside each, and the rule told plainly in Python."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from seasonrisk.choice.reserve import season_need
from small_plan import bare, text

KEY = 909


def breaking_plan(**breakdown: Any) -> sr.Plan:
    """Each day out leaves 100; a bill of 1,000 and 3 days lost come with 2 breakdowns in 100 days out."""
    plan = bare()
    plan["boat"][0]["breakdown"] = [{"kind": "engine", "per_100_days": 2.0, "repair": 1000.0, "days_lost": 3.0, **breakdown}]
    return sr.Plan.parse(text(plan))


def insured_plan() -> sr.Plan:
    """Every breakdown is claimable: of 1,000 the insurer pays what is above a deductible of 400."""
    plan = bare()
    plan["boat"][0]["breakdown"] = [{"kind": "engine", "per_100_days": 2.0, "repair": 1000.0, "days_lost": 3.0, "claimable_odds": 1.0}]
    plan["boat"][0]["insurance"] = {"hull_value": 50000.0, "premium": 0.0, "pay_month": "mar", "deductible": 400.0}
    return sr.Plan.parse(text(plan))


def kept_all(plan: sr.Plan, **asked: Any) -> sr.Run:
    return sr.simulate(plan, **{"histories": 2000, "key": KEY, "keep": "all", **asked})


def test_a_seasons_need_is_bills_and_lost_days() -> None:
    """By hand: every day out brings 100, whatever the season, so need = 1,000 a breakdown + 100 a day broken down."""
    run = kept_all(breaking_plan())
    by_hand = 1000.0 * run["breakdowns.engine"] + 100.0 * run["days_broken_down"]

    assert np.allclose(season_need(run), by_hand, rtol=0.0, atol=1e-8)
    assert by_hand.std() > 500.0


def test_what_the_insurer_pays_is_taken_off_and_can_be_left_on() -> None:
    run = kept_all(insured_plan())
    by_hand = 400.0 * run["breakdowns.engine"] + 100.0 * run["days_broken_down"]

    assert np.allclose(season_need(run), by_hand, rtol=0.0, atol=1e-8)
    assert np.allclose(season_need(run, claims_count=False), by_hand + 600.0 * run["breakdowns.engine"], rtol=0.0, atol=1e-8)


def test_a_day_broken_down_is_worth_no_more_than_the_weather_lets_it_be() -> None:
    """Half the days are too bad to go: a day lost while broken down would have brought 50 on average. Mean over the
    seasons within 4 errors of the closed form."""
    plan = breaking_plan().replace({"weather.unfishable_fraction": 0.5})
    run = kept_all(plan, histories=4000)
    lost = season_need(run) - run["repairs"]
    per_day = lost.sum() / run["days_broken_down"].sum()

    assert abs(per_day - 50.0) < 2.0
    assert run["days_broken_down"].sum() > 10_000


def test_bills_alone_have_the_quantiles_of_their_count() -> None:
    """Closed form: on each of 100 days out a bill with odds 1 - exp(-0.02); no days lost. The number of bills is binomial
    and its 8, 9 and 9.5 in 10 are counted off here."""
    p = 1.0 - math.exp(-0.02)
    odds = [math.comb(100, k) * p**k * (1.0 - p) ** (100 - k) for k in range(101)]
    found = sr.reserve(breaking_plan(days_lost=0.0), histories=4000, key=KEY)

    for level, estimate in zip((0.8, 0.9, 0.95), found.season, strict=True):
        wanted = next(k for k in range(101) if sum(odds[: k + 1]) >= level)
        assert estimate.value == 1000.0 * wanted
    assert abs(found.mean.value - 100_000.0 * p) < 4.0 * found.mean.standard_error


def simulated_rule(needs: list[np.ndarray], start: float, refill: float) -> np.ndarray:
    """The rule told plainly: is the money never below 0?"""
    money, lasts = np.full(len(needs[0]), start), np.ones(len(needs[0]), bool)
    for need in needs:
        money = money - need
        lasts &= money >= -1e-9
        money = np.minimum(start, money + refill)
    return lasts


def test_over_three_years_the_start_lasts_in_the_share_it_says() -> None:
    plan = breaking_plan()
    found = sr.reserve(plan, histories=2000, key=KEY)
    run = kept_all(plan.replace({"business.years": 3}))
    needs = [season_need(run, season) for season in (2027, 2028, 2029)]

    for row in found.by_years:
        for level, start in zip((0.8, 0.9, 0.95), row.start, strict=True):
            assert simulated_rule(needs, start.value, min(row.refill, 1e12)).mean() >= level
            assert simulated_rule(needs, start.value - 1.0, min(row.refill, 1e12)).mean() < level
    assert [row.refill for row in found.by_years] == sorted(row.refill for row in found.by_years)


def test_money_is_not_spent_twice() -> None:
    """Every season asks for the same 1,000 to the penny; so three years ask for 3,000 without a refill, 1,000 with one of
    1,000. The control, a reserve that is whole again each year by itself, would say 1,000 to both."""
    plan = breaking_plan(per_100_days=100000.0, days_lost=0.0).replace({"season.end": bare()["season"]["start"]})
    found = sr.reserve(plan, histories=64, key=KEY, start=1500.0)

    assert [e.value for e in found.season] == [1000.0] * 3
    assert [row.start[1].value for row in found.by_years] == [3000.0, 2000.0, 1000.0, 1000.0, 1000.0, 1000.0]
    assert found.refill_for_start is not None
    assert found.refill_for_start.value == pytest.approx(750.0)  # 3,000 - 1,500 in two refills
    assert sr.reserve(plan, histories=64, key=KEY, start=999.0).refill_for_start is None


def test_the_least_refill_lasts_in_nine_of_ten() -> None:
    plan = breaking_plan()
    found = sr.reserve(plan, histories=2000, key=KEY, start=6000.0)
    run = kept_all(plan.replace({"business.years": 3}))
    needs = [season_need(run, season) for season in (2027, 2028, 2029)]

    assert found.refill_for_start is not None
    least = found.refill_for_start.value
    assert simulated_rule(needs, 6000.0, least).mean() >= 0.9
    assert simulated_rule(needs, 6000.0, least - 1.0).mean() < 0.9


def test_the_parts_add_up_to_the_mean() -> None:
    found = sr.reserve(insured_plan(), histories=1000, key=KEY)

    assert sum(estimate.value for _, estimate in found.parts) == pytest.approx(found.mean.value)
    assert found.parts[1][1].value < 0.0


def test_intervals_of_the_reserve_cover_the_closed_form() -> None:
    """Bills log-normal (1-in-10 at a third and three times 1,000), one certain breakdown a season: the 9-in-10 reserve
    is 3,000 exactly. 100 runs of 400: with a true coverage of 0.95, fewer than 86 come once in 5,000 times. Control: the
    same interval a whole width higher covers next to nothing."""
    size = {"low": 1000.0 / 3.0, "typical": 1000.0, "high": 3000.0}
    plan = breaking_plan(per_100_days=100000.0, days_lost=0.0, repair=size).replace({"season.end": bare()["season"]["start"]})
    covered, moved = 0, 0
    for key in range(100):
        nine = sr.reserve(plan, histories=400, key=key, years=2).season[1]
        covered += nine.low <= 3000.0 <= nine.high
        moved += nine.high <= 3000.0 <= 2.0 * nine.high - nine.low
    assert covered >= 86
    assert moved <= 10


def test_the_page_says_what_is_counted_and_what_is_not(plan: sr.Plan) -> None:
    page = " ".join(repr(sr.reserve(plan, histories=500, key=KEY, start=20_000.0)).split())

    assert "put by covers the breakdowns of 9 seasons in 10" in page
    assert "A claim counts in the year of the damage" in page
    assert "Not counted: planned maintenance" in page


def test_what_cannot_be_meant_is_refused_by_name(plan: sr.Plan) -> None:
    with pytest.raises(ValueError, match="years=1: must be a whole number from 2 to 30"):
        sr.reserve(plan, years=1)
    with pytest.raises(ValueError, match="start=-5"):
        sr.reserve(plan, start=-5)
    with pytest.raises(TypeError, match="must be a Plan"):
        sr.reserve("plan.toml")  # type: ignore[arg-type]
    with pytest.raises(KeyError, match="was not kept"):
        season_need(sr.simulate(plan, histories=4, key=KEY, keep="loan"))
