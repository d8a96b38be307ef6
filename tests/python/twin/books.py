# SPDX-License-Identifier: MIT
"""What is counted and earned, year by year and boat by boat, and the money that moves by day."""

from __future__ import annotations

from collections import defaultdict
from datetime import date

# Figures that every history has, happen or not. All are sums over days.
EARNED = (
    *("sales", "fuel", "bait", "day_costs", "crew_pay", "selling_costs", "order_shortfalls", "repairs", "claims"),
    *("pots_lost_cost", "quota_lease", "switch_costs", "missed_settlements", "rehire", "inputs", "standing_costs"),
    *("other_income", "pots_owed"),
)
DAYS = (
    *("days_fished", "days_rest", "days_off", "days_ashore", "days_laid_up", "days_broken_down", "days_no_skipper"),
    *("days_no_crew", "days_limit", "days_weather", "days_stayed_in", "days_setting", "days_gear_in", "days_out"),
)
COUNTED = ("bad_weather_days", "hauls", "pots_lost", "claims_paid", "storms", "total_loss")
# Figures that stand for each boat as well, when there are several.
OF_A_BOAT = (
    *DAYS,
    *COUNTED,
    *("pots_left", "sales", "fuel", "bait", "day_costs", "crew_pay", "repairs", "claims", "pots_lost_cost"),
    *("switch_costs", "rehire"),
)


class Books:
    """Sums by name for each money year, and the account's movements."""

    def __init__(self, boats: list[str], years: int) -> None:
        self.boats = boats if len(boats) > 1 else []
        self.year: list[dict[str, float]] = [
            defaultdict(float, dict.fromkeys((*EARNED, *DAYS, *COUNTED), 0.0)) for _ in range(years)
        ]
        if self.boats:
            for one in self.year:
                one["days_both"] = 0.0
        self.of_boat: dict[str, float] = {f"{name}.{boat}": 0.0 for boat in self.boats for name in OF_A_BOAT}
        self.flow: defaultdict[date, float] = defaultdict(float)
        self.days_out: defaultdict[tuple[int, int], float] = defaultdict(float)  # by boat and year
        self.y = 0

    def exists(self, name: str) -> None:
        """The column is there, also when nothing is ever added to it."""
        for one in self.year:
            one[name] += 0.0

    def add(self, name: str, amount: float, boat: int | None = None) -> None:
        self.year[self.y][name] += amount
        if name == "days_out" and boat is not None:
            self.days_out[boat, self.y] += amount
        if self.boats and boat is not None and name in OF_A_BOAT:
            self.of_boat[f"{name}.{self.boats[boat]}"] += amount

    def of(self, boat: int, name: str) -> str:
        """`crew_pay`, "mate" with one boat; with several the boat's name stands between."""
        head, tail = name.split(".", 1)
        return f"{head}.{self.boats[boat]}.{tail}" if self.boats else name

    def move(self, day: date, amount: float) -> None:
        """Money into the account, or out of it."""
        self.flow[day] += amount

    def cost(self, name: str, amount: float, today: date, boat: int | None = None) -> None:
        """A cost that is earned and paid today."""
        self.add(name, amount, boat)
        self.move(today, -amount)
