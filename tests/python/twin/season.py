# SPDX-License-Identifier: MIT
"""A history told day by day, in the order the model states."""

from __future__ import annotations

from datetime import date
from typing import Any

from twin.boat import Boat, Trip
from twin.books import Books
from twin.calendar_years import DAY, WEEKDAYS, Season, days, seasons_of
from twin.effects import bad_days, ground_days, mean_one
from twin.family import FamilyDates
from twin.gear import Gear
from twin.goods import goods_of, shares_of_year
from twin.inputs import Inputs
from twin.limits import Limits
from twin.market import Market
from twin.money import close_books
from twin.people import Owner
from twin.philox import Luck
from twin.plan_values import drawn, of_month
from twin.selling import Selling
from twin.supposed import Supposed
from twin.usual import usual_landings
from twin.years import Years, growth


def simulate(plan: dict[str, Any], key: int, history: int, base: dict[str, Any] | None = None) -> dict[str, float]:
    """Every column of one history. `base`: the plan before choices, if this is a choice."""
    base = base or plan
    told = History(plan, base, Luck(key, history), usual_landings(base))
    for season in told.seasons:
        told.live_year(season)
    return close_books(told)


class History:
    def __init__(self, plan: dict[str, Any], base: dict[str, Any], luck: Luck, usual: dict) -> None:
        self.plan, self.luck, self.usual = plan, luck, usual
        self.v = v = drawn(plan, luck)
        self.seasons = seasons_of(v)
        self.goods, self.species = goods_of(v), v["species"]
        self.books = Books([boat["name"] for boat in v["boat"]], len(self.seasons))
        base_v = drawn(base, luck)
        self.boats = [Boat(v, base_v, b, luck, self.books) for b in range(len(v["boat"]))]
        self.owner, self.inputs = Owner(v, luck), Inputs(v, self.books)
        self.selling = Selling(v, self.goods, self.books, [boat.crew for boat in self.boats], luck)
        self.years, self.family = Years(v, luck), FamilyDates(v, self.boats, self.seasons)
        self.season: Season | None = None  # the last one begun
        for species in self.species:
            self.books.exists(f"catch.{species['name']}")

    def live_year(self, this: Season) -> None:
        self.books.y = this.y
        for boat in self.boats:
            boat.gears = []  # what is not in by the end of the money year is not waited for
        for today in days(this.books_first, this.books_last):
            if today == this.start:
                self.begin_season(this)
            for boat in self.boats if self.season else []:
                boat.begin_day(today)
                self.break_down_as_supposed(boat, today)
            self.family.morning(today)
            out = []
            if self.season and self.has_something_to_do(today):
                out = self.live(today)
            self.family.evening(today, out)
            if today.weekday() == 6 or today == this.books_last:
                for boat in self.boats:
                    boat.crew.settle(today)

    def begin_season(self, season: Season) -> None:
        """Levels of the year, weather and prices of the season; the gear is made ready."""
        self.season, y = season, season.y
        bad = bad_days(self.plan, self.v, self.luck, season)
        for boat in self.boats:
            boat.begin_season(season, bad[boat.number])
        self.ground = [ground_days(self.plan, self.v, self.luck, season, k) for k in range(len(self.species))]
        self.shares = shares_of_year(self.goods, self.luck, season.year)
        self.fuel, self.bait = self.years.fuel_price(y), self.years.bait_price(y)
        self.limits, self.supposed = Limits(self.v, season, self.luck), Supposed(self.v, season)
        self.market = Market(self.plan, self.v, self.goods, season, self.years, self.luck, self.usual)
        self.selling.begin_season(season, self.market)
        self.inputs.begin_season(season)

    def break_down_as_supposed(self, boat: Boat, today: date) -> None:
        """She is found broken down in the morning: the bill, the days, the owner's time."""
        for bill, lost in self.supposed.breakdowns(boat.number, today):
            self.books.cost("repairs", bill, today, boat.number)
            boat.down_until = max(boat.down_until, today + (lost - 1) * DAY)
            self.owner.boat_broke_down(boat.plan, today - DAY)

    def has_something_to_do(self, today: date) -> bool:
        return (
            today in self.season
            or any(boat.gear_still_to_come(today) for boat in self.boats)
            or not self.selling.store.is_empty()
        )

    # --- the day

    def live(self, today: date) -> list[int]:
        """One day; the numbers of the boats that were out."""
        fishing_season = today in self.season
        self.selling.store.morning(today)
        trips: list[Trip | None] = []
        owner_busy = self.owner.is_busy(today, self.season)
        for boat in self.boats:
            cause = self.why_ashore(boat, today, owner_busy)
            if fishing_season:
                boat.change_over(today)
                self.books.add("bad_weather_days", float(boat.bad[today]), boat.number)
                if cause:
                    self.books.add(cause, 1.0, boat.number)
                if cause == "days_weather":
                    self.turn_back(boat, today)
            trips.append(None if cause else boat.trip(boat.gear_in_use(today), today))
        landing = self.catch_and_costs(trips, today)
        self.selling.sell_the_day(landing, today)
        for boat, trip in zip(self.boats, trips, strict=True):
            if trip:
                trip.gear.worked(today, trip.hauls)
                if boat.break_down(today):
                    self.owner.boat_broke_down(boat.plan, today)
            if fishing_season:
                boat.lose_gear(today)
            boat.skipper.end_of_day(today, self.season)
        self.owner.end_of_day(today, self.season)
        if today == self.season.stop and self.season.stop < self.season.end:
            for boat in self.boats:
                if boat.has_come(today):
                    boat.crew.stopped_early(today, self.season)
        return [boat.number for boat, trip in zip(self.boats, trips, strict=True) if trip]

    def why_ashore(self, boat: Boat, today: date, owner_busy: bool) -> str | None:
        """The first cause that holds her, as the column that counts it."""
        gear = boat.gear_in_use(today)
        if WEEKDAYS[today.weekday()] in self.season.rest_days:
            return "days_rest"
        if any(first <= today <= last for first, last in self.season.days_off):
            return "days_off"
        if gear is None:
            return "days_ashore"
        if boat.owners and self.owner.is_laid_up(today):
            return "days_laid_up"
        if today <= boat.down_until:
            return "days_broken_down"
        if (owner_busy and boat.owners) or boat.skipper.is_gone(today):
            return "days_no_skipper"
        if self.supposed.holds("no skipper", boat.number, today):
            return "days_no_skipper"
        if boat.crew.hauls_factor(today) == 0.0:
            return "days_no_crew"
        caught = [k for k, s in enumerate(self.species) if s["name"] in gear.fishery["species"]]
        closed = self.supposed.holds("closure", boat.number, today) or self.limits.keeps_in(caught, today)
        if closed and not gear.coming_in(today):
            return "days_limit"
        if boat.bad[today]:
            return "days_weather"
        return "days_stayed_in" if self.not_worth_it(boat, gear, today) else None

    def level(self, k: int, today: date) -> float:
        """What the month, the year and the years before say about the catch of species k."""
        shape = of_month(self.species[k].get("month_shape", 1.0), today.month, 1.0)
        return shape * self.years.catch_factor(self.season.y, k) * growth(self.v, "catch", self.season.y)

    def not_worth_it(self, boat: Boat, gear: Gear, today: date) -> bool:
        """Would an ordinary catch at today's prices leave less than the skipper goes out for?"""
        if "stay_in_below" not in boat.plan or gear.coming_in(today) or gear.setting_left > 0:
            return False
        hauls = gear.hauls(today, boat.crew.hauls_factor(today))
        sales = selling = 0.0
        for good in self.goods:
            k = good.species
            amount = boat.caught(k, self.species[k], gear, hauls, today, self.level(k, today))
            amount *= self.shares[good.number] * good.sold_units_per_unit
            buyer = next((o for o in self.market.open_today(today) if good.number in o.takes), None)
            if buyer:
                sales += amount * self.market.price(buyer, good.number, today)
                selling += amount * buyer.outlet.get("cost_per_unit", 0.0)
        selling += sales * self.v["prices"].get("levy_fraction", 0.0)
        fuel, bait = boat.litres(hauls) * self.fuel, hauls * self.bait
        crew = sum(boat.crew.day_wages(today, self.season.y)) + sum(boat.crew.shares(sales, bait + fuel))
        costs = boat.day_costs() * growth(self.v, "costs", self.season.y)
        return sales - selling - fuel - bait - costs - crew < boat.plan["stay_in_below"]

    def turn_back(self, boat: Boat, today: date) -> None:
        """On some days lost to weather she has been out: in the mean, this much of a day's fuel."""
        fuel = self.v["weather"].get("turned_back_fraction", 0.0) * boat.plan["fuel_l_per_day_out"] * self.fuel
        self.books.cost("fuel", fuel, today, boat.number)
        boat.crew.week["bait and fuel"] += fuel

    def catch_and_costs(self, trips: list[Trip | None], today: date) -> list[list[float]]:
        """Catch and running costs of the trips; what is landed, in sold units by good and boat."""
        catch = [self.catch_of(boat, trip, today) for boat, trip in zip(self.boats, trips, strict=True)]
        self.share_ground(catch, trips)
        lease = self.limits.land(catch, today)
        self.books.cost("quota_lease", lease, today)
        for k, species in enumerate(self.species):
            self.books.add(f"catch.{species['name']}", sum(of_boat[k] for of_boat in catch))
        for boat, trip in zip(self.boats, trips, strict=True):
            if trip:
                self.pay_trip(boat, trip, today)
        self.inputs.use(sum(trip.hauls for trip in trips if trip), today)
        if today in self.season and sum(trip is not None for trip in trips) > 1:
            self.books.add("days_both", 1.0)
        units = [self.shares[g.number] * g.sold_units_per_unit for g in self.goods]
        return [[of_boat[g.species] * units[g.number] for of_boat in catch] for g in self.goods]

    def catch_of(self, boat: Boat, trip: Trip | None, today: date) -> list[float]:
        catch = [0.0] * len(self.species)
        for k, species in enumerate(self.species) if trip else []:
            catch[k] = boat.caught(k, species, trip.gear, trip.hauls, today, self.level(k, today))
            own_day = self.luck.daily_normal(today, "boat_day", k, boat.number)
            catch[k] *= self.ground[k][today] * mean_one(species.get("boat_day_sd", 0.0), own_day)
        return catch

    def share_ground(self, catch: list[list[float]], trips: list[Trip | None]) -> None:
        """On days two boats or more haul a species, the shares of all of them count for each."""
        for k, species in enumerate(self.species):
            there = [
                boat
                for boat, trip in zip(self.boats, trips, strict=True)
                if trip and trip.hauls > 0.0 and species["name"] in trip.gear.fishery["species"]
            ]
            if len(there) > 1:
                for boat in there:
                    for of_boat in catch:
                        of_boat[k] *= boat.plan.get("ground_share", 1.0)

    def pay_trip(self, boat: Boat, trip: Trip, today: date) -> None:
        b = boat.number
        fuel, bait = boat.litres(trip.hauls) * self.fuel, trip.baited * self.bait
        self.books.add("days_out", 1.0, b)
        self.books.add("days_fished", float(today in self.season), b)
        self.books.add("days_gear_in", float(trip.gear_in), b)
        self.books.add("days_setting", float(trip.setting), b)
        self.books.add("hauls", trip.hauls, b)
        self.books.cost("fuel", fuel, today, b)
        self.books.cost("bait", bait, today, b)
        self.books.cost("day_costs", boat.day_costs() * growth(self.v, "costs", self.season.y), today, b)
        boat.crew.week["bait and fuel"] += fuel + bait
        boat.crew.went_out(today, self.season.y)
