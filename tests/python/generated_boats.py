# SPDX-License-Identifier: MIT
"""Generated boats: fisheries, crews, machinery, gear loss, insurance, bills."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from generated_numbers import Values, among, days, known, maybe, number, optional_table, size
from hypothesis import strategies as st

if TYPE_CHECKING:
    from generated_plans import When

BOATS = ("Alder", "Birch", "Cedar")


def gear(species: list[str]) -> st.SearchStrategy[Values]:
    pots = st.fixed_dictionaries(
        {"gear": st.just("pots"), "species": st.just(species), "count": number(60.0, 400.0), "hauls_per_day": number(40.0, 250.0)},
        optional={"spare": number(3.0, 20.0), "elasticity": number(0.5, 0.75), "setting_days": days(1, 4)},
    )
    trotline = st.fixed_dictionaries(
        {
            "gear": st.just("trotline"),
            "species": st.just(species),
            "count": number(200.0, 400.0),
            "hauls_per_day": number(100.0, 400.0),
        },
        optional={"elasticity": number(0.5, 0.75)},
    )
    return pots | trotline


@st.composite
def fisheries(draw: st.DrawFn, names: list[str], when: When, catches_all: bool) -> list[Values]:
    first = draw(gear(names if catches_all else draw(among(names))))
    if not draw(st.booleans()):
        return [first]
    turn = draw(when.day(25))
    gap = draw(st.integers(1, 10))  # a gap of more than a day is spent with the gear ashore
    second = draw(gear(draw(among(names)))) | {"from": turn, "switch_cost": draw(number(20.0, 300.0))}
    second["setting_days"] = 0
    return [first | {"to": turn - timedelta(days=gap)}, second]


def crew() -> st.SearchStrategy[list[Values]]:
    def hand(name: str, pay: dict[str, st.SearchStrategy[object]]) -> st.SearchStrategy[Values]:
        absent = st.just({}) | st.fixed_dictionaries(
            {"no_show_fraction": number(0.02, 0.2), "alone_hauls_fraction": st.just(0) | number(0.3, 0.7)}
        )
        return st.tuples(st.fixed_dictionaries({"name": st.just(name), **pay}), absent).map(lambda found: found[0] | found[1])

    share = st.sampled_from(("share of sales", "share after bait and fuel"))
    mate = hand("mate", {"pay": share, "share_fraction": number(0.05, 0.3)})
    second = hand("second", {"pay": share, "share_fraction": number(0.05, 0.3)})
    lad = hand("lad", {"pay": st.just("day wage"), "per_day": number(30.0, 90.0)})
    return st.tuples(maybe(mate), maybe(second), maybe(lad)).map(lambda found: found[0] + found[1] + found[2])


def machinery() -> st.SearchStrategy[Values]:
    minor = st.fixed_dictionaries(
        {"kind": st.just("minor"), "per_100_days": number(1.0, 6.0), "repair": size(80.0, 900.0), "days_lost": days(0, 3)},
        optional={"claimable_odds": number(0.1, 0.4)},
    )
    engine = st.fixed_dictionaries(
        {
            "kind": st.just("engine"),
            "per_100_days": number(0.3, 3.0),
            "repair": size(2_000.0, 12_000.0),
            "days_lost": days(4, 20),
            "wear_reference_hours": number(3_000.0, 6_000.0),
        },
        optional={
            "claimable_odds": number(0.1, 0.7),
            "wear_shape": number(1.4, 2.5),
            "hours": number(1_000.0, 6_000.0),
            "resets_hours": st.booleans(),
        },
    )
    part = st.fixed_dictionaries({"for": st.just("engine"), "cost": number(100.0, 900.0), "days_saved": days(1, 5)})
    none: st.SearchStrategy[Values] = st.just({})
    small = minor.map(lambda found: {"breakdown": [found]})
    both = st.tuples(minor, engine).map(lambda found: {"breakdown": list(found)})
    spared = st.tuples(both, part).map(lambda found: found[0] | {"spare": [found[1]]})
    return none | small | both | spared


def gear_loss() -> st.SearchStrategy[Values]:
    storm = st.just({}) | st.fixed_dictionaries(
        {"storm_odds_per_season": number(0.1, 0.6), "storm_loss_fraction": size(0.1, 0.5)}
    )
    steady = st.fixed_dictionaries(
        {
            "season_fraction": number(0.02, 0.2),
            "pot_cost": number(30.0, 90.0),
            "replace": st.sampled_from(("at once", "next season")),
        },
        optional={"pots_per_string": number(5.0, 25.0), "prepare_hours_per_pot": number(0.1, 0.4)},
    )
    return st.tuples(steady, storm).map(lambda found: found[0] | found[1])


def insurance() -> st.SearchStrategy[Values]:
    return st.fixed_dictionaries(
        {
            "hull_value": known(20_000.0, 120_000.0),
            "premium": number(600.0, 3_000.0),
            "pay_month": st.sampled_from(("jan", "may")),
            "deductible": number(200.0, 2_500.0),
        },
        optional={
            "storm_deductible_fraction": number(0.005, 0.03),
            "gear_covered": st.booleans(),
            "total_loss_odds_per_year": known(0.0, 0.1),
            "claim_paid_after_days": days(10, 120),
        },
    )


def hired_only() -> st.SearchStrategy[Values]:
    return st.just({}) | st.fixed_dictionaries(
        {"skipper_gap_odds_per_year": number(0.1, 0.6), "skipper_gap_weeks": days(1, 4)}
    )


@st.composite
def boat(draw: st.DrawFn, name: str, names: list[str], when: When) -> Values:
    first = name == BOATS[0]
    skipper = "owner" if first else draw(st.sampled_from(("owner", "hired")))
    later = {"fish_from": when.day(), "ground_share": known(0.8, 0.95), "owner_days_per_breakdown": days(1, 3)}
    return {
        "name": name,
        "skipper": skipper,
        "fuel_l_per_day_out": draw(number(10.0, 80.0)),
        "hours_per_day": draw(number(6.0, 11.0)),
        "fishery": draw(fisheries(names, when, catches_all=first)),
        **draw(machinery()),
        **(draw(hired_only()) if skipper == "hired" else {}),
        **draw(
            optional_table(
                fuel_l_per_100_hauls=number(2.0, 15.0),
                catching_power=number(0.7, 1.2),
                weather_odds_multiplier=number(0.7, 1.6),
                owner_days_per_month=number(0.5, 2.0),
                stay_in_below=known(-100.0, 300.0),
                day_costs=maybe(st.fixed_dictionaries({"name": st.just("ice"), "amount": number(5.0, 30.0)})),
                crew=crew(),
                gear_loss=gear_loss(),
                insurance=insurance(),
                standing=maybe(st.fixed_dictionaries({"name": st.just("mooring"), "amount": number(50.0, 200.0), "every_month": st.just(True)})),
                **({} if first else later),
            )
        ),
    }


@st.composite
def boats(draw: st.DrawFn, names: list[str], when: When) -> list[Values]:
    return [draw(boat(name, names, when)) for name in BOATS[: draw(st.integers(1, 3))]]
