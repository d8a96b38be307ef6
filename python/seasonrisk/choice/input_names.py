# SPDX-License-Identifier: MIT
"""What the numbers of a plan are called when a question moves them."""

from __future__ import annotations

import difflib
import re

from seasonrisk.plan import Plan

__all__ = ["DAYS", "NAMES", "name_of", "nearest", "unit_of"]

#: Short names for what a skipper asks about, and the keys each of them moves together.
NAMES = {
    "price": r"outlet\.\d+\.price\..+",
    "catch": r"species\.\d+\.per_haul",
    "bait": r"prices\.bait_per_haul",
    "fuel": r"prices\.fuel_per_l",
    "crew share": r"boat\.\d+\.crew\.\d+\.share_fraction",
    "draw": r"household\.draw_per_month(\.\w+)?",
}
DAYS = "days"


def nearest(plan: Plan, name: str) -> str:
    """The key or short name that may have been meant: one that ends so, else the nearest in letters."""
    ends = [path for path in plan.numbers if path.endswith(f".{name}")]
    near = ends or difflib.get_close_matches(name, [*NAMES, DAYS, *plan.numbers], n=1)
    return f"; did you mean {near[0]}?" if near else ""


def name_of(plan: Plan, path: str) -> str:
    """A price by what is sold and to whom; anything else by its key path."""
    priced = re.fullmatch(r"(outlet\.\d+)\.price\.(.+)", path)
    return path if priced is None else f"{priced[2]} to {plan[f'{priced[1]}.name']}"


def unit_of(plan: Plan, path: str, unit: str) -> str:
    """The unit of a number, with the plan's money; of a price also what the good is sold by, where it has no grades."""
    good = path.rpartition(".price.")[2]
    species = next((e.path.removesuffix("name") for e in plan.entries if e.path.startswith("species.") and e.path.count(".") == 2 and e.path.endswith(".name") and e.value == good), None)
    sold_by = "unit" if species is None else str(plan[f"{species}unit"])
    return re.sub(r"\bunit\b", sold_by, re.sub(r"\bmoney\b", plan.money, unit))
