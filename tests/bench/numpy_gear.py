# SPDX-License-Identifier: MIT
"""Pots of the NumPy season: how long today's have been down, and how many are lost."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy_luck import mean_one

Array = np.ndarray


class Soak:
    """When today's pots were last hauled, kept as the days of the latest hauls, newest first."""

    def __init__(self, v: dict[str, Any], n: int) -> None:
        fishery = v["boat"][0]["fishery"][0]
        deepest = int(np.max(np.floor(fishery["count"] / fishery["hauls_per_day"])))
        soaking = ("usual_soak_nights", "soak_time_constant_nights")
        self.nights = [
            tuple(s[k] for k in soaking) if all(k in s for k in soaking) else None for s in v["species"]
        ]
        self.used = any(pair is not None for pair in self.nights)
        self.last = np.full((max(deepest, 1) + 1, n), -1, np.int32)
        self.tables: dict[tuple, Array] = {}

    def filled(self, pair: tuple, nights: Array) -> Array:
        """Catch of a pot down so many nights, over that after the usual soak."""
        usual, tau = pair
        if np.ndim(tau) or np.ndim(usual):
            return np.expm1(-nights / tau) / np.expm1(-usual / tau)
        if pair not in self.tables:
            self.tables[pair] = np.expm1(-np.arange(400) / tau) / np.expm1(-usual / tau)
        return self.tables[pair][nights]

    def factors(self, day: int, rounds: Array) -> list:
        """By species; species that soak alike are worked out once."""
        weights = [np.maximum(1.0 - np.abs(rounds - back), 0.0) for back in range(1, len(self.last) + 1)]
        nights = [day - last for last in self.last]
        known: dict[tuple, Array] = {}
        for pair in self.nights:
            alike = self.likeness(pair)
            if pair is not None and alike not in known:
                known[alike] = sum(w * self.filled(pair, s) for w, s in zip(weights, nights, strict=True))
        return [1.0 if pair is None else known[self.likeness(pair)] for pair in self.nights]

    @staticmethod
    def likeness(pair: tuple | None) -> tuple | None:
        return pair and tuple(id(x) if np.ndim(x) else x for x in pair)

    def hauled(self, day: int, where: Array) -> None:
        for back in range(len(self.last) - 1, 0, -1):
            np.copyto(self.last[back], self.last[back - 1], where=where)
        np.copyto(self.last[0], day, where=where)

    def set_on(self, day: int, where: Array) -> None:
        self.last[:, where] = day


def lost_share_by_month(v: dict[str, Any], dates: list, n: int, rng: np.random.Generator) -> dict[int, Any]:
    """Share of the pots in the water lost on a day of each month; by the string it is luck of the month."""
    loss, count = v["boat"][0]["gear_loss"], v["boat"][0]["fishery"][0]["count"]
    q = 1.0 - (1.0 - loss["season_fraction"]) ** (1.0 / len(dates))
    months = {d.month for d in dates}
    if "pots_per_string" not in loss or not np.any(q):
        return dict.fromkeys(months, q)
    share = {}
    for month in sorted(months):
        odds = 1.0 - (1.0 - q) ** sum(d.month == month for d in dates)
        sd = np.sqrt(np.log1p((1.0 - odds) * loss["pots_per_string"] / (count * odds)))
        share[month] = np.minimum(1.0, q * mean_one(sd, rng.standard_normal(n)))
    return share
