# SPDX-License-Identifier: MIT
"""One boat: out or not and why, what she hauls and burns, what breaks and what is lost."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from typing import Any

from twin.books import Books
from twin.calendar_years import DAY, Season
from twin.gear import Gear, Losses
from twin.people import LONG_AGO, Crew, HiredSkipper
from twin.philox import Luck
from twin.plan_values import size_of_event


@dataclass
class Trip:
    """A day out: with which gear, how many pots."""

    gear: Gear
    hauls: float
    baited: float
    gear_in: bool
    setting: bool


class Boat:
    def __init__(self, v: dict[str, Any], base: dict[str, Any], number: int, luck: Luck, books: Books) -> None:
        self.v, self.base, self.number, self.luck, self.books = v, base, number, luck, books
        self.plan = v["boat"][number]
        self.owners = self.plan.get("skipper", "owner") == "owner"
        self.crew = Crew(v, number, luck, books)
        self.skipper = HiredSkipper(self.plan, number, luck)
        self.kinds, self.policy = self.plan.get("breakdown", []), self.plan.get("insurance")
        self.loss = self.plan.get("gear_loss")
        self.hours = [kind.get("hours", 0.0) for kind in self.kinds]
        self.down_until = LONG_AGO
        self.gears: list[Gear] = []
        for kind in self.kinds:
            books.exists(books.of(number, f"breakdowns.{kind['kind']}"))

    # --- the season's frame

    def begin_season(self, season: Season, bad: dict[date, bool]) -> None:
        self.season, self.bad = season, bad
        gear_in_days = int(self.v.get("ending", {}).get("gear_in_days", 0))
        fish_from = self.plan.get("fish_from")
        self.gears = [Gear(f, season, fish_from, gear_in_days) for f in self.plan["fishery"]]
        pots = sorted((g for g in self.gears if g.pots and g.active_this_year), key=lambda g: g.first)
        if pots and gear_in_days > 0:
            pots[-1].lift_over()
        self.losses = [
            Losses(
                g, self.loss, self.base, (self.number, f), season, self.luck, self.plan.get("weather_odds_multiplier", 1.0)
            )
            if self.loss and g.pots
            else None
            for f, g in enumerate(self.gears)
        ]
        here = [losses for losses in self.losses if losses]
        expected = sum(losses.expected_bad_days for losses in here)
        odds = self.loss.get("storm_odds_per_season", 0.0) if self.loss else 0.0
        for losses in here:
            losses.storm_hazard = 1.0 - (1.0 - odds) ** (1.0 / expected) if odds > 0.0 and expected > 0.0 else 0.0
        for f, gear in enumerate(self.gears):
            try:
                before = self.base["boat"][self.number]["fishery"][f]["count"]
            except IndexError:
                before = gear.count
            gear.crowding = (gear.count / before) ** (gear.fishery.get("elasticity", 1.0) - 1.0)
        odds = self.policy.get("total_loss_odds_per_year", 0.0) if self.policy else 0.0
        lost = self.luck.in_year(season.year, "total_loss", 0, self.number) < odds
        self.books.add("total_loss", float(lost), self.number)

    def has_come(self, today: date) -> bool:
        return today >= self.plan.get("fish_from", today)

    def begin_day(self, today: date) -> None:
        for gear in self.gears:
            gear.begin_day(today)

    def change_over(self, today: date) -> None:
        """Switching to another fishery is paid on its first day."""
        used = sorted((g for g in self.gears if g.active_this_year), key=lambda g: g.first)
        for gear in used[1:]:
            if gear.first == today:
                self.books.cost("switch_costs", gear.fishery.get("switch_cost", 0.0), today, self.number)

    def gear_in_use(self, today: date) -> Gear | None:
        """What she would work today; pots still to be brought in come first."""
        used = [g for g in self.gears if g.is_used(today)]
        return next((g for g in used if g.coming_in(today)), used[0] if used else None)

    def gear_still_to_come(self, today: date) -> bool:
        return any(g.coming_in(today) and g.left_to_lift() for g in self.gears)

    def pots_in_water(self) -> float:
        return sum(g.in_water for g in self.gears if g.pots)

    # --- a day out

    def trip(self, gear: Gear, today: date) -> Trip:
        coming_in = gear.coming_in(today)
        setting = not coming_in and gear.setting_left > 0
        hauls = gear.hauls(today, self.crew.hauls_factor(today))
        return Trip(gear, hauls, 0.0 if coming_in else hauls, coming_in, setting)

    def caught(self, k: int, species: dict[str, Any], gear: Gear, hauls: float, today: date, level: float) -> float:
        """An ordinary day's catch; `level` holds what is the same for all boats."""
        if species["name"] not in gear.fishery["species"] or hauls == 0.0:
            return 0.0
        power = self.plan.get("catching_power", 1.0)
        return hauls * species["per_haul"] * gear.soak(today, species) * gear.crowding * power * level

    def litres(self, hauls: float) -> float:
        return self.plan["fuel_l_per_day_out"] + self.plan.get("fuel_l_per_100_hauls", 0.0) * hauls / 100.0

    def day_costs(self) -> float:
        return sum(cost["amount"] for cost in self.plan.get("day_costs", []))

    def break_down(self, today: date) -> bool:
        """After a day out: does something break? The day's hours count from tomorrow on."""
        broke = False
        for k, kind in enumerate(self.kinds):
            rate, shape, reference = (
                kind["per_100_days"] / 100.0,
                kind.get("wear_shape", 1.0),
                kind.get("wear_reference_hours"),
            )
            hours = self.hours[k]
            self.hours[k] += self.plan.get("hours_per_day", 0.0)
            if reference is not None and shape != 1.0:
                rate *= (hours / reference) ** (shape - 1.0) if hours > 0.0 or shape > 1.0 else math.inf
            if self.luck.daily(today, "breakdown_happens", k, self.number) >= 1.0 - math.exp(-rate):
                continue
            broke = True
            if kind.get("resets_hours", False):
                self.hours[k] = 0.0
            self.repair(k, kind, today)
        return broke

    def repair(self, k: int, kind: dict[str, Any], today: date) -> None:
        size = lambda key, purpose: size_of_event(kind, key, self.luck.normal_on(today, purpose, k, self.number))  # noqa: E731
        repair, lost = size("repair", "repair_size"), size("days_lost", "days_lost_size")
        saved = sum(spare["days_saved"] for spare in self.plan.get("spare", []) if spare["for"] == kind["kind"])
        self.down_until = max(self.down_until, today + int(max(0.0, lost - saved)) * DAY)
        self.books.add(self.books.of(self.number, f"breakdowns.{kind['kind']}"), 1.0)
        self.books.cost("repairs", repair, today, self.number)
        if self.luck.on(today, "claim_accepted", k, self.number) < kind.get("claimable_odds", 0.0):
            self.claim(repair, self.policy["deductible"] if self.policy else 0.0, today)

    def claim(self, loss: float, own_part: float, today: date) -> None:
        if self.policy is None:
            return
        claim = max(0.0, loss - own_part)
        self.books.add("claims", claim, self.number)
        self.books.add("claims_paid", float(claim > 0.0), self.number)
        self.books.move(today + int(self.policy.get("claim_paid_after_days", 0)) * DAY, claim)

    # --- gear lost

    def lose_gear(self, today: date) -> None:
        for gear, losses in zip(self.gears, self.losses, strict=True):
            first, last = gear.window
            if losses is None or not first <= today <= last or gear.in_water <= 0.0:
                continue
            self.lost(gear, losses, losses.steady(gear.in_water, today), gear.in_water, today)

    def lost(self, gear: Gear, losses: Losses, steady: float, in_water: float, today: date) -> None:
        cost, storm = losses.loss["pot_cost"], 0.0
        if self.bad[today] and self.luck.on(today, "storm") < losses.storm_hazard:
            z = self.luck.normal_on(today, "storm_loss", 0, self.number)
            storm = (in_water - steady) * size_of_event(losses.loss, "storm_loss_fraction", z)
            self.books.add("storms", float(storm > 0.0), self.number)
            if storm > 0.0 and self.policy and self.policy.get("gear_covered", False):
                part = self.policy.get("storm_deductible_fraction", 0.0)
                own = part * self.policy["hull_value"] if part > 0.0 else self.policy["deductible"]
                self.claim(storm * cost, own, today)
        gone = steady + storm
        gear.lose(gone, losses.at_once)
        self.books.add("pots_lost", gone, self.number)
        self.books.add("pots_lost_cost", gone * cost, self.number)
        if losses.at_once:
            self.books.move(today, -gone * cost)
        else:
            self.books.add("pots_owed", gone * cost)

    def pots_left(self) -> float:
        """Pots of the season now ended that are not lost for good; none of a boat that has not come."""
        return sum(g.count - g.lost_for_good for g in self.gears if g.pots and g.active_this_year)
