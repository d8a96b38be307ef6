# SPDX-License-Identifier: MIT
"""What crabbers know of selling by the bushel and by the dozen, through plans of one week without luck.

Source of all: common practice, no published source. A bushel is six to seven dozen large crabs; whole it brings
160 to 200, by the dozen at a stall 80 to 100 a dozen; held from Monday to Friday it loses at least two dozen,
8 to 11 in 100 of what is left each night. The arithmetic beside each figure is by hand.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
import seasonrisk as sr
from small_plan import bare, text

PENNY = 0.005
WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]


def only_history(plan: dict[str, Any]) -> Any:
    """A plan without luck: eight histories, which must all be the same."""
    run = sr.simulate(sr.Plan.parse(text(plan)), histories=8, key=1, keep=["all"])
    assert all((run[c] == run[c][0]).all() for c in run.columns)
    return run


def week(landing_days: list[str], bushels: float, outlets: list[dict[str, Any]]) -> dict[str, Any]:
    """Monday 7 June to Sunday 13 June 2027: so many bushels on each landing day, no cost at sea."""
    rest_days = [day for day in WEEKDAYS if day not in landing_days]
    plan = bare(
        season={"start": date(2027, 6, 7), "end": date(2027, 6, 13), "rest_days": rest_days},
        species={"unit": "bushel", "per_haul": bushels},
    )
    plan["boat"][0]["fishery"][0].update(count=1, hauls_per_day=1)
    plan["outlet"] = outlets
    return plan


def whole(bushels: float, a_bushel: float) -> dict[str, Any]:
    """Monday's bushels sold on Monday as they are."""
    return week(["Monday"], bushels, [{"name": "wholesaler", "price": {"crab": a_bushel}}])


def stall(day: str, a_dozen: float, **more: Any) -> dict[str, Any]:
    return {"name": "stall", "price": {"large": a_dozen}, "open_days": [day], **more}


def kept(
    landing_days: list[str],
    bushels: float,
    dozens_a_bushel: float,
    night: float,
    outlets: list[dict[str, Any]],
    longest_days: int = 6,
) -> dict[str, Any]:
    """The same bushels picked into dozens, all of them kept for the stall."""
    plan = week(landing_days, bushels, outlets)
    plan["species"][0]["grade"] = [
        {"name": "large", "fraction": 1.0, "sold_by": "dozen", "sold_units_per_unit": dozens_a_bushel}
    ]
    plan["holding"] = [
        {
            "grade": "large",
            "keep_for": "stall",
            "keep_fraction": 1.0,
            "capacity": 1000.0,
            "longest_days": longest_days,
            "loss_per_night_fraction": night,
            "forced_price_fraction": 0.5,
        }
    ]
    return plan


@pytest.mark.parametrize(
    ("dozens", "night", "dead"),
    [
        (7.0, 0.081, 2.0070),  # 7.0 x (1 - 0.919^4) = 7.0 x (1 - 0.713283)
        (6.5, 0.09, 2.0426),  # 6.5 x (1 - 0.91^4)  = 6.5 x (1 - 0.685750)
        (6.0, 0.097, 2.0106),  # 6.0 x (1 - 0.903^4) = 6.0 x (1 - 0.664892)
        (6.0, 0.11, 2.2355),  # 6.0 x (1 - 0.89^4)  = 6.0 x (1 - 0.627422)
        (7.0, 0.11, 2.6080),  # 7.0 x (1 - 0.89^4)
    ],
)
def test_a_bushel_held_from_monday_to_friday_loses_at_least_two_dozen(dozens: float, night: float, dead: float) -> None:
    """Source: common practice. Landed on Monday, it lies for four nights before Friday's stall."""
    run = only_history(kept(["Monday"], 1.0, dozens, night, [stall("Friday", 90.0)]))

    assert run["died.large"] == pytest.approx(dead, abs=1e-4)
    assert run["died.large"].min() >= 2.0
    assert run["sold.stall.large"] == pytest.approx(dozens - dead, abs=1e-4)


def test_the_mildest_night_on_the_smallest_bushel_is_the_end_of_that_rule() -> None:
    """Control, source: arithmetic. 8 in 100 of six dozen: 6 x (1 - 0.92^4) = 6 x (1 - 0.716393) = 1.7016 dozen."""
    run = only_history(kept(["Monday"], 1.0, 6.0, 0.08, [stall("Friday", 90.0)]))

    assert run["died.large"] == pytest.approx(1.7016, abs=1e-4)


def test_of_a_week_of_bushels_kept_for_saturday_the_early_ones_die_most() -> None:
    """Source: common practice, 9 in 100 a night.

    One bushel of 6.5 dozen each day from Monday to Friday lies for 5, 4, 3, 2 and 1 nights. What is left:
    6.5 x (0.624032 + 0.685750 + 0.753571 + 0.8281 + 0.91) = 6.5 x 3.801453 = 24.7094 of 32.5 dozen.
    """
    run = only_history(kept(WEEKDAYS[:5], 1.0, 6.5, 0.09, [stall("Saturday", 90.0)]))

    assert run["sold.stall.large"] == pytest.approx(24.7094, abs=1e-4)
    assert run["died.large"] == pytest.approx(32.5 - 24.7094, abs=1e-4)
    assert run["sales"] == pytest.approx(24.709442 * 90.0, abs=PENNY)


@pytest.mark.parametrize(
    ("a_bushel", "a_dozen", "more"),
    [
        # Whole: 10 bushels. At the stall: 39.366 dozen, less 75 for the day and 6 a dozen, 311.196 in all.
        (160.0, 80.0, 1238.084),  # 3149.280 - 311.196 - 1600
        (180.0, 90.0, 1431.744),  # 3542.940 - 311.196 - 1800
        (200.0, 100.0, 1625.404),  # 3936.600 - 311.196 - 2000
    ],
)
def test_by_the_dozen_brings_more_than_whole_when_the_stall_sells_out(
    a_bushel: float, a_dozen: float, more: float
) -> None:
    """Source: common practice. Ten bushels of six dozen, 10 in 100 dead a night: 60 x 0.9^4 = 39.366 for Friday."""
    by_the_bushel = only_history(whole(10.0, a_bushel))
    market = stall("Friday", a_dozen, cost_per_open_day=75.0, cost_per_unit=6.0)
    by_the_dozen = only_history(kept(["Monday"], 10.0, 6.0, 0.10, [market]))

    assert by_the_bushel["sold.wholesaler.crab"] == pytest.approx(10.0, abs=1e-9)
    assert by_the_bushel["selling_costs"] == pytest.approx(0.0, abs=PENNY)
    assert by_the_dozen["sold.stall.large"] == pytest.approx(39.366, abs=1e-9)
    assert by_the_dozen["selling_costs"] == pytest.approx(311.196, abs=PENNY)
    assert by_the_dozen["running"] - by_the_bushel["running"] == pytest.approx(more, abs=PENNY)


def test_with_too_few_customers_the_stall_brings_less_than_the_bushel_sold_whole() -> None:
    """Source: common practice; who keeps for a stall that does not sell out pays in dead crabs.

    The same ten bushels at 180. Customers take 12 dozen at 90 on Friday; what is left, 39.366 - 12 = 27.366, is on
    its last day and goes to the wholesaler at 30 a dozen, which is 180 a bushel. Sales 1080 + 820.98 = 1900.98, less
    75 and 6 x 12 = 147: 1753.98 against 1800 on Monday. With all of them alive it would have been 2373.
    """
    outlets = [
        stall("Friday", 90.0, daily_limit=12.0, cost_per_open_day=75.0, cost_per_unit=6.0),
        {"name": "wholesaler", "price": {"large": 30.0}},
    ]
    run = only_history(kept(["Monday"], 10.0, 6.0, 0.10, outlets, longest_days=4))
    none_dead = only_history(kept(["Monday"], 10.0, 6.0, 0.0, outlets, longest_days=4))

    assert run["sold.stall.large"] == pytest.approx(12.0, abs=1e-9)
    assert run["sold.wholesaler.large"] == pytest.approx(27.366, abs=1e-9)
    assert run["sales"] == pytest.approx(1900.98, abs=PENNY)
    assert run["running"] == pytest.approx(1753.98, abs=PENNY)
    assert run["running"].max() < only_history(whole(10.0, 180.0))["running"].min()
    assert none_dead["running"] == pytest.approx(2373.0, abs=PENNY)  # 1080 + 48 x 30 - 147
