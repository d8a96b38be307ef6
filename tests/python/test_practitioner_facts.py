# SPDX-License-Identifier: MIT
"""What any owner knows, as checks of sense through real plans.

Source of all: common practice, no published source. Costs rising 2.8-fold in nine years against prices rising
by a sixth need several years in a history and come with them.
"""

from __future__ import annotations

from typing import Any

import pytest
import seasonrisk as sr
from small_plan import bare, text

PENNY = 0.005


def simulated(plan: dict[str, Any], histories: int = 50) -> Any:
    return sr.simulate(sr.Plan.parse(text(plan)), histories=histories, key=11, keep=["all"])


def trip_outlay_plan(per_haul: float) -> dict[str, Any]:
    """A day out that costs about 1,000: 350 l at 1.20, 250 pots baited at 1.40, ice and food 230."""
    plan = bare(
        species={"per_haul": per_haul, "year_sd": 0.2, "day_sd": 0.3},
        prices={"fuel_per_l": 1.2, "bait_per_haul": 1.4},
        boat={"fuel_l_per_day_out": 350.0, "day_costs": [{"name": "ice and food", "amount": 230.0}]},
    )
    plan["boat"][0]["fishery"][0].update(count=500, hauls_per_day=250)
    plan["boat"][0]["crew"] = [{"name": "hand", "pay": "share after bait and fuel", "share_fraction": 0.25}]
    return plan


def test_a_trip_that_catches_nothing_loses_the_days_full_outlay_and_no_more() -> None:
    run = simulated(trip_outlay_plan(per_haul=0.0))

    assert run["sales"].max() == 0.0
    assert run["crew_pay"].max() == 0.0  # the hand shares no loss
    assert run["running"] / run["days_fished"] == pytest.approx(-1000.0, abs=PENNY)


def test_a_good_trip_costs_the_same_outlay() -> None:
    """The outlay of a day does not depend on what is caught."""
    empty, full = simulated(trip_outlay_plan(0.0)), simulated(trip_outlay_plan(4.0))

    outlay = full["fuel"] + full["bait"] + full["day_costs"]

    assert outlay == pytest.approx(-empty["running"], abs=PENNY)
    assert full["running"].min() > empty["running"].max()


@pytest.mark.parametrize(("pots", "a_pot"), [(2000, 1.0), (1000, 2.0)])
def test_2000_anodes_at_225_a_hundred_cost_4500_a_year(pots: int, a_pot: float) -> None:
    plan = bare()
    plan["boat"][0]["fishery"][0].update(count=pots, hauls_per_day=250)
    plan["input"] = [{"name": "anodes", "quantity_per_pot": a_pot, "unit_cost": 2.25, "pay_month": "apr"}]

    run = simulated(plan)

    assert run["inputs"] == pytest.approx(4500.0, abs=PENNY)
    assert run["cash.2027-03"] - run["cash.2027-04"] == pytest.approx(4500.0, abs=PENNY)


def test_insurance_upkeep_and_spring_labour_are_owed_in_full_whether_she_fishes_or_not() -> None:
    """About 17,000, 10,000 to 15,000 and 5,000 to 6,000."""
    plan = bare()
    plan["boat"][0]["insurance"] = {
        "hull_value": 400000.0,
        "premium": 17000.0,
        "pay_month": "may",
        "deductible": 5000.0,
    }
    plan["boat"][0]["standing"] = [
        {"name": "upkeep", "amount": {"low": 10000.0, "typical": 12500.0, "high": 15000.0}, "month": "apr"},
        {"name": "spring labour", "amount": 5500.0, "month": "apr"},
    ]
    every_day = simulated(plan, histories=2000)
    plan["weather"]["unfishable_fraction"] = 1.0
    none = simulated(plan, histories=2000)

    assert (every_day["days_fished"].min(), none["days_fished"].max()) == (100.0, 0.0)
    assert (none["standing_costs"] == every_day["standing_costs"]).all()
    assert (none["running"] == 0.0).all()
    assert none["standing"] == pytest.approx(-none["standing_costs"], abs=PENNY)
    # One history in two lies below the typical bill, by the meaning of low / typical / high; 4.5 standard
    # errors at 2,000 histories, false alarm 1 in 150,000, the key is fixed.
    below = (none["standing_costs"] < 17000.0 + 12500.0 + 5500.0).mean()
    assert below == pytest.approx(0.5, abs=0.05)
    assert none["standing_costs"].min() > 17000.0
