# SPDX-License-Identifier: MIT
"""Sound plans by the thousand: a strategy that draws any mixture of what a plan can hold, as nested values.

All of it is invented and much of it is unlikely: the properties must hold for any business, not for a sensible one.
`small_plan.text` turns the values into TOML. What a property needs to know exactly (opening cash, limits that stop,
what assets cost) is never drawn as a guess.
"""

from __future__ import annotations

import calendar
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from generated_boats import boats
from generated_numbers import Values, days, known, maybe, months, number, optional_table, weekdays
from generated_selling import goods_of, holdings, orders, outlets
from hypothesis import strategies as st

SPECIES = ("lobster", "crab", "whelk")


@dataclass(frozen=True)
class When:
    """The calendar of one plan: the season of the first year, its money year, and how many years follow."""

    start: date
    end: date
    books: date
    years: int

    def day(self, least: int = 0) -> st.SearchStrategy[date]:
        """A day of the first season, so many days after its start or later."""
        return st.integers(least, (self.end - self.start).days).map(lambda n: self.start + timedelta(days=n))

    @property
    def books_end(self) -> date:
        return self.books.replace(year=self.books.year + 1) - timedelta(days=1)

    def money_day(self) -> st.SearchStrategy[date]:
        return st.integers(0, 364).map(lambda n: self.books + timedelta(days=n))


@st.composite
def calendars(draw: st.DrawFn) -> When:
    # 2027 and 2028 put 29 February into some money years and seasons.
    start = date(draw(st.sampled_from((2027, 2028))), draw(st.integers(1, 12)), draw(st.integers(1, 28)))
    end = start + timedelta(days=draw(st.integers(50, 120)))
    month = start.year * 12 + start.month - 1 - draw(st.integers(0, 3))
    return When(start, end, date(month // 12, month % 12 + 1, 1), draw(st.integers(1, 3)))


def species(name: str, carry: float) -> st.SearchStrategy[Values]:
    soak = st.just({}) | st.fixed_dictionaries(
        {"usual_soak_nights": number(1.0, 3.0), "soak_time_constant_nights": number(0.8, 3.0)}
    )
    year = optional_table(last_year_fraction=number(0.7, 1.3)).flatmap(
        lambda last: known(0.05, 0.3).map(lambda sd: {**last, "year_sd": sd})
    )
    return merged(
        st.fixed_dictionaries(
            {"name": st.just(name), "unit": st.just("kg"), "per_haul": number(0.1, 1.0), "year_carry": st.just(carry)},
            optional={
                "month_shape": months(0.5, 1.5),
                "day_sd": number(0.05, 0.4),
                "day_persistence": number(0.1, 0.7),
                "boat_day_sd": number(0.05, 0.3),
                "grade": grades(name),
            },
        ),
        soak,
        st.just({}) | year,
    )


def merged(*tables: st.SearchStrategy[Values]) -> st.SearchStrategy[Values]:
    return st.tuples(*tables).map(lambda found: {key: value for table in found for key, value in table.items()})


def grades(species_name: str) -> st.SearchStrategy[list[Values]]:
    def split(percent: int) -> st.SearchStrategy[list[Values]]:
        names = (("large", percent), ("small", 100 - percent))
        return st.tuples(
            *(
                st.fixed_dictionaries(
                    {"name": st.just(f"{word} {species_name}"), "fraction": st.just(part / 100)},
                    optional={"year_sd": number(0.05, 0.3), "sold_units_per_unit": known(0.1, 2.0)},
                )
                for word, part in names
            )
        ).map(list)

    return st.integers(10, 90).flatmap(split)


def limits(names: list[str], when: When) -> st.SearchStrategy[list[Values]]:
    common = {"species": st.sampled_from(names), "per": st.sampled_from(("day", "week", "month", "season"))}
    dates = {"from": when.day(), "to": st.just(when.end)}
    stop = st.fixed_dictionaries({**common, "amount": known(5.0, 2_000.0), "over": st.just("stop")}, optional=dates)
    lease = st.fixed_dictionaries(
        {**common, "amount": number(5.0, 2_000.0), "over": st.just("lease"), "lease_price": number(0.1, 2.0)},
        optional=dates,
    )
    return st.lists(stop | lease, max_size=3)


def shocks(when: When) -> st.SearchStrategy[list[Values]]:
    return maybe(
        st.fixed_dictionaries(
            {
                "name": st.just("water test"),
                "odds_per_year": number(0.1, 0.6),
                "from": when.day(),
                "days": days(3, 15),
            }
        )
    )


@st.composite
def seasons(draw: st.DrawFn, when: When) -> Values:
    off = draw(st.none() | when.day())
    days_off = {} if off is None else {"days_off": [{"from": off, "to": min(off + timedelta(days=4), when.end), "why": "regatta"}]}
    stop = draw(optional_table(stop_on=when.day(30), rest_days=weekdays(most=2)))
    return {"start": when.start, "end": when.end, **days_off, **stop}


def endings() -> st.SearchStrategy[Values]:
    return optional_table(
        gear_in_days=days(1, 4),
        crew_notice_days=days(1, 5),
        crew_leaves_odds=number(0.1, 0.5),
        rehire_cost=number(100.0, 900.0),
        yard_change_fee=number(50.0, 300.0),
        lay_up_refund_per_day=number(1.0, 5.0),
        shore_job_per_week=number(100.0, 400.0),
    )


def family_dates(when: When) -> st.SearchStrategy[list[Values]]:
    named = [("wedding", {"gear_ashore": st.booleans()}), ("school play", {"gear_ashore": st.just(False)})]
    entries = [
        st.fixed_dictionaries({"name": st.just(name), "date": when.money_day()}, optional=more) for name, more in named
    ]
    return st.tuples(*entries).map(list) | st.just([])


def inputs() -> st.SearchStrategy[list[Values]]:
    rope = st.fixed_dictionaries(
        {"name": st.just("rope"), "quantity_per_pot": number(0.2, 1.0), "unit_cost": number(1.0, 4.0), "pay_month": months_word()}
    )
    bait = st.fixed_dictionaries(
        {
            "name": st.just("salt bait"),
            "quantity": number(50.0, 900.0),
            "unit_cost": number(0.2, 1.5),
            "pay_month": months_word(),
            "used_per_haul": number(0.005, 0.1),
        },
        optional={"spoil_fraction": number(0.05, 0.3)},
    )
    return st.lists(rope, max_size=1).flatmap(lambda found: maybe(bait).map(lambda more: found + more))


def months_word() -> st.SearchStrategy[str]:
    return st.sampled_from([name.lower() for name in calendar.month_abbr[1:]])


def loans() -> st.SearchStrategy[list[Values]]:
    monthly = st.fixed_dictionaries(
        {"name": st.just("boat"), "balance": number(2_000.0, 60_000.0), "rate_fraction": known(0.0, 0.12), "years_left": known(2.0, 9.0)},
        optional={"interest_only_months": st.integers(1, 12)},
    )
    autumn = st.fixed_dictionaries(
        {
            "name": st.just("engine"),
            "balance": number(1_000.0, 20_000.0),
            "rate_fraction": number(0.03, 0.12),
            "years_left": st.just(3),
            "months": st.just(["sep", "nov"]),
        }
    )
    return maybe(monthly).flatmap(lambda found: maybe(autumn).map(lambda more: found + more))


def assets(when: When) -> st.SearchStrategy[list[Values]]:
    around = st.integers(-900, 365 * when.years + 200).map(lambda n: when.books + timedelta(days=n))
    return maybe(
        st.fixed_dictionaries(
            {"name": st.just("hauler"), "cost": known(500.0, 9_000.0), "bought": around, "life_years": number(4.0, 15.0)},
            optional={"resale": known(0.0, 400.0)},
        )
    )


def households() -> st.SearchStrategy[Values]:
    tax = st.just({}) | st.fixed_dictionaries(
        {"tax_fraction": number(0.1, 0.3), "tax_months": st.sampled_from((["jan"], ["jan", "jul"]))},
        optional={"wear_allowance": number(500.0, 6_000.0)},
    )
    rest = optional_table(draw_per_month=months(300.0, 1_500.0), other_income_per_month=months(100.0, 600.0), hours=months(5.0, 40.0))
    return merged(rest, tax)


def growths() -> st.SearchStrategy[Values]:
    return optional_table(
        **{f"{what}_per_year_fraction": known(-0.05, 0.08) for what in ("costs", "fuel", "bait", "wages", "prices", "catch")}
    )


def weathers() -> st.SearchStrategy[Values]:
    return st.fixed_dictionaries(
        {"unfishable_fraction": months(0.05, 0.5)},
        optional={"persistence": number(0.1, 0.7), "year_sd": number(0.1, 0.6), "turned_back_fraction": number(0.05, 0.3)},
    )


def prices() -> st.SearchStrategy[Values]:
    return st.fixed_dictionaries(
        {"fuel_per_l": number(0.5, 1.5), "bait_per_haul": number(0.1, 0.5)},
        optional={
            "fuel_year_sd": number(0.05, 0.2),
            "fuel_year_carry": known(-0.3, 0.6),
            "bait_year_sd": number(0.05, 0.2),
            "bait_year_carry": known(-0.3, 0.6),
            "levy_fraction": number(0.005, 0.03),
        },
    )


def ties() -> st.SearchStrategy[Values]:
    """The squares of the parts of a catch add up to one: species are tied by more than 0.3 squared, or by nothing."""
    return st.just({}) | st.fixed_dictionaries(
        {
            "species_year_correlation": known(0.1, 0.8),
            "price_catch_correlation": known(-0.5, 0.2),
            "weather_catch_correlation": known(-0.3, 0.3),
        }
    )


@st.composite
def plans(draw: st.DrawFn) -> Values:
    """Nested values of a sound plan."""
    when = draw(calendars())
    carry = draw(known(-0.2, 0.7))
    caught = [draw(species(name, carry)) for name in SPECIES[: draw(st.integers(1, 3))]]
    names = [kind["name"] for kind in caught]
    goods = goods_of(caught)
    buyers = draw(outlets(goods, draw(known(0.0, 0.6))))
    plan: dict[str, Any] = {
        "plan": 1,
        "business": {
            "name": "Generated, invented",
            "money": "GBP",
            "books_start": when.books,
            "years": when.years,
            "opening_cash": draw(known(-2_000.0, 30_000.0)),
            **draw(optional_table(overdraft_limit=number(1_000.0, 9_000.0), overdraft_rate_fraction=number(0.05, 0.2))),
        },
        "growth": draw(growths()) if when.years > 1 else {},
        "season": draw(seasons(when)),
        "ending": draw(endings()),
        "family_date": draw(family_dates(when)),
        "weather": draw(weathers()),
        "species": caught,
        "together": draw(ties()),
        "outlet": buyers,
        "order": draw(orders(goods, when)),
        "holding": draw(holdings(buyers, goods)),
        "limit": draw(limits(names, when)),
        "shock": draw(shocks(when)),
        "prices": draw(prices()),
        "input": draw(inputs()),
        "boat": draw(boats(names, when)),
        "standing": draw(maybe(st.fixed_dictionaries({"name": st.just("licence"), "amount": number(200.0, 2_500.0), "month": months_word()}))),
        "loan": draw(loans()),
        "asset": draw(assets(when)),
        "household": draw(households()),
    }
    if draw(st.booleans()):
        plan["skipper"] = {"laid_up_odds_per_season": draw(number(0.1, 0.5)), "weeks_lost": draw(days(1, 3))}
    return {key: value for key, value in plan.items() if value not in ({}, [])}


