# SPDX-License-Identifier: MIT
"""The same luck, whatever is changed or added: generated plans beside the same plans with one thing changed.

Source of all expectations: the rules of addresses (what is appended moves no draw) and common practice (more for the
same catch cannot leave less), history by history. Where the model does not promise the second, the test takes away
what breaks the promise and says why.
"""

from __future__ import annotations

import copy
from datetime import timedelta
from typing import Any

import numpy as np
import seasonrisk as sr
from generated_numbers import Values
from generated_plans import plans
from generated_selling import goods_of
from hypothesis import assume, given, strategies as st
from run_checks import changed
from small_plan import text

KEYS = st.integers(0, 2**64 - 1)
HISTORIES = 64
AT_SEA = ("days_", "bad_weather_days", "hauls", "pots_", "storms", "breakdowns.", "catch.", "total_loss")
MONEY_AT_SEA = ("fuel", "bait", "day_costs", "repairs", "switch_costs")


def run_of(plan: Values | sr.Plan, key: int) -> sr.Run:
    plan = plan if isinstance(plan, sr.Plan) else sr.Plan.parse(text(plan))
    return sr.simulate(plan, histories=HISTORIES, key=key, keep="all", threads=1)


def times(value: Any, factor: float) -> Any:
    """A number of a plan, known, guessed or by name, so many times as large."""
    return {key: times(x, factor) for key, x in value.items()} if isinstance(value, dict) else value * factor


def without(values: Values, *keys: str) -> Values:
    """A copy without these keys, wherever they stand."""

    def strip(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: strip(x) for key, x in value.items() if key not in keys}
        return [strip(x) for x in value] if isinstance(value, list) else value

    return strip(copy.deepcopy(values))


def columns(run: sr.Run, *beginnings: str) -> list[str]:
    return [name for name in run.columns if name.startswith(beginnings)]


def assert_hurts_nobody(base: Values, better: Values, key: int, *, paid_at_once: bool) -> None:
    """No rung of any history is lower. What is earned but paid later can cost overdraft interest in between, so the
    loan rung is promised only where money follows at once."""
    before, after = run_of(base, key), run_of(better, key)
    for rung in ("running", "standing", "loan") if paid_at_once else ("running", "standing"):
        for name in columns(before, rung):
            if name.split(".")[0] == rung:
                assert (after[name] >= before[name] - 1e-6).all(), name


def is_paid_at_once(values: Values) -> bool:
    return not any("paid_after_days" in outlet for outlet in values["outlet"])


@given(plans(), KEYS)
def test_a_better_price_hurts_no_history(values: Values, key: int) -> None:
    # A better price can lead a boat out that would have stayed in, into a breakdown; and of a week that is never
    # paid for, levy and crew's share are owed all the same.
    base = without(values, "stay_in_below", "missed_settlement_odds_per_year")
    better = copy.deepcopy(base)
    for outlet in better["outlet"]:
        outlet["price"] = times(outlet["price"], 1.1)

    assert_hurts_nobody(base, better, key, paid_at_once=is_paid_at_once(base))


@given(plans(), KEYS)
def test_cheaper_fuel_hurts_no_history(values: Values, key: int) -> None:
    base = without(values, "stay_in_below")  # as above: it would go out more often
    better = copy.deepcopy(base)
    better["prices"]["fuel_per_l"] = times(base["prices"]["fuel_per_l"], 0.9)

    assert_hurts_nobody(base, better, key, paid_at_once=True)


@given(plans(), KEYS)
def test_a_lower_deductible_hurts_no_history(values: Values, key: int) -> None:
    better = copy.deepcopy(values)
    for boat in better["boat"]:
        policy = boat.get("insurance", {})
        for own_part in {"deductible", "storm_deductible_fraction"} & set(policy):
            policy[own_part] = times(policy[own_part], 0.6)

    # Tax on a claim can fall due before the insurer pays.
    paid_at_once = "claim_paid_after_days" not in text(values) or "tax_fraction" not in values.get("household", {})
    assert_hurts_nobody(values, better, key, paid_at_once=paid_at_once)


@given(plans(), KEYS)
def test_more_quota_before_leasing_hurts_no_history(values: Values, key: int) -> None:
    base = copy.deepcopy(values)
    leased = {"species": values["species"][0]["name"], "per": "month", "amount": 90, "over": "lease", "lease_price": 0.7}
    base.setdefault("limit", []).append(leased)
    better = copy.deepcopy(base)
    for limit in better["limit"]:
        if limit["over"] == "lease":
            limit["amount"] = times(limit["amount"], 1.5)

    assert_hurts_nobody(base, better, key, paid_at_once=True)


def plain_landings(values: Values) -> Values:
    """Business where one unit more on the quay is worth something, costs nothing and takes nothing from tomorrow.

    Taken away is: what a day out costs or breaks; pots that fill while the boat lies still; pots lost earlier because
    they were set earlier; other boats' ground; crews (the share of another boat's catch); sale below cost, by room
    for all goods together, by the price that answers landings, by orders at a poor price, by a full store.
    """
    base = without(
        values, "stay_in_below", "breakdown", "spare", "day_costs", "fuel_l_per_100_hauls", "crew", "gear_loss",
        "setting_days", "ground_share", "usual_soak_nights", "soak_time_constant_nights", "order", "holding", "input",
        "own_landings_flexibility", "missed_settlement_odds_per_year", "cost_per_unit", "demand_per_open_day", "demand_sd",
    )  # fmt: skip
    base["prices"]["bait_per_haul"] = 0
    for boat in base["boat"]:
        boat["fuel_l_per_day_out"] = 0
    for outlet in base["outlet"]:
        room = outlet.get("daily_limit")
        if not isinstance(room, dict) or "typical" in room:  # for all goods together
            outlet.pop("daily_limit", None)
    return base


@given(plans(), KEYS, st.sampled_from(("day", "week", "month", "season")))
def test_a_higher_landing_limit_hurts_no_history_where_more_is_never_worse(values: Values, key: int, per: str) -> None:
    base = plain_landings(values)
    names = [kind["name"] for kind in base["species"]]
    base["limit"] = [{"species": name, "per": per, "amount": 40.0, "over": "stop"} for name in names]
    better = copy.deepcopy(base)
    for limit in better["limit"]:
        limit["amount"] = 55.0

    assert_hurts_nobody(base, better, key, paid_at_once=is_paid_at_once(base))


@given(plans(), KEYS)
def test_more_room_at_the_last_outlet_hurts_no_history(values: Values, key: int) -> None:
    # What found no room was worth nothing; only a store, or selling below cost, could make it worth more unsold.
    base = without(values, "holding", "cost_per_unit", "missed_settlement_odds_per_year")
    base["outlet"][-1].setdefault("daily_limit", 40)
    better = copy.deepcopy(base)
    better["outlet"][-1]["daily_limit"] = times(base["outlet"][-1]["daily_limit"], 1.5)

    assert_hurts_nobody(base, better, key, paid_at_once=is_paid_at_once(base))


@given(plans(), KEYS, st.data())
def test_a_choice_that_sets_what_stands_there_changes_no_bit(values: Values, key: int, data: st.DataObject) -> None:
    plan = sr.Plan.parse(text(values))
    paths = data.draw(st.lists(st.sampled_from(sorted(plan.numbers)), min_size=1, max_size=5, unique=True))
    before, after = run_of(plan, key), run_of(plan.choose({path: plan.numbers[path] for path in paths}), key)

    assert after.columns == before.columns
    assert changed(before, after, list(before.columns)) == []


SPRAT: Values = {"name": "sprat", "unit": "kg", "per_haul": 0.3, "year_sd": 0.2, "day_sd": 0.3, "day_persistence": 0.4, "boat_day_sd": 0.2}


def sells_sprat(values: Values) -> Values:
    """A copy with one species more. A single species' year holds all that the weather leaves of it, and of several
    each a part, so the tie of an only one is left out."""
    after = copy.deepcopy(values)
    after["species"].append(SPRAT | {"year_carry": values["species"][0]["year_carry"]})
    after["outlet"][-1]["price"]["sprat"] = 2.0
    return after


@given(plans(), KEYS)
def test_a_species_more_leaves_days_gear_and_the_other_catches_to_the_bit(values: Values, key: int) -> None:
    # A species without a limit leads a boat out that had reached all its limits, and one more to sell makes more days
    # worth it.
    base = without(values, "limit", "stay_in_below", *(["together"] if len(values["species"]) == 1 else []))
    more = sells_sprat(base)
    for fishery in more["boat"][-1]["fishery"]:
        fishery["species"] = [*fishery["species"], "sprat"]
    before, after = run_of(base, key), run_of(more, key)
    hauls = "hauls" if len(more["boat"]) == 1 else f"hauls.{more['boat'][-1]['name']}"

    kept = columns(before, *AT_SEA, *MONEY_AT_SEA, "sold.", "unsold.", "died.", "forced.", "held.", "delivered.", "short.")
    assert changed(before, after, [name for name in kept if name in after]) == []
    assert after["catch.sprat"].any() == after[hauls].any()


@given(plans(), KEYS)
def test_a_boat_more_on_other_ground_leaves_the_others_days_catch_and_pay_to_the_bit(values: Values, key: int) -> None:
    assume(len(values["boat"]) < 3)
    base = without(values, *(["together"] if len(values["species"]) == 1 else []))
    # As weatherly as the first boat: the tie of one day's weather to the next over a month's turn is common to all.
    base["boat"][0].pop("weather_odds_multiplier", None)
    more = sells_sprat(base)
    more["boat"].append(
        {"name": "Dory", "skipper": "hired", "fuel_l_per_day_out": 20, "fishery": [{"gear": "pots", "species": ["sprat"], "count": 90, "hauls_per_day": 60}]}
    )
    before, after = run_of(base, key), run_of(more, key)

    names = {name: name for name in columns(before, "sold.", "died.", "forced.", "held.", "delivered.", "short.", "catch.", "bad_weather_days")}
    only = base["boat"][0]["name"] if len(base["boat"]) == 1 else None
    for name in columns(before, *AT_SEA, "crew_pay."):
        head, *rest = name.split(".")
        if only is None:
            names |= {name: name} if "." in name else {}  # a name alone is the sum over boats
        elif head not in ("catch", "bad_weather_days", "pots_lost_cost"):
            names[name] = ".".join((head, only, *rest))
    known = {name: other for name, other in names.items() if other in after and not name.rpartition(".")[2].isdigit()}
    assert len(known) > 20
    assert [n for n, other in known.items() if not np.array_equal(before[n].view(np.uint64), after[other].view(np.uint64))] == []


@given(plans(), KEYS)
def test_an_order_more_leaves_the_sea_and_the_orders_before_it_to_the_bit(values: Values, key: int) -> None:
    good = next(iter(goods_of(values["species"])))
    held = {holding["grade"] for holding in values.get("holding", [])}
    more = copy.deepcopy(values)
    more.setdefault("order", []).append({"who": "school", "grade": good, "quantity": 12, "days": ["Wednesday", "Friday"], "price": 6})
    before, after = run_of(values, key), run_of(more, key)

    # What the new order takes of a store, or of what would have filled an outlet's room, is missed another day.
    earlier = [order["who"] for order in values.get("order", []) if order["grade"] not in held]
    kept = columns(before, *AT_SEA, *MONEY_AT_SEA, *(f"{what}.{who}" for who in earlier for what in ("delivered", "short")))
    assert changed(before, after, kept) == []
    assert "delivered.school" in after


@given(plans(), KEYS)
def test_a_closure_that_never_comes_changes_no_bit_and_one_that_comes_no_weather(values: Values, key: int) -> None:
    before = run_of(values, key)

    def with_closure(odds: float) -> sr.Run:
        more = copy.deepcopy(values)
        closure = {"name": "new closure", "odds_per_year": odds, "from": values["season"]["start"] + timedelta(days=9), "days": 12}
        more.setdefault("shock", []).append(closure)
        return run_of(more, key)

    assert changed(before, with_closure(0.0), list(before.columns)) == []
    comes = with_closure(1.0)
    assert changed(before, comes, columns(before, "bad_weather_days", "days_rest", "days_off", "total_loss")) == []


@given(plans(), KEYS)
def test_an_outlet_more_leaves_the_sea_and_the_outlets_before_it_to_the_bit(values: Values, key: int) -> None:
    # One more buyer can make a day worth it, and takes at once what a store would have kept for another day.
    base = without(values, "stay_in_below", "holding")
    goods = list(goods_of(base["species"]))
    more = copy.deepcopy(base)
    more["outlet"].append({"name": "smokehouse", "price": dict.fromkeys(goods, 1.5), "week_sd": 0.1, "year_carry": base["outlet"][0]["year_carry"]})
    before, after = run_of(base, key), run_of(more, key)

    kept = columns(before, *AT_SEA, *MONEY_AT_SEA, "sold.", "delivered.", "short.")
    assert changed(before, after, kept) == []


@given(plans(), KEYS)
def test_a_guess_more_changes_only_what_it_bears_on(values: Values, key: int) -> None:
    base = without(values, "stay_in_below")  # dear fuel keeps in
    base["prices"]["fuel_per_l"] = 1.0
    more = copy.deepcopy(base)
    more["prices"]["fuel_per_l"] = {"low": 0.8, "typical": 1.0, "high": 1.3}
    before, after = run_of(base, key), run_of(more, key)

    kept = columns(before, *AT_SEA, "sales", "sold.", "bait", "repairs", "standing_costs", "inputs", "selling_costs", "draw", "loan_payments")
    assert changed(before, after, kept) == []
    assert not before["fuel"].any() or changed(before, after, ["fuel"]) == ["fuel"]
