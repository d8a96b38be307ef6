# SPDX-License-Identifier: MIT
"""Philox4x32-10 (Salmon, Moraes, Dror & Shaw 2011, doi 10.1145/2063384.2063405) and the address of a draw."""

from __future__ import annotations

from datetime import date

from twin.normal import normal_quantile

M32 = 0xFFFFFFFF
WHOLE_YEAR = 511  # the day slot of a draw that belongs to a whole year
LUCK, GUESS = 0, 1  # families

PURPOSE = {
    "weather_day": 1,
    "year_weather": 2,
    "year_catch_common": 3,
    "year_catch_species": 4,
    "year_price_common": 5,
    "year_price_species": 6,
    "year_fuel": 7,
    "year_bait": 8,
    "ground_day": 9,
    "boat_day": 10,
    "price_week": 11,
    "breakdown_happens": 12,
    "repair_size": 13,
    "days_lost_size": 14,
    "claim_accepted": 15,
    "gear_loss_month": 16,
    "total_loss": 17,
    "year_grade": 18,
    "laid_up": 19,
    "laid_up_weeks": 20,
    "skipper_gap": 21,
    "skipper_gap_weeks": 22,
    "owner_day": 23,
    "no_show": 24,
    "shock": 25,
    "die_off": 26,
    "demand": 27,
    "missed_settlement": 28,
    "storm": 29,
    "storm_loss": 30,
    "crew_leaves": 31,
    "loan_rate": 32,
}


def philox(counter: tuple[int, int, int, int], key: int) -> tuple[int, int, int, int]:
    """Four random words of one counter; key word 0 is the low half of the 64-bit key."""
    a, b, c, d = counter
    k0, k1 = key & M32, key >> 32 & M32
    for _ in range(10):
        p, q = 0xD2511F53 * a, 0xCD9E8D57 * c
        a, b, c, d = (q >> 32) ^ b ^ k0, q & M32, (p >> 32) ^ d ^ k1, p & M32
        k0, k1 = (k0 + 0x9E3779B9) & M32, (k1 + 0xBB67AE85) & M32
    return a, b, c, d


def fnv1a32(text: str) -> int:
    """FNV-1a, 32 bits, of the bytes of a key path."""
    value = 0x811C9DC5
    for byte in text.encode():
        value = (value ^ byte) * 0x01000193 & M32
    return value


def uniform(word: int) -> float:
    """The middle of the word's cell of the unit interval."""
    return (word + 0.5) * 2.0**-32


def day_of_year(day: date) -> int:
    """0 on 1 January."""
    return day.timetuple().tm_yday - 1


class Luck:
    """Every draw of one history, by its address."""

    def __init__(self, key: int, history: int) -> None:
        self.key, self.history = key, history
        self._blocks: dict[tuple[int, int, int], tuple[int, int, int, int]] = {}

    def _word(self, word0: int, word1: int, family: int, which: int) -> int:
        place = (word0, word1, family)
        if place not in self._blocks:
            history_high = self.history >> 32 & 0xFFFF
            counter = (word0, word1, self.history & M32, history_high << 16 | family << 12)
            self._blocks[place] = philox(counter, self.key)
        return self._blocks[place][which]

    def _slot(self, year: int, day_of_year: int, purpose: str, who: tuple[int, int, int], which: int) -> int:
        boat, item, block = who
        word0 = (year & 255) << 24 | day_of_year << 15
        return self._word(word0, PURPOSE[purpose] << 24 | boat << 16 | item << 8 | block, LUCK, which)

    def daily(self, day: date, purpose: str, item: int = 0, boat: int = 0) -> float:
        """Uniform of a draw made every day: four days from 1 January on share a block."""
        place = day_of_year(day)
        return uniform(self._slot(day.year, place & ~3, purpose, (boat, item, 0), place & 3))

    def daily_normal(self, day: date, purpose: str, item: int = 0, boat: int = 0) -> float:
        return normal_quantile(self.daily(day, purpose, item, boat))

    def on(self, day: date, purpose: str, item: int = 0, boat: int = 0, block: int = 0) -> float:
        """Uniform of a draw that has the day's slot to itself (a week: its Monday; a month: its first)."""
        return uniform(self._slot(day.year, day_of_year(day), purpose, (boat, item, block), 0))

    def normal_on(self, day: date, purpose: str, item: int = 0, boat: int = 0) -> float:
        return normal_quantile(self.on(day, purpose, item, boat))

    def in_year(self, year: int, purpose: str, item: int = 0, boat: int = 0) -> float:
        return uniform(self._slot(year, WHOLE_YEAR, purpose, (boat, item, 0), 0))

    def normal_in_year(self, year: int, purpose: str, item: int = 0, boat: int = 0) -> float:
        return normal_quantile(self.in_year(year, purpose, item, boat))

    def of_guess(self, path: str) -> float:
        return normal_quantile(uniform(self._word(0, fnv1a32(path), GUESS, 0)))
