# SPDX-License-Identifier: MIT
"""The season of one boat, day by day, in the order the model states."""

from __future__ import annotations

import math
from collections import defaultdict
from datetime import date
from typing import Any

from twin.books import Account, close_year, month_ends
from twin.effects import DAY, bad_days, days, ground_days, mean_one, week_prices, year_levels
from twin.philox import Luck
from twin.plan_values import drawn, is_three_points, of_month
from twin.soak import rotation_factor
from twin.spread import spread_at

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
SUMS = (
    *(
        "sales",
        "fuel",
        "bait",
        "day_costs",
        "crew_pay",
        "selling_costs",
        "repairs",
        "claims",
        "pots_lost_cost",
    ),
    *(
        "pots_owed",
        "days_fished",
        "days_setting",
        "days_rest",
        "days_off",
        "days_broken_down",
        "days_weather",
    ),
    *("bad_weather_days", "hauls", "pots_lost", "claims_paid"),
)


def simulate(
    plan: dict[str, Any], key: int, history: int, base_count: float | None = None
) -> dict[str, float]:
    """Every column of one history. `base_count`: pots of the plan before choices, if this is a choice."""
    season = Season(plan, Luck(key, history), base_count)
    for today in season.dates:
        season.live(today)
    return season.close()


class Season:
    def __init__(self, plan: dict[str, Any], luck: Luck, base_count: float | None) -> None:
        self.luck, self.v = luck, drawn(plan, luck)
        v = self.v
        self.boat, self.outlet, self.prices, self.species = (
            v["boat"][0],
            v["outlet"][0],
            v["prices"],
            v["species"],
        )
        self.fishery, self.policy = self.boat["fishery"][0], self.boat.get("insurance")
        self.crew, self.kinds, self.gear_loss = (self.boat.get(k) for k in ("crew", "breakdown", "gear_loss"))
        self.crew, self.kinds = self.crew or [], self.kinds or []
        self.start, self.end = v["season"]["start"], v["season"]["end"]
        self.dates = list(days(self.start, self.end))

        self.bad = bad_days(plan, v, luck)
        self.ground = [ground_days(plan, v, luck, k) for k in range(len(self.species))]
        self.week_price = week_prices(plan, v, luck)
        self.catch_year, self.price_year, self.fuel_year, self.bait_year = year_levels(v, luck)

        self.count = self.fishery["count"]
        self.crowding = (self.count / (base_count or self.count)) ** (
            self.fishery.get("elasticity", 1.0) - 1.0
        )
        self.setting_days = self.setting_left = int(self.fishery.get("setting_days", 0))
        self.in_water = 0.0 if self.setting_left else self.count
        self.set_on = self.start - DAY  # moved to the last setting day, if there is one
        self.hauled: list[date] = []
        self.down_until = self.start - DAY
        self.daily_loss, self.strings = 0.0, {}
        if self.gear_loss:
            self.daily_loss = 1.0 - (1.0 - self.gear_loss["season_fraction"]) ** (1.0 / len(self.dates))
            self.strings = self.string_luck()

        self.account = Account()
        self.week: dict[str, float] = defaultdict(float)
        self.c: dict[str, float] = dict.fromkeys(SUMS, 0.0)
        self.c |= dict.fromkeys((f"catch.{s['name']}" for s in self.species), 0.0)
        self.c |= dict.fromkeys((f"breakdowns.{k['kind']}" for k in self.kinds), 0.0)
        self.c |= dict.fromkeys((f"crew_pay.{h['name']}" for h in self.crew), 0.0)

    def string_luck(self) -> dict[int, float]:
        """Factor on each month's loss when pots go by the string: log-normal, mean one."""
        per_string, factor = self.gear_loss.get("pots_per_string"), defaultdict(lambda: 1.0)
        if per_string is None or self.daily_loss == 0.0:
            return factor
        for month in {d.month for d in self.dates}:
            here = [d for d in self.dates if d.month == month]
            odds = 1.0 - (1.0 - self.daily_loss) ** len(here)
            sd = math.sqrt(math.log(1.0 + (1.0 - odds) * per_string / (self.count * odds)))
            factor[month] = mean_one(sd, self.luck.normal_on(here[0].replace(day=1), "gear_loss_month"))
        return factor

    def live(self, today: date) -> None:
        """One day, in the order the model states."""
        self.c["bad_weather_days"] += self.bad[today]
        ashore = self.why_ashore(today)
        if ashore:
            self.c[ashore] += 1
        else:
            self.go_out(today)
            self.break_down(today)
        if self.gear_loss:
            self.lose_gear(today)
        if today.weekday() == 6 or today == self.end:
            self.pay_crew(today)

    def why_ashore(self, today: date) -> str | None:
        """The first cause that holds her, as the column that counts it."""
        if WEEKDAYS[today.weekday()] in self.v["season"].get("rest_days", []):
            return "days_rest"
        if any(off["from"] <= today <= off["to"] for off in self.v["season"].get("days_off", [])):
            return "days_off"
        if today <= self.down_until:
            return "days_broken_down"
        return "days_weather" if self.bad[today] else None

    def go_out(self, today: date) -> None:
        hauls, sales, selling = 0.0, 0.0, 0.0
        self.c["days_fished"] += 1
        if self.setting_left > 0:
            self.set_pots(today)
        else:
            hauls, sales, selling = self.haul(today)
        selling += self.prices.get("levy_fraction", 0.0) * sales
        litres = self.boat["fuel_l_per_day_out"] + self.boat.get("fuel_l_per_100_hauls", 0.0) * hauls / 100.0
        fuel = litres * self.prices["fuel_per_l"] * self.fuel_year
        bait = hauls * self.prices["bait_per_haul"] * self.bait_year
        day_costs = sum(cost["amount"] for cost in self.boat.get("day_costs", []))
        for name, amount in (
            *(("hauls", hauls), ("sales", sales), ("selling_costs", selling)),
            *(("fuel", fuel), ("bait", bait), ("day_costs", day_costs)),
        ):
            self.c[name] += amount
        self.account.move(today + int(self.outlet.get("paid_after_days", 0)) * DAY, sales)
        self.account.move(today, -(selling + fuel + bait + day_costs))
        for name, amount in (("sales", sales), ("bait and fuel", bait + fuel), ("days out", 1.0)):
            self.week[name] += amount

    def set_pots(self, today: date) -> None:
        self.c["days_setting"] += 1
        self.setting_left -= 1
        self.in_water += self.count / self.setting_days
        self.set_on = today

    def haul(self, today: date) -> tuple[float, float, float]:
        """Hauls, sales, and what selling by the unit costs."""
        capacity = self.fishery["hauls_per_day"]
        hauls, rounds = min(capacity, self.in_water), max(1.0, self.in_water / capacity)
        sales = selling = 0.0
        month_factor = of_month(self.outlet.get("month_factor", 1.0), today.month, 1.0)
        for k, one in enumerate(self.species):
            if one["name"] not in self.fishery["species"]:
                continue
            soak = 1.0
            if "usual_soak_nights" in one and "soak_time_constant_nights" in one:
                nights = one["usual_soak_nights"], one["soak_time_constant_nights"]
                soak = rotation_factor(today, self.hauled, self.set_on, rounds, *nights)
            own_day = mean_one(one.get("boat_day_sd", 0.0), self.luck.daily_normal(today, "boat_day", k))
            shape = of_month(one.get("month_shape", 1.0), today.month, 1.0)
            caught = (
                hauls * one["per_haul"] * shape * soak * self.crowding * self.boat.get("catching_power", 1.0)
            )
            caught *= self.catch_year[k] * self.ground[k][today] * own_day
            price = self.outlet["price"][one["name"]] * month_factor * self.price_year[k]
            price *= self.week_price[today - today.weekday() * DAY]
            self.c[f"catch.{one['name']}"] += caught
            sales += caught * price
            selling += self.outlet.get("cost_per_unit", 0.0) * caught
        self.hauled.append(today)
        return hauls, sales, selling

    def break_down(self, today: date) -> None:
        for k, kind in enumerate(self.kinds):
            if self.luck.daily(today, "breakdown_happens", k) >= 1.0 - math.exp(
                -kind["per_100_days"] / 100.0
            ):
                continue
            repair = size_of_event(kind, "repair", self.luck.normal_on(today, "repair_size", k))
            lost = size_of_event(kind, "days_lost", self.luck.normal_on(today, "days_lost_size", k))
            self.down_until = max(self.down_until, today + int(lost) * DAY)
            self.c[f"breakdowns.{kind['kind']}"] += 1
            self.c["repairs"] += repair
            self.account.move(today, -repair)
            accepted = self.luck.on(today, "claim_accepted", k) < kind.get("claimable_odds", 0.0)
            if self.policy and accepted:
                claim = max(0.0, repair - self.policy["deductible"])
                self.c["claims"] += claim
                self.c["claims_paid"] += claim > 0.0
                self.account.move(today + int(self.policy.get("claim_paid_after_days", 0)) * DAY, claim)

    def lose_gear(self, today: date) -> None:
        lost = self.in_water * min(1.0, self.daily_loss * self.strings[today.month])
        cost = lost * self.gear_loss["pot_cost"]
        self.c["pots_lost"] += lost
        self.c["pots_lost_cost"] += cost
        if self.gear_loss["replace"] == "at once":
            self.account.move(today, -cost)
        else:
            self.in_water -= lost
            self.c["pots_owed"] += cost

    def pay_crew(self, today: date) -> None:
        """The week's pay, on the Sunday that ends it, at the latest on the last day of the money year."""
        pay_day = min(today + (6 - today.weekday()) * DAY, month_ends(self.v)[-1])
        for hand in self.crew:
            if hand["pay"] == "share of sales":
                pay = hand["share_fraction"] * self.week["sales"]
            elif hand["pay"] == "share after bait and fuel":
                pay = hand["share_fraction"] * max(0.0, self.week["sales"] - self.week["bait and fuel"])
            else:
                pay = hand["per_day"] * self.week["days out"]
            self.c["crew_pay"] += pay
            self.c[f"crew_pay.{hand['name']}"] += pay
            self.account.move(pay_day, -pay)
        self.week.clear()

    def close(self) -> dict[str, float]:
        lost_for_good = (
            self.c["pots_lost"] if self.gear_loss and self.gear_loss["replace"] == "next season" else 0.0
        )
        self.c["pots_left"] = self.count - lost_for_good
        odds = self.policy.get("total_loss_odds_per_year", 0.0) if self.policy else 0.0
        self.c["total_loss"] = float(self.luck.in_year(self.start.year, "total_loss") < odds)
        close_year(self.v, self.account, self.c)
        return self.c


def size_of_event(kind: dict[str, Any], key: str, z: float) -> float:
    value = kind[key]
    return spread_at(value, key, z) if is_three_points(value) else value
