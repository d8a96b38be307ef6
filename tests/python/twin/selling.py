# SPDX-License-Identifier: MIT
"""A day's sales: orders, what is kept, the outlets, and what has to go."""

from __future__ import annotations

from datetime import date
from typing import Any

from twin.books import Books
from twin.calendar_years import DAY, WEEKDAYS, Season
from twin.goods import Good, number_of
from twin.market import Market, Outlet
from twin.people import Crew
from twin.philox import Luck
from twin.store import Lot, Store
from twin.years import growth


class Selling:
    """Stays from season to season; orders begin each year at their full size."""

    def __init__(self, v: dict[str, Any], goods: list[Good], books: Books, crews: list[Crew], luck: Luck) -> None:
        self.v, self.goods, self.books, self.crews = v, goods, books, crews
        self.store = Store(v, goods, books, luck)
        self.levy = v["prices"].get("levy_fraction", 0.0)
        self.orders = v.get("order", [])
        for order in self.orders:
            for name in ("ordered", "delivered", "short"):
                books.exists(f"{name}.{order['who']}")
        for good in goods:
            books.exists(f"{'forced' if good.number in self.store.of_good else 'unsold'}.{good.name}")
        for outlet in v["outlet"]:
            books.exists(f"open_days.{outlet['name']}")

    def begin_season(self, season: Season, market: Market) -> None:
        self.season, self.market = season, market
        self.order_size = [1.0] * len(self.orders)
        for outlet in market.outlets:
            for good in outlet.takes:
                self.books.exists(f"sold.{outlet.name}.{self.goods[good].name}")

    def sell_the_day(self, landing: list[list[float]], today: date) -> None:
        """`landing`: sold units by good and boat."""
        fresh = [Lot(parts) for parts in landing]
        self.market.landed = {good: lot.amount for good, lot in enumerate(fresh)}
        self.fill_orders(fresh, today)
        for good, kept in self.store.of_good.items():
            if "keep_for" in kept.plan:
                part = kept.plan.get("keep_fraction", 0.0) * fresh[good].amount
                kept.put(Lot(fresh[good].take(part)))
        self.go_round_outlets(fresh, today)
        self.keep_or_lose(fresh, today)
        self.sell_off(today)

    # --- each sale

    def sold(self, parts: list[float], price: float, today: date, paid_on: date | None) -> None:
        """One sale; each boat's crew shares its own boat's part. `paid_on` none: the money never comes."""
        money = sum(parts) * price
        for b, part in enumerate(parts):
            self.books.add("sales", part * price, b)
            self.crews[b].week["sales"] += part * price
        self.books.cost("selling_costs", self.levy * money, today)
        if paid_on is None:
            self.books.add("missed_settlements", money)
        else:
            self.books.move(paid_on, money)

    # --- regulars

    def fill_orders(self, fresh: list[Lot], today: date) -> None:
        grown = growth(self.v, "prices", self.season.y)
        for i, order in enumerate(self.orders):
            if WEEKDAYS[today.weekday()] not in order.get("days", []) or not self.season.holds(order, today):
                continue
            good, ordered = number_of(self.goods, order["grade"]), order["quantity"] * self.order_size[i]
            delivered, price = 0.0, order["price"] * grown
            kept = self.store.of_good.get(good)
            for lot in [*(kept.lots if kept else []), fresh[good]]:
                amount = min(ordered - delivered, lot.amount)
                if amount > 0.0:
                    delivered += amount
                    self.sold(lot.take(amount), price, today, today)
            if kept:
                kept.tidy()
            short = max(0.0, ordered - delivered)
            if "buy_in_price" in order:
                self.books.cost("order_shortfalls", short * (order["buy_in_price"] * grown - price), today)
            else:
                self.books.cost("order_shortfalls", short * order.get("refund_per_unit", 0.0) * grown, today)
            if ordered > 0.0:
                self.order_size[i] *= 1.0 - order.get("leave_fraction", 0.0) * short / ordered
            for name, amount in (("ordered", ordered), ("delivered", delivered), ("short", short)):
                self.books.add(f"{name}.{order['who']}", amount)

    # --- buyers

    def go_round_outlets(self, fresh: list[Lot], today: date) -> None:
        for outlet in self.market.outlets:
            if not outlet.is_open(today):
                continue
            room = outlet.room(today)
            for good in sorted(outlet.takes):
                for lot in [*self.offered(outlet, good), fresh[good]]:
                    amount = min(room.left(good), lot.amount)
                    if amount > 0.0:
                        room.take(good, amount)
                        self.sell_to(outlet, good, lot.take(amount), today)
            if today in self.season:
                self.books.add(f"open_days.{outlet.name}", 1.0)
                self.books.add("stall_hours", outlet.outlet.get("hours_per_open_day", 0.0))
                self.books.cost("selling_costs", outlet.outlet.get("cost_per_open_day", 0.0), today)
        for kept in self.store.of_good.values():
            kept.tidy()

    def offered(self, outlet: Outlet, good: int) -> list[Lot]:
        """Kept stock that this outlet may have today, oldest first."""
        kept = self.store.of_good.get(good)
        if kept is None:
            return []
        last_day = int(kept.plan["longest_days"])
        keep_for = kept.plan.get("keep_for", outlet.name)
        return [lot for lot in kept.lots if keep_for == outlet.name or lot.age >= last_day]

    def sell_to(self, outlet: Outlet, good: int, parts: list[float], today: date) -> None:
        amount = sum(parts)
        paid_on = today + int(outlet.outlet.get("paid_after_days", 0)) * DAY
        price = self.market.price_today(outlet, good, today)
        self.sold(parts, price, today, None if outlet.never_pays(today) else paid_on)
        self.books.cost("selling_costs", outlet.outlet.get("cost_per_unit", 0.0) * amount, today)
        self.books.add(f"sold.{outlet.name}.{self.goods[good].name}", amount)

    # --- what nobody took

    def keep_or_lose(self, fresh: list[Lot], today: date) -> None:
        for good, lot in enumerate(fresh):
            kept = self.store.of_good.get(good)
            if kept is None:
                self.books.add(f"unsold.{self.goods[good].name}", lot.amount)
            else:
                kept.put(lot)

    def sell_off(self, today: date) -> None:
        """This evening: what may not be kept longer, then what there is no room for, the oldest first."""
        for good, kept in self.store.of_good.items():
            for lot in kept.lots:
                if lot.age >= int(kept.plan["longest_days"]):
                    self.force(good, lot, lot.amount, today)
            kept.tidy()
            for lot in kept.lots:
                over = kept.amount() - kept.plan["capacity"]
                if over > 0.0:
                    self.force(good, lot, min(over, lot.amount), today)
            kept.tidy()

    def force(self, good: int, lot: Lot, amount: float, today: date) -> None:
        self.sold(lot.take(amount), self.forced_price(good, today), today, today)
        self.books.add(f"forced.{self.goods[good].name}", amount)

    def forced_price(self, good: int, today: date, only_open: bool = True) -> float:
        fraction = self.store.of_good[good].plan.get("forced_price_fraction", 0.0)
        return fraction * self.market.lowest_price(good, today, only_open)
