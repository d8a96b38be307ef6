# SPDX-License-Identifier: MIT
"""Stock by good: what is kept alive, by day of landing, and whose it was."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import Any

from twin.books import Books
from twin.goods import Good, number_of
from twin.philox import Luck
from twin.plan_values import last_stated

NOTHING = 1e-9  # rounding may leave this much of a lot that is sold


@dataclass
class Lot:
    """Stock of one landing day; a part for each boat."""

    parts: list[float]
    age: int = 0

    @property
    def amount(self) -> float:
        return sum(self.parts)

    def take(self, amount: float) -> list[float]:
        """Take out this much, from each boat's part in proportion."""
        there = self.amount
        if there <= 0.0 or amount <= 0.0:
            return [0.0] * len(self.parts)
        share = min(1.0, amount / there)
        gone = [part * share for part in self.parts]
        self.parts = (
            [part - one for part, one in zip(self.parts, gone, strict=True)] if share < 1.0 else [0.0] * len(gone)
        )
        return gone

    def shrink(self, factor: float) -> None:
        self.parts = [part * factor for part in self.parts]


@dataclass
class Kept:
    """The store of one good."""

    plan: dict[str, Any]
    lots: list[Lot] = field(default_factory=list)  # oldest first

    def amount(self) -> float:
        return sum(lot.amount for lot in self.lots)

    def put(self, lot: Lot) -> None:
        """Into the store, with what was landed on the same day."""
        if self.lots and self.lots[-1].age == lot.age:
            self.lots[-1].parts = [a + b for a, b in zip(self.lots[-1].parts, lot.parts, strict=True)]
        elif lot.amount > 0.0:
            self.lots.append(lot)

    def tidy(self) -> None:
        self.lots = [lot for lot in self.lots if lot.amount > 0.0]


class Store:
    def __init__(self, v: dict[str, Any], goods: list[Good], books: Books, luck: Luck) -> None:
        self.books, self.luck, self.goods = books, luck, goods
        self.of_good = {number_of(goods, one["grade"]): Kept(one) for one in v.get("holding", [])}
        for good in self.of_good:
            books.exists(f"died.{goods[good].name}")

    def is_empty(self) -> bool:
        return all(kept.amount() < NOTHING for kept in self.of_good.values())

    def morning(self, today: date) -> None:
        """The night's deaths, a die-off, and a day more of age."""
        for good, kept in self.of_good.items():
            plan, before = kept.plan, kept.amount()
            left = 1.0 - last_stated(plan.get("loss_per_night_fraction", {}), today.month)
            if self.luck.on(today, "die_off", good) < plan.get("die_off_odds_per_day", 0.0):
                left *= 1.0 - plan.get("die_off_fraction", 0.0)
            for lot in kept.lots:
                lot.shrink(left)
                lot.age += 1
            kept.tidy()
            self.books.add(f"died.{self.goods[good].name}", before - kept.amount())
