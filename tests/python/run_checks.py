# SPDX-License-Identifier: MIT
"""What must hold in every history of any run, worked out from its plan and other columns."""

from __future__ import annotations

from datetime import date

import numpy as np
import seasonrisk as sr
from numpy.typing import NDArray

CAUSES = ("fished", "rest", "off", "ashore", "laid_up", "broken_down", "no_skipper", "no_crew", "limit", "weather", "stayed_in")
A_PENNY = 0.005  # half of one: "to the penny"

SameBits = NDArray[np.uint64]


def names_in(plan: sr.Plan, section: str, key: str = "name") -> list[str]:
    """The names of a list of sections, ``"boat"`` or ``"boat.0.crew"``, in the plan's order."""
    depth = section.count(".") + 3
    return [
        str(e.value) for e in plan.entries
        if e.path.startswith(section + ".") and e.path.endswith("." + key) and e.path.count(".") + 1 == depth
    ]


def seasons_of(plan: sr.Plan) -> list[int]:
    """The years in which the seasons begin."""
    start, years = plan["season.start"], plan["business.years"]
    assert isinstance(start, date)
    return [start.year + y for y in range(int(years))]  # type: ignore[arg-type]


def years_later(day: date, years: int) -> date:
    """The same day so many years later; 29 February becomes the 28th."""
    is_leap_day = (day.month, day.day) == (2, 29)
    return day.replace(year=day.year + years, day=28 if is_leap_day and (day.year + years) % 4 else day.day)


def season_days(plan: sr.Plan) -> int:
    """Days of all seasons, from first to last day of each."""
    start, end = plan["season.start"], plan["season.end"]
    assert isinstance(start, date)
    assert isinstance(end, date)
    return sum((years_later(end, y) - years_later(start, y)).days + 1 for y in range(len(seasons_of(plan))))


def assets_bought(run: sr.Run) -> float:
    """Paid for assets from the first day of the account to its last."""
    first, last = run.months[0], run.months[-1]
    found = 0.0
    for e in run.plan.entries:
        if e.path.startswith("asset.") and e.path.endswith(".bought") and first <= f"{e.value:%Y-%m}" <= last:
            cost = run.plan.numbers[e.path.replace("bought", "cost")]
            assert isinstance(cost, float)
            found += cost
    return found


def closing_cash_by_the_books(run: sr.Run) -> NDArray[np.float64]:
    """Cash at the start and every year's household rung, less what is still owed to us or was bought, and with what
    we still owe (the reconciliation of the two books)."""
    opening = run.plan.numbers["business.opening_cash"]
    assert isinstance(opening, float)
    return opening + run["household"] - run["owed_to_us"] + run["owed_by_us"] - assets_bought(run)


def bits(run: sr.Run, name: str) -> SameBits:
    return run[name].view(np.uint64)


def changed(before: sr.Run, after: sr.Run, names: list[str]) -> list[str]:
    """Those of the columns that differ by a bit in any history."""
    return [name for name in names if not np.array_equal(bits(before, name), bits(after, name))]
