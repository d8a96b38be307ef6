# SPDX-License-Identifier: MIT
"""Fixed stresses under the same luck: what each touches, by hand, and what it must not touch."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
import seasonrisk as sr
from seasonrisk.credit import peak_weeks
from seasonrisk.credit.fixed_stresses import FIXED
from small_plan import bare, text

NAMES = list(FIXED)


def hand_made(**sections: Any) -> sr.Plan:
    """By hand: 100 days of 100 hauls bring 1 kg each at 1.00, sales 10,000; 20 l of fuel a day at 1.00, 2,000; a loan of
    5,000 at 6 in 100 over 5 years, paid each October; 300 a month for the household; an overdraft of 500."""
    plan = bare(**sections)
    plan["business"] |= {"overdraft_limit": 500.0, "overdraft_rate_fraction": 0.1}
    plan["boat"][0]["fuel_l_per_day_out"] = 20.0
    plan["household"] = {"draw_per_month": 300.0}
    plan["loan"] = [{"name": "boat", "balance": 5_000.0, "rate_fraction": 0.06, "years_left": 5, "months": ["oct"]}]
    return sr.Plan.parse(text(plan))


def test_each_takes_what_it_should_from_a_hand_made_year() -> None:
    """Prices a fifth lower: 2,000; so a fifth of the catch; both, 36 in 100: 3,600; fuel half as dear again: 1,000. The
    level payment of 5,000 over 5 years is 1,186.98 at 6 in 100 and 1,285.46 at 9: 98.48. No overdraft is used."""
    found = sr.stresses(hand_made(), histories=8, key=1)
    taken = {stress.name: -stress.difference.value for stress in found}

    assert taken["Prices 20 in 100 lower"] == pytest.approx(2_000.0)
    assert taken["Catch 20 in 100 lower"] == pytest.approx(2_000.0)
    assert taken["Both 20 in 100 lower"] == pytest.approx(3_600.0)
    assert taken["Fuel 50 in 100 dearer"] == pytest.approx(1_000.0)
    assert taken["Rates 3 points higher"] == pytest.approx(98.48, abs=0.005)
    assert found.as_it_is.difference.value == 0.0
    year = found["Prices 20 in 100 lower"].worst_year
    assert year is not None
    assert year.before_household is not None
    assert year.before_household.median.value == pytest.approx(6_000.0 / 1_186.98, abs=1e-4)


def test_orders_fall_with_the_outlets() -> None:
    """By hand: 10 kg each Monday to a regular at 3.00 in place of 1.00; 14 Mondays between 1 June and 8 September 2027."""
    plan = bare()
    plan["order"] = [{"who": "inn", "grade": "crab", "quantity": 10.0, "days": ["Monday"], "price": 3.0}]
    found = sr.stresses(sr.Plan.parse(text(plan)), histories=8, key=1)["Prices 20 in 100 lower"]

    assert found.difference.value == pytest.approx(-0.2 * (10_000.0 - 140.0 + 14 * 10.0 * 3.0))


def test_guesses_are_moved_whole() -> None:
    plan = hand_made().replace({"outlet.0.price.crab": sr.Guess(0.8, 1.0, 1.5), "loan.0.rate_fraction": sr.Guess(0.04, 0.06, 0.1)})
    found = sr.stresses(plan, histories=8, key=1)

    price = found["Prices 20 in 100 lower"].plan["outlet.0.price.crab"]
    rate = found["Rates 3 points higher"].plan["loan.0.rate_fraction"]
    assert isinstance(price, sr.Guess)
    assert isinstance(rate, sr.Guess)
    assert (price.low, price.typical, price.high) == pytest.approx((0.64, 0.8, 1.2))
    assert (rate.low, rate.typical, rate.high) == pytest.approx((0.07, 0.09, 0.13))


def test_what_a_plan_has_not_got_is_listed_with_the_reason() -> None:
    found = sr.stresses(sr.Plan.parse(text(bare())), histories=8, key=1)
    reasons = dict(found.do_not_apply)

    assert [*(stress.name for stress in found), *reasons] != []
    assert set(NAMES) == {stress.name for stress in found} | set(reasons)
    assert "no loan and no overdraft" in reasons["Rates 3 points higher"]
    assert "one boat" in reasons["Second boat without a skipper"]
    assert "one year" in reasons["Two bad years running"]
    assert "no breakdown" in reasons["Major breakdown in year 1"]
    assert "does not apply" in str(found)
    with pytest.raises(KeyError, match="does not apply, the plan has one boat"):
        found["Second boat without a skipper"]
    with pytest.raises(KeyError, match="there is none; there are"):
        found["Gold"]


def test_the_same_luck_for_each(plan: sr.Plan) -> None:
    """Fuel touches fuel alone: the difference in every history is half its fuel, less what share hands bear of it."""
    found = sr.stresses(plan, histories=400, key=5)
    stress = found["Fuel 50 in 100 dearer"]
    keep = ["household", "fuel", "crew_pay", "tax", "overdraft_interest"]
    base, under = (sr.simulate(one, histories=400, key=5, keep=keep) for one in (plan, stress.plan))

    assert under["fuel"] == pytest.approx(1.5 * base["fuel"])
    others = sum(under[name] - base[name] for name in ("crew_pay", "tax", "overdraft_interest"))
    assert under["household"] - base["household"] == pytest.approx(-0.5 * base["fuel"] - others, abs=1e-6)
    assert stress.difference.value == pytest.approx((under["household"] - base["household"]).mean())
    assert stress.chances["household"].value == under.chance("household").value


def test_of_a_run_the_first_histories_are_the_plan_as_it_is(plan: sr.Plan) -> None:
    run = sr.simulate(plan, histories=800, key=5, keep=sr.lender_columns(plan))
    of_run, of_plan = sr.stresses(run, histories=400), sr.stresses(plan, histories=400, key=5)

    assert of_run.histories == 400
    assert of_run.as_it_is.chances == of_plan.as_it_is.chances
    assert [stress.difference for stress in of_run] == [stress.difference for stress in of_plan]
    assert sr.stresses(run).histories == 800  # half, but a thousand at least where there are so many
    with pytest.raises(ValueError, match="key=5: a run has its own"):
        sr.stresses(run, key=5)
    with pytest.raises(ValueError, match="histories=900: must be a whole number from 1 to 800"):
        sr.stresses(run, histories=900)


def test_progress_counts_all_of_them(plan: sr.Plan) -> None:
    """The engine tells about every 50 ms, and a run takes some hundreds: the last word comes within the last of them."""
    told: list[int] = []
    found = sr.stresses(plan, histories=60_000, key=5, threads=1, progress=told.append)

    assert told == sorted(told)
    assert 60_000 * len(found) < told[-1] <= 60_000 * (1 + len(found))


def test_the_peak_weeks_are_those_that_sell_most() -> None:
    """By hand: 100 a day and 200 in August, 100 days from 1 June to 8 September: the first 21 days that all lie in August,
    4,200 of the 13,100. With a season of 10 days it is taken whole."""
    plan = sr.Plan.parse(text(bare(species={"month_shape": {"jun": 1.0, "jul": 1.0, "aug": 2.0, "sep": 1.0}})))
    found = peak_weeks(plan, key=1)
    short = peak_weeks(plan.replace({"season.end": date(2027, 6, 10)}), key=1)

    assert (found.first, found.last, found.days) == (date(2027, 8, 1), date(2027, 8, 21), 21)
    assert found.share == pytest.approx(4_200.0 / 13_100.0)
    assert (short.first, short.days, short.share) == (date(2027, 6, 1), 10, pytest.approx(1.0))
    assert "1 August 2027 to 21 August 2027" in str(found)


def two_boats(**sections: Any) -> sr.Plan:
    """The hand-made year with a second boat, hired, that brings another 10,000 and burns no fuel."""
    plan = bare(**sections)
    plan["boat"].append({**plan["boat"][0], "name": "Second Wind", "skipper": "hired"})
    plan["boat"][0]["breakdown"] = [
        {"kind": "minor", "per_100_days": 0.0, "repair": 100.0, "days_lost": 1.0},
        {"kind": "engine", "per_100_days": 0.0, "repair": {"low": 400.0, "typical": 900.0, "high": 2_500.0}, "days_lost": {"low": 2.0, "typical": 4.0, "high": 9.0}},
    ]
    return sr.Plan.parse(text(plan))


def test_what_is_supposed_for_certain_takes_what_it_should() -> None:
    """By hand: two boats bring 200 a day, 20,000 in 100 days. 21 days closed: 4,200. The engine's 1-in-10 repair is 2,500
    and 9 days lost: 900. A season without her skipper: 10,000."""
    found = sr.stresses(two_boats(), histories=8, key=1)
    taken = {stress.name: -stress.difference.value for stress in found}

    assert taken["Three peak weeks lost"] == pytest.approx(4_200.0)
    assert taken["Major breakdown in year 1"] == pytest.approx(2_500.0 + 900.0)
    assert taken["Second boat without a skipper"] == pytest.approx(10_000.0)
    assert "engine, Bare Poles" in found["Major breakdown in year 1"].how


def test_two_bad_years_are_the_first_two_and_leave_the_third_as_it_is() -> None:
    """With year_sd 0.2 a 1-in-10 year brings exp(-0.2 x 1.2816 - 0.02) = 0.7586 of the mean: two boats 15,172."""
    plan = two_boats(species={"year_sd": 0.2}, business={"years": 3})
    under = sr.stresses(plan, histories=50, key=1)["Two bad years running"].plan
    keep = [f"sales.{year}" for year in (2027, 2028, 2029)]
    base, run = (sr.simulate(one, histories=50, key=1, keep=keep) for one in (plan, under))

    for year in (2027, 2028):
        assert run[f"sales.{year}"] == pytest.approx(15_172.0, abs=1.0)
    assert (run["sales.2029"] == base["sales.2029"]).all()


def test_a_second_boat_that_comes_later_is_unmanned_in_her_first_season() -> None:
    plan = two_boats(business={"years": 2}).replace({"boat.1.fish_from": date(2028, 6, 1)})
    found = sr.stresses(plan, histories=8, key=1)["Second boat without a skipper"]

    assert found.difference.value == pytest.approx(-10_000.0)
    assert "the whole season of 2028" in found.how


def test_a_second_boat_that_comes_between_two_seasons_is_unmanned_in_the_later_one() -> None:
    """By hand: bought in May 2028, her first season is that of 2028; in that of 2027 she has no skipper to lose."""
    plan = two_boats(business={"years": 2}).replace({"boat.1.fish_from": date(2028, 5, 1)})
    found = sr.stresses(plan, histories=8, key=1)["Second boat without a skipper"]

    assert found.difference.value == pytest.approx(-10_000.0)
    assert "the whole season of 2028" in found.how


def test_the_owners_own_stresses_come_after_the_fixed_ones() -> None:
    plan = bare()
    plan["stress"] = [{"name": "The quay closes", "why": "rumour of works", "set": {"standing.+": {"name": "lorry", "amount": 700.0, "month": "jul"}}}]
    found = sr.stresses(sr.Plan.parse(text(plan)), histories=8, key=1)
    own = found["The quay closes"]

    assert own.own
    assert found.stresses[-1] is own
    assert own.how == "rumour of works"
    assert own.difference.value == pytest.approx(-700.0)
    assert "own: The quay closes: rumour of works." in " ".join(str(found).split())
    assert {stress.name for stress in found if not stress.own} | {name for name, _ in found.do_not_apply} == set(NAMES)
