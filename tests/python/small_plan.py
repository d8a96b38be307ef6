# SPDX-License-Identifier: MIT
"""The smallest plan that runs, as nested values to change, and its TOML text. All figures are invented."""

from __future__ import annotations

import copy
from datetime import date
from typing import Any

BARE: dict[str, Any] = {
    "plan": 1,
    "business": {"name": "bare", "money": "GBP", "books_start": date(2027, 3, 1), "opening_cash": 10000.0},
    "season": {"start": date(2027, 6, 1), "end": date(2027, 9, 8)},  # 100 days
    "weather": {"unfishable_fraction": 0.0},
    "species": [{"name": "crab", "unit": "kg", "per_haul": 1.0}],
    "outlet": [{"name": "quay", "price": {"crab": 1.0}}],
    "prices": {"fuel_per_l": 1.0, "bait_per_haul": 0.0},
    "boat": [
        {
            "name": "Bare Poles",
            "skipper": "owner",
            "fuel_l_per_day_out": 0.0,
            "fishery": [{"gear": "pots", "count": 100, "hauls_per_day": 100, "species": ["crab"]}],
        }
    ],
}


def bare(**sections: dict[str, Any]) -> dict[str, Any]:
    """A copy of BARE with keys added to, or changed in, its sections; of a list of sections, in the first."""
    plan = copy.deepcopy(BARE)
    for name, keys in sections.items():
        at = plan.setdefault(name, {})
        (at[0] if isinstance(at, list) else at).update(keys)
    return plan


def value_text(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f'"{k}" = {value_text(v)}' for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(value_text(v) for v in value) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{value}"'
    return value.isoformat() if isinstance(value, date) else repr(value)


def text(plan: dict[str, Any]) -> str:
    return "\n".join(f"{key} = {value_text(value)}" for key, value in plan.items()) + "\n"
