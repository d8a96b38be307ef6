# SPDX-License-Identifier: MIT
"""Generated outlets, orders and stores."""

from __future__ import annotations

from typing import TYPE_CHECKING

from generated_numbers import Values, among, days, known, maybe, months, number, optional_table, weekdays
from hypothesis import strategies as st

if TYPE_CHECKING:
    from generated_plans import When

OUTLETS = ("merchant", "stall", "lorry")


def goods_of(species: list[Values]) -> dict[str, str]:
    """Every good of the plan with its species: the grades, or the species itself."""
    return {
        good: kind["name"]
        for kind in species
        for good in ([grade["name"] for grade in kind["grade"]] if "grade" in kind else [kind["name"]])
    }


def total_or_each(goods: list[str], low: float, high: float) -> st.SearchStrategy[float | Values]:
    return number(low, high) | st.dictionaries(st.sampled_from(goods), number(low, high), min_size=1)


@st.composite
def outlet(draw: st.DrawFn, name: str, goods: dict[str, str], carry: float) -> Values:
    taken = draw(among(list(goods)))
    price = {good: draw(number(1.0, 20.0)) for good in taken}
    return {
        "name": name,
        "price": price,
        "year_carry": carry,
        **draw(
            optional_table(
                month_factor=months(0.7, 1.3),
                year_sd=number(0.05, 0.2),
                week_sd=number(0.02, 0.1),
                week_persistence=number(0.2, 0.7),
                daily_limit=total_or_each(taken, 10.0, 200.0),
                open_days=weekdays(most=5),
                demand_per_open_day=total_or_each(taken, 5.0, 60.0),
                cost_per_open_day=number(5.0, 40.0),
                hours_per_open_day=number(1.0, 6.0),
                cost_per_unit=number(0.02, 0.3),
                own_landings_flexibility=known(-0.4, 0.0),
                missed_settlement_odds_per_year=number(0.05, 0.4),
                paid_after_days=days(3, 30),
            )
        ),
    }


@st.composite
def outlets(draw: st.DrawFn, goods: dict[str, str], carry: float) -> list[Values]:
    found = [draw(outlet(name, goods, carry)) for name in OUTLETS[: draw(st.integers(1, 3))]]
    for buyer in found:
        if "demand_per_open_day" in buyer and draw(st.booleans()):
            buyer["demand_sd"] = draw(number(2.0, 9.0))
    return found


def orders(goods: dict[str, str], when: When) -> st.SearchStrategy[list[Values]]:
    def order(who: str, short: dict[str, st.SearchStrategy[float | Values]]) -> st.SearchStrategy[Values]:
        return st.fixed_dictionaries(
            {
                "who": st.just(who),
                "grade": st.sampled_from(list(goods)),
                "quantity": number(1.0, 40.0),
                "days": weekdays(most=3),
                "price": number(2.0, 20.0),
            },
            optional={"from": when.day(), "to": st.just(when.books_end), "leave_fraction": number(0.05, 0.5), **short},
        )

    inn = order("inn", {"buy_in_price": number(3.0, 25.0)})
    chapel = order("chapel supper", {"refund_per_unit": number(0.5, 2.0)})
    return maybe(inn).flatmap(lambda found: maybe(chapel).map(lambda more: found + more))


@st.composite
def holdings(draw: st.DrawFn, buyers: list[Values], goods: dict[str, str]) -> list[Values]:
    found = []
    for good in draw(st.just([]) | among(list(goods))):
        keepers = [buyer["name"] for buyer in buyers if good in buyer["price"]]
        kept = {}
        if keepers and draw(st.booleans()):
            kept = {"keep_for": draw(st.sampled_from(keepers)), "keep_fraction": draw(number(0.1, 0.7))}
        found.append(
            {
                "grade": good,
                "capacity": draw(number(5.0, 150.0)),
                "longest_days": draw(days(2, 10)),
                **kept,
                **draw(
                    optional_table(
                        loss_per_night_fraction=months(0.01, 0.1),
                        die_off_odds_per_day=number(0.005, 0.05),
                        die_off_fraction=number(0.2, 0.7),
                        forced_price_fraction=number(0.2, 0.7),
                    )
                ),
            }
        )
    return found
