# SPDX-License-Identifier: MIT
"""Tiny seasons worked out by hand: one part of the plan at a time, where a second reading found a fault or might.

Source of all expected figures: the arithmetic beside them (by hand), from the definitions of the model. The bare plan
fishes 100 days, 1 June to 8 September 2027, hauls 100 pots a day, lands 1 kg a haul and sells it at 1.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from small_plan import bare, text

PENNY = 0.005


def run_of(plan: dict[str, Any], histories: int = 64, **changes: Any) -> Any:
    parsed = sr.Plan.parse(text(plan))
    return sr.simulate(parsed.choose(changes) if changes else parsed, histories=histories, key=5, keep=["all"])


def fishery(**keys: Any) -> dict[str, Any]:
    return {"gear": "pots", "count": 100, "hauls_per_day": 100, "species": ["crab"], **keys}


def test_selling_costs_are_by_the_sold_unit_of_a_grade() -> None:
    plan = bare(outlet={"price": {"large": 2.0, "small": 1.0}, "cost_per_unit": 0.5})
    plan["species"][0]["grade"] = [
        {"name": "large", "fraction": 0.6, "sold_by": "dozen", "sold_units_per_unit": 0.5},
        {"name": "small", "fraction": 0.4},
    ]

    run = run_of(plan)

    # 10,000 kg: 6,000 x 0.5 = 3,000 dozen and 4,000 kg; 7,000 units at 0.50, sales 3,000 x 2 + 4,000.
    assert run["selling_costs"] == pytest.approx(3500.0, abs=PENNY)
    assert run["sales"] == pytest.approx(10_000.0, abs=PENNY)


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_the_order_of_limits_on_a_species_changes_nothing(order: tuple[int, int]) -> None:
    limits = [
        {"species": "crab", "per": "season", "amount": 3000.0, "over": "lease", "lease_price": 0.1},
        {"species": "crab", "per": "day", "amount": 50.0, "over": "stop"},
    ]
    plan = bare()
    plan["limit"] = [limits[n] for n in order]

    run = run_of(plan)

    # 100 days of 50 kg land 5,000; the 2,000 above 3,000 are leased at 0.10.
    assert run["catch.crab"] == pytest.approx(5000.0)
    assert run["quota_lease"] == pytest.approx(200.0)


def test_gear_comes_in_from_the_last_pot_fishery_that_is_worked() -> None:
    plan = bare(ending={"gear_in_days": 5})
    plan["boat"][0]["fishery"] = [
        fishery(to=date(2027, 7, 15)),
        fishery(**{"from": date(2027, 7, 16)}),
    ]

    assert (run_of(plan)["days_gear_in"] == 5).all()
    # Stopped before the second begins, the first has to be brought in.
    stopped = run_of(plan, **{"season.stop_on": date(2027, 7, 10)})
    assert (stopped["days_gear_in"] == 5).all()
    assert (stopped["days_ashore"] == 60).all()  # 11 July to 8 September


def test_gear_in_days_haul_without_bait_and_end_with_all_pots_ashore() -> None:
    plan = bare(ending={"gear_in_days": 4}, prices={"bait_per_haul": 1.0})

    run = run_of(plan)

    # 96 days of 100 baited hauls; four of 25 without.
    assert run["bait"] == pytest.approx(9600.0)
    assert run["hauls"] == pytest.approx(9700.0)
    assert (run["pots_left"] == 100).all()


def test_a_date_at_home_after_the_season_is_kept() -> None:
    plan = bare(weather={"unfishable_fraction": 0.5})
    plan["family_date"] = [{"name": "feast", "date": date(2027, 12, 25), "gear_ashore": False}]

    assert (run_of(plan)["family.feast"] == 1).all()


def test_staying_in_asks_nothing_of_other_histories() -> None:
    plan = bare(weather={"unfishable_fraction": 0.5})
    plan["boat"][0]["fishery"][0]["setting_days"] = 2
    plan["boat"][0]["stay_in_below"] = 1e6

    # Only the two days that set the gear are fished, in every history.
    assert (run_of(plan, histories=256)["days_fished"] == 2).all()


def test_an_early_stop_leaves_earlier_storms_and_lessens_their_odds() -> None:
    plan = bare(weather={"unfishable_fraction": 0.3})
    plan["boat"][0]["gear_loss"] = {
        "season_fraction": 0.0,
        "pot_cost": 10.0,
        "replace": "next season",
        "storm_odds_per_season": 0.5,
        "storm_loss_fraction": 0.2,
    }
    whole = run_of(plan, histories=20_000)["storms"]
    stopped = run_of(plan, histories=20_000, **{"season.stop_on": date(2027, 7, 20)})["storms"]

    assert (stopped <= whole).all()
    # Half the days: odds 1 - sqrt(0.5) = 0.293 of at least one. Spells of weather move it by less than 0.01; the
    # standard error at 20,000 is 0.003, so 0.02 is passed by chance less than once in 10,000.
    assert np.mean(stopped > 0) == pytest.approx(0.293, abs=0.02)
    assert np.mean(whole > 0) > 0.45


def test_stock_goes_on_dying_and_selling_over_the_end_of_a_money_year() -> None:
    plan = bare(business={"years": 2, "books_start": date(2026, 10, 1)}, outlet={"open_days": ["Sunday"], "daily_limit": 100.0})
    plan["holding"] = [
        {
            "grade": "crab",
            "keep_for": "quay",
            "keep_fraction": 1.0,
            "capacity": 1000.0,
            "longest_days": 100,
            "loss_per_night_fraction": 0.0,
            "forced_price_fraction": 0.0,
        }
    ]

    run = run_of(plan)

    # The store is full, 1,000 kg, on 8 September; the books close on the 30th after Sundays 12, 19 and 26, and 700 kg
    # are left for seven Sundays of October and November. From 6 June (4 June in 2028) to the end of September there
    # are 17 Sundays.
    assert run["sold.quay.crab.2027"] == pytest.approx(1700.0)
    assert run["sold.quay.crab.2028"] == pytest.approx(700.0 + 1700.0)
    assert run["held.crab"] == pytest.approx(700.0)


def test_four_claims_over_a_deductible_of_100() -> None:
    """Published: Frees (ed.), Loss Data Analytics, example 10.4.4 (INS-20): of claims of 50, 600, 1,800 and 4,000 the
    layer up to 100 bears 350; the layers above bear 0, 500, 1,700 and 3,900."""
    plan = bare(season={"start": date(2027, 6, 1), "end": date(2027, 6, 1)})
    certain = {"per_100_days": 1e6, "days_lost": 0, "claimable_odds": 1.0}
    plan["boat"][0]["breakdown"] = [{"kind": f"of {size}", "repair": float(size), **certain} for size in (50, 600, 1800, 4000)]
    plan["boat"][0]["insurance"] = {"hull_value": 50000.0, "premium": 0.0, "pay_month": "mar", "deductible": 100.0}

    run = run_of(plan)

    assert run["repairs"] - run["claims"] == pytest.approx(350.0)
    assert run["claims"] == pytest.approx(5100.0 + 1000.0)
    assert (run["claims_paid"] == 3).all()


def test_a_buyer_who_gets_nothing_changes_no_bit() -> None:
    plan = bare(
        weather={"unfishable_fraction": 0.3, "persistence": 0.4},
        species={"day_sd": 0.3, "year_sd": 0.2},
        outlet={"price": {"crab": 2.0}, "cost_per_unit": 0.07},
        prices={"levy_fraction": 0.013},
    )
    alone = run_of(plan)
    plan["outlet"].append({"name": "second", "price": {"crab": 9.0}, "week_sd": 0.2})

    beside = run_of(plan)

    assert set(beside.columns) - set(alone.columns) == {"sold.second.crab"}
    for column in alone.columns:
        np.testing.assert_array_equal(beside[column], alone[column], err_msg=column)
