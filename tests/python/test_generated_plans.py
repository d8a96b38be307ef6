# SPDX-License-Identifier: MIT
"""What holds in every history of every plan, whatever it is made of.

Source of all expectations: definitions of the rungs, of a day and of the two books, and common practice; each is an
identity or a bound that needs no other model. The plans are drawn by `generated_plans`; the short form is the same
each time, `--hypothesis-profile=long` draws many and others.
"""

from __future__ import annotations

import copy
from datetime import date
from typing import Any

import numpy as np
import seasonrisk as sr
from generated_numbers import Values
from generated_plans import plans
from generated_selling import goods_of
from hypothesis import given, strategies as st
from run_checks import (
    A_PENNY,
    CAUSES,
    closing_cash_by_the_books,
    names_in,
    season_days,
    seasons_of,
    years_later,
)
from small_plan import text

KEYS = st.integers(0, 2**64 - 1)
HISTORIES = 64
ROUNDING = 1e-9  # of a sum that is added up in another order


def run_of(values: Values, key: int) -> sr.Run:
    return sr.simulate(sr.Plan.parse(text(values)), histories=HISTORIES, key=key, keep="all", threads=1)


def total(run: sr.Run, *names: str) -> Any:
    """Sum of the columns that the run has."""
    return sum((run[name] for name in names if name in run), np.zeros(HISTORIES))


def by_boat(run: sr.Run) -> dict[str, str]:
    """The ending of each boat's columns."""
    boats = names_in(run.plan, "boat")
    return {boat: f".{boat}" if len(boats) > 1 else "" for boat in boats}


@given(plans(), KEYS)
def test_every_plan_is_sound_and_can_be_told_in_words(values: Values, key: int) -> None:
    plan = sr.Plan.parse(text(values))  # tells what is wrong, when anything is
    run = sr.simulate(plan, histories=HISTORIES, key=key)

    assert values["boat"][0]["name"] in plan.describe()
    assert f"{HISTORIES} simulated" in " ".join(str(run).split())
    assert f"{len(run.replay(0))} days" in repr(run.replay(0))


@given(plans(), KEYS)
def test_money_is_conserved(values: Values, key: int) -> None:
    run = run_of(values, key)

    def gap(left: str, right: Any) -> None:
        np.testing.assert_allclose(run[left], right, rtol=0.0, atol=A_PENNY, err_msg=left)

    gap("closing_cash", closing_cash_by_the_books(run))
    gap("closing_cash", run[f"cash.{run.months[-1]}"])
    gap("end_position", run["closing_cash"] + run["owed_to_us"] - run["owed_by_us"] - run["loan_balance"] + run["assets"])
    for year in ("", *(f".{y}" for y in seasons_of(run.plan) if len(seasons_of(run.plan)) > 1)):
        costs = ("fuel", "bait", "day_costs", "crew_pay", "selling_costs", "order_shortfalls", "repairs", "pots_lost_cost",
                 "quota_lease", "switch_costs", "missed_settlements", "rehire")
        gap("running" + year, run["sales" + year] + run["claims" + year] - total(run, *(cost + year for cost in costs)))
        gap("standing" + year, run["running" + year] - run["standing_costs" + year] - run["inputs" + year])
        gap("loan" + year, run["standing" + year] - run["loan_payments" + year] - run["overdraft_interest" + year])
        gap("household" + year, run["loan" + year] - run["tax" + year] - run["draw" + year] + run["other_income" + year])


@given(plans(), KEYS)
def test_what_is_landed_is_sold_or_dies_or_is_left(values: Values, key: int) -> None:
    run = run_of(values, key)
    outlets = [outlet["name"] for outlet in values["outlet"]]
    landed = {kind["name"]: np.zeros(HISTORIES) for kind in values["species"]}
    units = {g["name"]: g.get("sold_units_per_unit", 1.0) for kind in values["species"] for g in kind.get("grade", [])}
    for good, species in goods_of(values["species"]).items():
        delivered = [f"delivered.{order['who']}" for order in values.get("order", []) if order["grade"] == good]
        left = [f"{what}.{good}" for what in ("died", "forced", "unsold", "held")]
        landed[species] += total(run, *delivered, *left, *(f"sold.{name}.{good}" for name in outlets)) / units.get(good, 1.0)

    for species, units_gone in landed.items():
        # The plainest selling needs no column for what stays unsold: the one outlet takes all there is.
        np.testing.assert_allclose(units_gone, run[f"catch.{species}"], rtol=ROUNDING, atol=1e-6, err_msg=species)


@given(plans(), KEYS)
def test_days_add_up_for_each_boat_and_years_and_boats_to_the_whole(values: Values, key: int) -> None:
    run = run_of(values, key)
    ends = by_boat(run)

    for end in ends.values():
        days = sum(run[f"days_{cause}{end}"] for cause in CAUSES)
        np.testing.assert_array_equal(days, season_days(run.plan))
        assert (run["days_out" + end] <= run["days_fished" + end] + run["days_gear_in" + end]).all()
    for name in ("days_fished", "days_weather", "days_limit", "hauls", "pots_lost", "storms", "sales", "crew_pay"):
        years = seasons_of(run.plan)
        if len(years) > 1:
            np.testing.assert_allclose(run[name], total(run, *(f"{name}.{y}" for y in years)), rtol=ROUNDING, atol=1e-9)
        if len(ends) > 1:
            np.testing.assert_allclose(run[name], total(run, *(name + end for end in ends.values())), rtol=ROUNDING, atol=1e-9)


@given(plans(), KEYS)
def test_nothing_that_is_counted_is_below_zero(values: Values, key: int) -> None:
    run = run_of(values, key)
    kinds = ("days_", "hauls", "pots_", "storms", "crew_pay", "catch.", "sold.", "ordered.", "delivered.", "short.", "died.",
             "forced.", "unsold.", "held.", "sales", "fuel", "bait", "repairs", "claims", "quota_lease", "tax", "hours",
             "overdraft_interest", "loan_balance", "owed_by_us", "breakdowns.", "missed_settlements")  # fmt: skip

    for name in run.columns:
        assert np.isfinite(run[name]).all(), name
        if name.startswith(kinds):
            # A loan that is paid off is what its last payment leaves of it: nothing, but for rounding.
            assert (run[name] >= (-1e-6 if name.split(".")[0] == "loan_balance" else 0.0)).all(), name
    for boat, hand in ((b, h["name"]) for b in values["boat"] for h in b.get("crew", [])):
        column = f"crew_pay.{boat['name']}.{hand}" if len(values["boat"]) > 1 else f"crew_pay.{hand}"
        assert column in run


def period_of(day: date, per: str, season: int) -> Any:
    return {"day": day, "week": day.isocalendar()[:2], "month": (day.year, day.month), "season": season}[per]


@given(plans(), KEYS)
def test_no_limit_that_stops_is_ever_exceeded(values: Values, key: int) -> None:
    run = run_of(values, key)
    days = run.replay(key % HISTORIES)
    ends = by_boat(run)
    dates = [d.item() for d in days.dates]

    for limit in (limit for limit in values.get("limit", []) if limit["over"] == "stop"):
        landed = sum(days[f"catch.{limit['species']}{end}"] for end in ends.values())
        periods: dict[Any, float] = {}
        for y, season in enumerate(seasons_of(run.plan)):
            first = years_later(limit.get("from", values["season"]["start"]), y)
            last = years_later(limit.get("to", values["season"]["end"]), y)
            for day, units in zip(dates, landed, strict=True):
                if first <= day <= last:
                    # A week that reaches over a season's end begins anew with the next one.
                    at = (season, period_of(day, limit["per"], season))
                    periods[at] = periods.get(at, 0.0) + units
        assert max(periods.values()) <= limit["amount"] * (1.0 + ROUNDING)


@given(plans(), KEYS)
def test_no_boat_is_out_when_anything_holds_it_back(values: Values, key: int) -> None:
    run = run_of(values, key)
    days = run.replay(key % HISTORIES)
    season, years = values["season"], range(values["business"]["years"])
    starts = [years_later(season["start"], y) for y in years]
    stops = [years_later(season.get("stop_on", season["end"]), y) for y in years]
    off = [(years_later(o["from"], y), years_later(o["to"], y)) for o in season.get("days_off", []) for y in years]
    boats = values["boat"]
    held_back = {"gear ashore", "laid up", "broken down", "no skipper", "no crew", "limit reached", "weather", "stayed in", "rest day", "day off", ""}
    counted = {boat["name"]: dict.fromkeys(CAUSES, 0) for boat in boats}
    word_of = {"ashore": "gear ashore", "laid_up": "laid up", "broken_down": "broken down", "no_skipper": "no skipper", "no_crew": "no crew",
               "limit": "limit reached", "weather": "weather", "stayed_in": "stayed in", "rest": "rest day", "off": "day off"}  # fmt: skip

    for n, (day, why) in enumerate(zip((d.item() for d in days.dates), days.why, strict=True)):
        words = dict(part.split(": ") for part in why.split("; ")) if len(boats) > 1 and why else {boats[0]["name"]: why}
        for boat, end in zip(boats, by_boat(run).values(), strict=True):
            word = words.get(boat["name"], "")
            out = days["out" + end][n]
            assert (out == 0.0) == (word in held_back), (day, word)
            if not out:
                assert days["hauls" + end][n] == 0.0
                assert all(days[f"catch.{kind['name']}{end}"][n] == 0.0 for kind in values["species"])
                for cause, said in word_of.items():
                    counted[boat["name"]][cause] += word == said
                continue
            assert f"{day:%A}" not in season.get("rest_days", [])
            assert not any(first <= day <= last for first, last in off)
            assert day >= boat.get("fish_from", day)
            in_season = any(first <= day <= stop for first, stop in zip(starts, stops, strict=True))
            assert in_season or word == "gear in", (day, word)
        if days["out" + by_boat(run)[boats[0]["name"]]][n]:
            assert days["weather_bad"][n] == 0.0 or not any(s <= day for s in starts)
    history = key % HISTORIES
    for boat, end in by_boat(run).items():
        assert {c: run[f"days_{c}{end}"][history] for c in word_of} == {c: counted[boat][c] for c in word_of}


@given(plans(), KEYS)
def test_after_a_breakdown_the_boat_lies_still_for_the_days_it_takes(values: Values, key: int) -> None:
    lost = 4
    values = copy.deepcopy(values)
    for boat in values["boat"]:
        boat.pop("spare", None)
        for kind in boat.get("breakdown", []):
            kind["days_lost"] = lost
    run = run_of(values, key)
    days = run.replay(key % HISTORIES)
    out = np.array([days["out" + end] for end in by_boat(run).values()])

    for n in np.flatnonzero(days["repairs"] > 0.0):
        after = out[out[:, n] == 1.0][:, n + 1 : n + 1 + lost]  # the boats that were out on the day
        assert (after.sum(axis=1) == 0.0).any()
