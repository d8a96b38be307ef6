# SPDX-License-Identifier: MIT
"""The number of the plan at which a rung is just covered.

Sources: sums by hand on the smallest plan (every season alike), and the closed form of the season
`year-luck-log-normal` of the outside checks: sales are log-normal.
"""

from __future__ import annotations

import datetime as dt
import math
import statistics
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from season_checks import checks_file, entries
from seasonrisk.choice.break_even import _counting_on
from small_plan import bare, text

KEY = 4007
CLOSED = "year-luck-log-normal"
needs_checks = pytest.mark.skipif(checks_file() is None, reason="the outside checks are not here")


def plan_of(**sections: Any) -> sr.Plan:
    return sr.Plan.parse(text(bare(**sections)))


def by_hand() -> sr.Plan:
    """100 days of 100 hauls of 1 kg: sales 10,000 at a price of 1; fuel 100 days x 10 l; bills of 4,000."""
    standing = {"name": "Bare Poles", "fuel_l_per_day_out": 10.0}
    plan = bare(boat=standing)
    plan["standing"] = [{"name": "bills", "amount": 4000.0, "month": "jul"}]
    return sr.Plan.parse(text(plan))


def log_normal_plan() -> sr.Plan:
    return sr.Plan.parse(entries()[CLOSED]["plan"])


def find(plan: sr.Plan, what: Any, **asked: Any) -> sr.BreakEven:
    return sr.break_even(plan, what, **{"histories": 64, "key": KEY, **asked})


@pytest.mark.parametrize(
    ("what", "value", "rising"),
    [
        ("outlet.0.price.crab", 0.5, True),  # 10,000 p = 1,000 + 4,000
        ("price", 0.5, True),
        ("catch", 0.5, True),
        ("fuel", 6.0, False),  # 1,000 f = 10,000 - 4,000
        ("standing.0.amount", 9000.0, False),
        ("prices.bait_per_haul", 0.5, False),  # 10,000 hauls x b = 10,000 - 1,000 - 4,000
    ],
)
def test_without_luck_it_is_the_sum_by_hand(what: str, value: float, rising: bool) -> None:
    between = (0.0, 2.0) if what.endswith("bait_per_haul") else (0.1, 8.0) if what == "fuel" else None
    found = find(by_hand(), what, of="standing", between=between)

    assert [c.rising for c in found.crossings] == [rising]
    assert found.value is not None
    assert found.value.value == pytest.approx(value, rel=1e-9)
    assert found.value.exact
    assert found.runs <= 14  # nine looked at first; a straight line takes a step or two more


def test_several_move_by_one_factor_or_along_a_line() -> None:
    """By hand: price and catch together 10,000 f^2 = 5,000; along the line the price falls from 1 to 0 and the bills
    from 4,000 to 2,000: 10,000 (1 - t) = 1,000 + 4,000 - 2,000 t."""
    together = find(by_hand(), ["price", "catch"], of="standing")
    line = find(by_hand(), {"outlet.0.price.crab": (1.0, 0.0), "standing.0.amount": (4000.0, 2000.0)}, of="standing")

    assert together.value is not None
    assert line.value is not None
    assert together.value.value == pytest.approx(math.sqrt(0.5), rel=1e-8)
    assert line.value.value == pytest.approx(5000.0 / 8000.0, rel=1e-8)
    assert [c.rising for c in line.crossings] == [False]


def test_a_target_other_than_nothing() -> None:
    found = find(by_hand(), "price", of="standing", target=1500.0)

    assert found.value is not None
    assert found.value.value == pytest.approx(0.65, rel=1e-9)


def test_days_are_whole_and_the_first_that_reaches_it() -> None:
    """By hand: each day leaves 100 - 10 = 90, so 4,000 of bills need 45 days, the last of them 15 July 2027."""
    found = find(by_hand(), "days", of="standing")

    assert found.value is not None
    assert found.days_fished is not None
    assert found.value.value == 45.0
    assert found.plan_at(45.0)["season.stop_on"] == dt.date(2027, 7, 15)
    assert [e.value for e in found.days_fished] == [45.0, 100.0]
    assert sr.simulate(found.plan_at(44.0), histories=4, key=KEY)["standing"].max() < 0.0
    assert "15 July 2027" in repr(found)


def test_a_rung_that_can_never_be_met_is_said_with_what_the_ends_give() -> None:
    """By hand: without any fuel price 10,000 - 4,000 - 7,000 of bills is below 0."""
    plan = by_hand().replace({"standing.0.amount": 12000.0})
    found = find(plan, "fuel", of="standing")
    page = " ".join(repr(found).split())

    assert found.crossings == ()
    assert found.value is None
    assert page.startswith("No such value in the range looked at: the bills are covered on average with fuel")
    assert "0.2 GBP a litre gives -2,200 GBP and 5 GBP a litre gives -7,000 GBP" in page


def test_a_rung_that_is_met_everywhere_is_said_too() -> None:
    found = find(by_hand(), "fuel", of="running")

    assert found.value is None
    assert "anywhere in the range looked at, so there is no such value in it" in " ".join(repr(found).split())


@needs_checks
def test_for_a_mean_the_closed_form_lies_inside() -> None:
    """Mean standing = 0.785 x 58,335.20 x (p / 14) exp(-0.3 x 0.18 x 0.12) - costs, so the mean is 0 where the sales
    factor is costs / 0.785 / 57,958.41; costs = 0.785 x 57,958.41 - 17,417.3519, all from the entry."""
    share = 1.0 - 17417.3519 / (0.785 * 57958.41)
    found = find(log_normal_plan(), "price", of="standing", histories=20_000)

    assert found.value is not None
    assert abs(found.value.value - 14.0 * share) < 4.0 * found.value.standard_error  # a false alarm in 16,000 keys
    assert found.value.standard_error == pytest.approx(14.0 * share * 0.18552 / math.sqrt(20_000), rel=0.1)  # sd / mean of sales


@needs_checks
def test_for_a_chance_the_closed_form_lies_inside() -> None:
    """ln sales is normal, so loan is covered in 9 of 10 seasons where its 1-in-10 low is 0: a p S10 = costs."""
    spread = math.sqrt(0.18**2 + 0.12**2 - 2.0 * 0.3 * 0.18 * 0.12)
    low = 58335.20 * math.exp(-(0.18**2 + 0.12**2) / 2.0 + statistics.NormalDist().inv_cdf(0.1) * spread)
    costs = 0.785 * 57958.41 - 10324.1257
    found = find(log_normal_plan(), "price", of="loan", chance=0.9, histories=20_000)

    assert found.value is not None
    assert abs(found.value.value - 14.0 * costs / (0.785 * low)) < 4.0 * found.value.standard_error
    at = sr.simulate(found.plan_at(found.value.value), histories=20_000, key=KEY)
    assert at.chance("loan").value == pytest.approx(0.9, abs=0.0002)  # a root of the curve of this very luck


@needs_checks
@pytest.mark.parametrize("chance", [None, 0.9])
def test_intervals_cover_the_closed_form(chance: float | None) -> None:
    """40 runs here (the engine's own search is held to 400): with a true coverage of 0.95 fewer than 33 or, for the
    control, more than 32 come once in 2,000 times. Control: the run's interval moved by its own width covers nothing."""
    spread = math.sqrt(0.18**2 + 0.12**2 - 2.0 * 0.3 * 0.18 * 0.12)
    low = 58335.20 * math.exp(-(0.18**2 + 0.12**2) / 2.0 + statistics.NormalDist().inv_cdf(0.1) * spread)
    costs = 0.785 * 57958.41 - 10324.1257
    truth = 14.0 * costs / (0.785 * (57958.41 if chance is None else low))
    covered, moved = 0, 0
    for key in range(40):
        value = find(log_normal_plan(), "price", of="loan", chance=chance, histories=400, key=key, between=(8.0, 18.0)).value
        assert value is not None
        covered += value.low <= truth <= value.high
        moved += value.low <= truth + (value.high - value.low) <= value.high
    assert covered >= 33
    assert moved <= 10


def test_fin_08_break_even_units() -> None:
    """FIN-08: sold at 29.00, 13.70 of costs each and 13,127.40 of bills breaks even at 858 units (textbook exercise of
    managerial accounting, by a solution page). 100 days of 100 hauls, so 0.0858 units a haul."""
    plan = bare(outlet={"price": {"crab": 29.0}, "cost_per_unit": 13.7})
    plan["standing"] = [{"name": "bills", "amount": 13_127.4, "month": "jul"}]
    found = find(sr.Plan.parse(text(plan)), "catch", of="standing", between=(0.01, 1.0))

    assert found.value is not None
    assert 10_000.0 * found.value.value == pytest.approx(858.0, abs=1e-3)


def test_a_guess_is_moved_as_a_whole() -> None:
    plan = by_hand().replace({"prices.fuel_per_l": sr.Guess(0.8, 1.0, 1.5)})
    found = find(plan, "fuel", of="standing", between=(2.0, 8.0), histories=2000)

    assert found.value is not None
    value = found.value.value
    moved = found.plan_at(value)["prices.fuel_per_l"]
    assert isinstance(moved, sr.Guess)
    assert (moved.low, moved.typical, moved.high) == pytest.approx((0.8 * value, value, 1.5 * value))
    # The mean fuel price is 6 (by hand above); its mean over typical is that of the guess, by the plan's own rule.
    entry = next(e for e in plan.entries if e.path == "prices.fuel_per_l")
    assert abs(found.value.value - 6.0 / entry.mean()) < 4.0 * found.value.standard_error
    assert "A guess was moved as a whole" in repr(found)


def test_a_hump_gives_two_values_and_a_word_of_caution() -> None:
    """Too few pots catch too little, too many crowd each other, and bait that grows dearer eats the rest."""
    plan = by_hand().replace({"boat.0.fishery.0.elasticity": 0.5, "standing.0.amount": 7000.0, "boat.0.fishery.0.hauls_per_day": 20})
    line = {"boat.0.fishery.0.hauls_per_day": (20.0, 400.0), "boat.0.fishery.0.count": (20.0, 400.0), "prices.bait_per_haul": (0.0, 0.6)}
    found = find(plan, line, of="standing")

    assert [c.rising for c in found.crossings] == [True, False]
    assert found.turns
    assert "the target is passed 2 times" in " ".join(repr(found).split())


def test_the_range_stays_inside_what_the_key_may_be() -> None:
    plan = by_hand().replace({"weather.unfishable_fraction": 0.4})
    found = find(plan, "weather.unfishable_fraction", of="standing")

    assert found.moved.grid[0] == pytest.approx(0.08)
    assert found.moved.grid[-1] == 1.0


def test_what_cannot_be_meant_is_refused_by_name() -> None:
    plan = by_hand()
    with pytest.raises(KeyError, match=r"did you mean prices\.fuel_per_l"):
        find(plan, "prices.fuel_per")
    with pytest.raises(ValueError, match=r"business\.name': is not a number"):
        find(plan, "business.name")
    with pytest.raises(ValueError, match=r"chance=90: must be above 0 and below 1"):
        find(plan, "price", chance=90)
    with pytest.raises(ValueError, match="target=nan"):
        find(plan, "price", target=math.nan)
    with pytest.raises(ValueError, match=r"between=\(2.0, 1.0\)"):
        find(plan, "price", between=(2.0, 1.0))
    with pytest.raises(ValueError, match="so a range to search must be given"):
        find(plan, "bait")
    with pytest.raises(ValueError, match="no number of that kind"):
        find(plan, "crew share")
    with pytest.raises(ValueError, match=r"between=\(0.5, 1.5\): must lie from 0 to 1"):
        find(plan.replace({"weather.unfishable_fraction": 0.4}), "weather.unfishable_fraction", between=(0.5, 1.5))
    with pytest.raises(TypeError, match="must be a Plan"):
        sr.break_even("plan.toml", "price")  # type: ignore[arg-type]


def test_progress_counts_on_over_the_runs() -> None:
    seen: list[int] = []
    tell = _counting_on(seen.append, 3000)
    assert callable(tell)
    tell(10)

    assert seen == [3010]
    assert _counting_on(True, 3000) is True


def test_ctrl_c_passes_on() -> None:
    def stop(done: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        find(by_hand(), "price", of="standing", histories=200_000, progress=stop)


def test_every_value_tried_is_in_the_table() -> None:
    found = find(by_hand(), "price", of="standing")

    assert len(found.table.rows) == found.runs == len(found.tried)
    frame = found.to_pandas()
    assert np.allclose(frame.iloc[:, 1], 10000.0 * frame.iloc[:, 0] - 5000.0)
