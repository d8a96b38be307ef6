# SPDX-License-Identifier: MIT
"""A plan in sentences, with the means it implies, for the owner to check by eye.

Sums that the engine can do are done by the engine, on one history of the plan with every guess at its typical value;
means of guesses and of event sizes come from the engine's own spread. Each subject has a file of its own,
``describe_days.py`` and so on; `Reader` is what they share.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.describe_boats import boat_lines
from seasonrisk.describe_catch import catch_lines, limit_lines
from seasonrisk.describe_days import ending_lines, family_lines, owner_lines, season_lines, shock_lines, weather_lines
from seasonrisk.describe_lender import note_lines, past_lines, source_lines, stress_lines, suppose_lines
from seasonrisk.describe_money import (
    asset_lines,
    bill_lines,
    growth_lines,
    hours_lines,
    household_lines,
    input_lines,
    loan_lines,
)
from seasonrisk.describe_reader import Reader, number_text
from seasonrisk.describe_selling import holding_lines, order_lines, outlet_lines
from seasonrisk.values import EventSize, Guess, number_as_typed

if TYPE_CHECKING:
    from seasonrisk.plan import Plan

__all__ = ["describe", "spread_lines"]

ONE_IN_1000 = 3.0902323061678132  # z that 1 in 1,000 passes


def describe(plan: Plan) -> str:
    """See `Plan.describe`."""
    reader = Reader(plan)
    parts = (
        season_lines, ending_lines, family_lines, weather_lines, shock_lines,
        catch_lines, limit_lines, order_lines, outlet_lines, holding_lines,
        boat_lines, owner_lines, input_lines, bill_lines, loan_lines, asset_lines, growth_lines,
        household_lines, hours_lines, suppose_lines, stress_lines, past_lines, note_lines, source_lines, spread_lines,
    )  # fmt: skip
    return "\n".join(line for part in parts for line in part(reader))


def spread_lines(plan: Reader) -> list[str]:
    """Guesses and event sizes: typical, mean, and what 1 in 1,000 passes."""
    once = "a season" if plan.years() == 1 else "for all years of a history"
    kinds = ((Guess, f"Guesses, drawn once {once}"), (EventSize, "Sizes of single events"))
    lines = []
    for kind, title in kinds:
        paths = [path for path, value in plan.plan.numbers.items() if isinstance(value, kind)]
        if paths:
            lines.append(f"{title} (typical, mean, 1 in 1,000 above):")
        for path in paths:
            entry = plan.entries[path]
            value = plan.plan.numbers[path]
            typical = value.typical if isinstance(value, Guess | EventSize) else value
            unit = entry.unit.replace("money", plan.plan.money)
            lines.append(
                f"  {path:<44} {number_as_typed(typical):>9} {number_text(entry.mean()):>9} {number_text(entry.at(ONE_IN_1000)):>9}  {unit}"
            )
    return lines
