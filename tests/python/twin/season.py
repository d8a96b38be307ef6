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


def size_of_event(value: Any, key: str, z: float) -> float:
    return spread_at(value, key, z) if is_three_points(value) else value


def string_luck(v: dict[str, Any], luck: Luck, season: list[date], daily_odds: float) -> dict[int, float]:
    """Factor on each month's loss when pots go by the string: log-normal, mean one."""
    boat = v["boat"][0]
    per_string, count = boat["gear_loss"].get("pots_per_string"), boat["fishery"][0]["count"]
    factor = defaultdict(lambda: 1.0)
    if per_string is None or daily_odds == 0.0:
        return factor
    for month in {d.month for d in season}:
        here = [d for d in season if d.month == month]
        odds = 1.0 - (1.0 - daily_odds) ** len(here)
        sd = math.sqrt(math.log(1.0 + (1.0 - odds) * per_string / (count * odds)))
        factor[month] = mean_one(sd, luck.normal_on(here[0].replace(day=1), "gear_loss_month"))
    return factor


def simulate(
    plan: dict[str, Any], key: int, history: int, base_count: float | None = None
) -> dict[str, float]:
    """Every column of one history. `base_count`: pots of the plan before choices, if this is a choice."""
    luck = Luck(key, history)
    v = drawn(plan, luck)
    boat, outlet, prices, species = v["boat"][0], v["outlet"][0], v["prices"], v["species"]
    fishery, policy, gear_loss = boat["fishery"][0], boat.get("insurance"), boat.get("gear_loss")
    crew, kinds = boat.get("crew", []), boat.get("breakdown", [])
    count, capacity = fishery["count"], fishery["hauls_per_day"]
    crowding = (count / (base_count or count)) ** (fishery.get("elasticity", 1.0) - 1.0)
    start, end = v["season"]["start"], v["season"]["end"]
    season = list(days(start, end))
    bad = bad_days(plan, v, luck)
    ground = [ground_days(plan, v, luck, k) for k in range(len(species))]
    week_price = week_prices(plan, v, luck)
    catch_year, price_year, fuel_year, bait_year = year_levels(v, luck)

    c: dict[str, float] = defaultdict(float)
    for name in (
        *("sales", "fuel", "bait", "day_costs", "crew_pay", "selling_costs", "repairs", "claims", "pots_lost_cost"),
        *("pots_owed", "days_fished", "days_setting", "days_rest", "days_off", "days_broken_down", "days_weather"),
        *("bad_weather_days", "hauls", "pots_lost", "claims_paid"),
    ):
        c[name] = 0.0
    for name in [f"catch.{s['name']}" for s in species] + [f"breakdowns.{k['kind']}" for k in kinds]:
        c[name] = 0.0
    for hand in crew:
        c[f"crew_pay.{hand['name']}"] = 0.0
    account, week = Account(), defaultdict(float)
    setting_left, in_water, hauled = int(fishery.get("setting_days", 0)), 0.0, []
    set_on: date | None = None
    if setting_left == 0:
        in_water, set_on = count, start - DAY
    set_each_day = count / setting_left if setting_left else 0.0
    down_until = start - DAY

    daily_loss = 1.0 - (1.0 - gear_loss["season_fraction"]) ** (1.0 / len(season)) if gear_loss else 0.0
    strings = string_luck(v, luck, season, daily_loss) if gear_loss else {}

    for today in season:
        c["bad_weather_days"] += bad[today]
        out = False
        if WEEKDAYS[today.weekday()] in v["season"].get("rest_days", []):
            c["days_rest"] += 1
        elif any(off["from"] <= today <= off["to"] for off in v["season"].get("days_off", [])):
            c["days_off"] += 1
        elif today <= down_until:
            c["days_broken_down"] += 1
        elif bad[today]:
            c["days_weather"] += 1
        else:
            out = True

        if out:
            c["days_fished"] += 1
            hauls = sales = selling = 0.0
            if setting_left > 0:
                c["days_setting"] += 1
                setting_left -= 1
                in_water += set_each_day
                if setting_left == 0:
                    set_on = today
            else:
                hauls = min(capacity, in_water)
                rounds = max(1.0, in_water / capacity)
                for k, one in enumerate(species):
                    if one["name"] not in fishery["species"]:
                        continue
                    soak = 1.0
                    if "usual_soak_nights" in one and "soak_time_constant_nights" in one:
                        soak = rotation_factor(
                            today, hauled, set_on, rounds, one["usual_soak_nights"], one["soak_time_constant_nights"]
                        )
                    own_day = mean_one(one.get("boat_day_sd", 0.0), luck.daily_normal(today, "boat_day", k))
                    shape = of_month(one.get("month_shape", 1.0), today.month, 1.0)
                    caught = (
                        hauls * one["per_haul"] * shape * soak * crowding * boat.get("catching_power", 1.0)
                        * catch_year[k] * ground[k][today] * own_day
                    )
                    price = outlet["price"][one["name"]] * of_month(outlet.get("month_factor", 1.0), today.month, 1.0)
                    price *= price_year[k] * week_price[today - today.weekday() * DAY]
                    c[f"catch.{one['name']}"] += caught
                    sales += caught * price
                    selling += outlet.get("cost_per_unit", 0.0) * caught
                hauled.append(today)
            selling += prices.get("levy_fraction", 0.0) * sales
            litres = boat["fuel_l_per_day_out"] + boat.get("fuel_l_per_100_hauls", 0.0) * hauls / 100.0
            fuel = litres * prices["fuel_per_l"] * fuel_year
            bait = hauls * prices["bait_per_haul"] * bait_year
            day_costs = sum(cost["amount"] for cost in boat.get("day_costs", []))
            for name, amount in (
                *(("hauls", hauls), ("sales", sales), ("selling_costs", selling)),
                *(("fuel", fuel), ("bait", bait), ("day_costs", day_costs)),
            ):
                c[name] += amount
            account.move(today + int(outlet.get("paid_after_days", 0)) * DAY, sales)
            account.move(today, -(selling + fuel + bait + day_costs))
            for name, amount in (("sales", sales), ("running", bait + fuel), ("out", 1.0)):
                week[name] += amount

            for k, kind in enumerate(kinds):
                if luck.daily(today, "breakdown_happens", k) >= 1.0 - math.exp(-kind["per_100_days"] / 100.0):
                    continue
                c[f"breakdowns.{kind['kind']}"] += 1
                repair = size_of_event(kind["repair"], "repair", luck.normal_on(today, "repair_size", k))
                lost = size_of_event(kind["days_lost"], "days_lost", luck.normal_on(today, "days_lost_size", k))
                down_until = max(down_until, today + int(lost) * DAY)
                c["repairs"] += repair
                account.move(today, -repair)
                if policy and luck.on(today, "claim_accepted", k) < kind.get("claimable_odds", 0.0):
                    claim = max(0.0, repair - policy["deductible"])
                    c["claims"] += claim
                    c["claims_paid"] += claim > 0.0
                    account.move(today + int(policy.get("claim_paid_after_days", 0)) * DAY, claim)

        if gear_loss:
            lost = in_water * min(1.0, daily_loss * strings[today.month])
            cost = lost * gear_loss["pot_cost"]
            c["pots_lost"] += lost
            c["pots_lost_cost"] += cost
            if gear_loss["replace"] == "at once":
                account.move(today, -cost)
            else:
                in_water -= lost
                c["pots_owed"] += cost

        if WEEKDAYS[today.weekday()] == "Sunday" or today == end:
            sunday = today + (6 - today.weekday()) * DAY
            pay_crew(crew, week, c, account, min(sunday, month_ends(v)[-1]))
            week.clear()

    c["pots_left"] = count - (c["pots_lost"] if gear_loss and gear_loss["replace"] == "next season" else 0.0)
    odds_lost = policy.get("total_loss_odds_per_year", 0.0) if policy else 0.0
    c["total_loss"] = float(luck.in_year(start.year, "total_loss") < odds_lost)
    close_year(v, account, c)
    return dict(c)


def pay_crew(
    crew: list[dict[str, Any]], week: dict[str, float], c: dict[str, float], account: Account, pay_day: date
) -> None:
    for hand in crew:
        if hand["pay"] == "share of sales":
            pay = hand["share_fraction"] * week["sales"]
        elif hand["pay"] == "share after bait and fuel":
            pay = hand["share_fraction"] * max(0.0, week["sales"] - week["running"])
        else:
            pay = hand["per_day"] * week["out"]
        c["crew_pay"] += pay
        c[f"crew_pay.{hand['name']}"] += pay
        account.move(pay_day, -pay)
