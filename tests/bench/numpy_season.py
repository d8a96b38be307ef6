# SPDX-License-Identifier: MIT
"""The one-boat season as one would write it with NumPy: a loop over days, arrays over histories.

Written from the description of the model, apart from the engine, with draws of its own; it is the peer the
engine is compared with, in what it says and in how fast it says it. Nothing in it is slower than need be:
histories go through in blocks that stay in the processor's cache, draws come in whole matrices, effects that
are switched off are left out, and rare events touch only the histories they befall.
"""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import numpy as np
from numpy_luck import bad_weather, day_effect, mean_one, week_effect, year_levels
from numpy_money import close_year
from numpy_plan import drawn, is_guess, money_months, of_month, spread

Array = np.ndarray
BLOCK = 1024  # histories at once: found to be the fastest of 256, 512, ... 8192 for the demo plan
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class Soak:
    """When today's pots were last hauled, kept as the days of the latest hauls, newest first."""

    def __init__(self, v: dict[str, Any], n: int) -> None:
        fishery = v["boat"][0]["fishery"][0]
        deepest = int(np.max(np.floor(fishery["count"] / fishery["hauls_per_day"])))
        self.used = [s for s in v["species"] if "usual_soak_nights" in s and "soak_time_constant_nights" in s]
        self.last = np.full((max(deepest, 1) + 1, n), -1, np.int32)
        self.tables: dict[tuple, Array] = {}

    def filled(self, one: dict[str, Any], nights: Array) -> Array:
        tau, usual = one["soak_time_constant_nights"], one["usual_soak_nights"]
        if np.ndim(tau) or np.ndim(usual):
            return np.expm1(-nights / tau) / np.expm1(-usual / tau)
        if (tau, usual) not in self.tables:
            self.tables[tau, usual] = np.expm1(-np.arange(400) / tau) / np.expm1(-usual / tau)
        return self.tables[tau, usual][nights]

    def factors(self, v: dict[str, Any], day: int, rounds: Array) -> list:
        out, seen = [], {}
        for one in v["species"]:
            if one not in self.used:
                out.append(1.0)
                continue
            same = (id(one),) if np.ndim(one["soak_time_constant_nights"]) or np.ndim(one["usual_soak_nights"]) else (
                one["soak_time_constant_nights"], one["usual_soak_nights"])
            if same not in seen:
                total = 0.0
                for back in range(1, len(self.last) + 1):
                    weight = np.maximum(1.0 - np.abs(rounds - back), 0.0)
                    total = total + weight * self.filled(one, day - self.last[back - 1])
                seen[same] = total
            out.append(seen[same])
        return out

    def hauled(self, day: int, where: Array) -> None:
        for back in range(len(self.last) - 1, 0, -1):
            np.copyto(self.last[back], self.last[back - 1], where=where)
        self.last[0][where] = day

    def set_on(self, day: int, where: Array) -> None:
        self.last[:, where] = day


def string_luck(v: dict[str, Any], dates: list, q: Any, n: int, rng: np.random.Generator) -> dict[int, Any]:
    """Share of the pots in the water lost on a day of each month."""
    loss, count = v["boat"][0]["gear_loss"], v["boat"][0]["fishery"][0]["count"]
    months = {d.month for d in dates}
    if "pots_per_string" not in loss or not np.any(q):
        return dict.fromkeys(months, q)
    share = {}
    for month in months:
        odds = 1.0 - (1.0 - q) ** sum(d.month == month for d in dates)
        sd = np.sqrt(np.log1p((1.0 - odds) * loss["pots_per_string"] / (count * odds)))
        share[month] = np.minimum(1.0, q * mean_one(sd, rng.standard_normal(n)))
    return share


def simulate_block(plan: dict[str, Any], n: int, rng: np.random.Generator) -> dict[str, Array]:
    v = drawn(plan, rng, n)
    boat, outlet, prices, species = v["boat"][0], v["outlet"][0], v["prices"], v["species"]
    fishery, policy, gear_loss = boat["fishery"][0], boat.get("insurance"), boat.get("gear_loss")
    start, end = v["season"]["start"], v["season"]["end"]
    dates = [start + timedelta(days=i) for i in range((end - start).days + 1)]
    year = money_months(v)
    first = (start - year[0]).days  # day of the money year on which the season starts
    year_days = (year[-1] - year[0]).days

    w = rng.standard_normal(n)
    bad = bad_weather(v, dates, w, rng)
    catch_year, price_year, fuel_year, bait_year = year_levels(v, w, rng)
    effect = [day_effect(s, len(dates), n, rng) for s in species]
    week_factor, week_of = week_effect(outlet, dates, n, rng)
    mine = [k for k, s in enumerate(species) if s["name"] in fishery["species"]]

    capacity = fishery["hauls_per_day"]
    count = np.broadcast_to(np.asarray(fishery["count"], float), (n,))
    setting = np.broadcast_to(np.asarray(fishery.get("setting_days", 0)), (n,)).astype(np.int64)
    each_day = count / np.maximum(setting, 1)
    in_water = np.where(setting == 0, count, 0.0)
    still_setting = bool(setting.any())
    down_until = np.full(n, -1)
    soak = Soak(v, n)
    hits = [rng.random((len(dates), n)) < 1.0 - np.exp(-k["per_100_days"] / 100.0) for k in boat.get("breakdown", [])]
    if gear_loss:
        lost_share = string_luck(v, dates, 1.0 - (1.0 - gear_loss["season_fraction"]) ** (1.0 / len(dates)), n, rng)
        at_once = gear_loss["replace"] == "at once"

    delay = outlet.get("paid_after_days", 0)
    claim_delay = policy.get("claim_paid_after_days", 0) if policy else 0
    flow = np.zeros((year_days + 1 + int(max(np.max(delay), np.max(claim_delay))), n))
    everyone = np.arange(n)
    c = {k: np.zeros(n) for k in ("sales", "bait", "fuel", "crew_pay", "repairs", "claims", "selling_costs")}
    c |= {k: np.zeros(n) for k in ("pots_lost", "days_fished", "days_broken_down", "days_weather")}
    week_sales, week_costs, week_out = np.zeros((3, n))
    day_costs = sum(cost["amount"] for cost in boat.get("day_costs", []))
    fuel_out = boat["fuel_l_per_day_out"] * prices["fuel_per_l"] * fuel_year + day_costs
    fuel_haul = boat.get("fuel_l_per_100_hauls", 0.0) / 100.0 * prices["fuel_per_l"] * fuel_year
    bait_haul = prices["bait_per_haul"] * bait_year
    levy, unit_cost = prices.get("levy_fraction", 0.0), outlet.get("cost_per_unit", 0.0)
    power = boat.get("catching_power", 1.0)
    usual = [s["per_haul"] * power * catch_year[k] for k, s in enumerate(species)]
    paid = [outlet["price"][s["name"]] * price_year[k] for k, s in enumerate(species)]
    rest = set(v["season"].get("rest_days", []))
    hauls_all = np.zeros(n)

    for t, today in enumerate(dates):
        now = first + t
        ashore = WEEKDAYS[today.weekday()] in rest or any(
            o["from"] <= today <= o["to"] for o in v["season"].get("days_off", []))
        if not ashore:
            up = down_until < t
            out = up & ~bad[t]
            c["days_broken_down"] += ~up
            c["days_weather"] += up & bad[t]
            c["days_fished"] += out
            hauling = out
            if still_setting:
                sets = out & (setting > 0)
                hauling = out & (setting == 0)
                in_water += sets * each_day
                setting = setting - sets
                soak.set_on(t, sets & (setting == 0))
                still_setting = bool(setting.any())
            hauls = np.minimum(in_water, capacity)
            factors = soak.factors(v, t, np.maximum(in_water / capacity, 1.0)) if soak.used else [1.0] * len(species)
            hauls *= hauling
            if soak.used:
                soak.hauled(t, hauling)
            sales = units = 0.0
            for k in mine:
                caught = hauls * usual[k]
                caught *= of_month(species[k].get("month_shape", 1.0), today.month, 1.0)
                caught *= factors[k]
                if effect[k] is not None:
                    caught *= effect[k][t]
                units = units + caught
                sales = sales + caught * paid[k]
            sales = sales * of_month(outlet.get("month_factor", 1.0), today.month, 1.0)
            if week_factor is not None:
                sales *= week_factor[week_of[t]]
            bait, fuel = hauls * bait_haul, hauls * fuel_haul
            selling = levy * sales + unit_cost * units
            trip = out * fuel_out
            if np.ndim(delay):
                flow[now + delay.astype(np.int64), everyone] += sales
            else:
                flow[now + int(delay)] += sales
            flow[now] -= bait + fuel + trip + selling
            hauls_all += hauls
            c["sales"] += sales
            c["bait"] += bait
            c["selling_costs"] += selling
            week_sales += sales
            week_costs += bait + fuel + out * (fuel_out - day_costs)
            week_out += out

            for kind, hit in zip(boat.get("breakdown", []), hits, strict=True):
                who = np.flatnonzero(hit[t] & out)
                if not len(who):
                    continue
                bill, lost = (
                    spread(kind[key], key, rng.standard_normal(len(who))) if is_guess(kind[key]) else np.full(len(who), kind[key])
                    for key in ("repair", "days_lost")
                )
                down_until[who] = np.maximum(down_until[who], t + lost.astype(np.int64))
                c["repairs"][who] += bill
                flow[now, who] -= bill
                if policy:
                    of = lambda x, who=who: x[who] if np.ndim(x) else x  # noqa: E731
                    accepted = rng.random(len(who)) < of(kind.get("claimable_odds", 0.0))
                    claim = accepted * np.maximum(bill - of(policy["deductible"]), 0.0)
                    c["claims"][who] += claim
                    flow[now + np.asarray(of(claim_delay)).astype(np.int64), who] += claim

        if gear_loss:
            lost_pots = in_water * lost_share[today.month]
            c["pots_lost"] += lost_pots
            if at_once:
                flow[now] -= lost_pots * gear_loss["pot_cost"]
            else:
                in_water -= lost_pots
        if today.weekday() == 6 or t == len(dates) - 1:
            pay = np.zeros(n)
            for hand in boat.get("crew", []):
                if hand["pay"] == "share of sales":
                    pay += hand["share_fraction"] * week_sales
                elif hand["pay"] == "share after bait and fuel":
                    pay += hand["share_fraction"] * np.maximum(week_sales - week_costs, 0.0)
                else:
                    pay += hand["per_day"] * week_out
            c["crew_pay"] += pay
            flow[min(now + 6 - today.weekday(), year_days - 1)] -= pay
            for total in (week_sales, week_costs, week_out):
                total[:] = 0.0

    c["day_costs"] = c["days_fished"] * day_costs
    c["fuel"] = c["days_fished"] * (fuel_out - day_costs) + hauls_all * fuel_haul
    c["pots_lost_cost"] = c["pots_lost"] * gear_loss["pot_cost"] if gear_loss else np.zeros(n)
    spent = ("fuel", "bait", "day_costs", "crew_pay", "selling_costs", "repairs", "pots_lost_cost")
    c["running"] = c["sales"] - sum(c[k] for k in spent) + c["claims"]
    close_year(v, c, flow)
    return c


def simulate(plan: dict[str, Any], histories: int, rng: np.random.Generator, block: int = BLOCK) -> dict[str, Array]:
    """Every column of `histories` histories of a plan as `numpy_plan.read` gives it."""
    parts = [simulate_block(plan, min(block, histories - i), rng) for i in range(0, histories, block)]
    return {k: np.concatenate([p[k] for p in parts]) for k in parts[0]}
