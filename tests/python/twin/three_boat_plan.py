# SPDX-License-Identifier: MIT
"""Three boats over five years that use every key of a plan. Boats, people and figures are invented."""

from __future__ import annotations

from pathlib import Path

THREE_BOATS = (Path(__file__).parents[2] / "data/plans/every_key.toml").read_text("utf-8")


def replaced(old: str, new: str) -> str:
    """THREE_BOATS with one place changed."""
    assert THREE_BOATS.count(old) == 1, old
    return THREE_BOATS.replace(old, new)


# The books close nine days after the season: gear is still out and stock is still held when a year ends.
BOOKS_CLOSE_EARLY = (
    replaced("books_start = 2027-02-01", "books_start = 2026-12-01")
    .replace("stop_on = 2027-11-07", "stop_on = 2027-11-20")
    .replace(
        "longest_days = { low = 4, typical = 6, high = 9 }", "longest_days = { low = 10, typical = 14, high = 25 }"
    )
    .replace("capacity = { low = 25, typical = 40, high = 60 }", "capacity = 160")
    .replace('open_days = ["Saturday", "Sunday", "Wednesday"]', 'open_days = ["Saturday"]')
)


def without(text: str, *lines: str) -> str:
    """A plan without the lines that begin so."""
    return "\n".join(line for line in text.split("\n") if not line.strip().startswith(lines))


# The same with one reading only of each day: no early stop, no storm on pots that are replaced at once, no day that
# is not worth it, no limit behind another one on the same species.
PLAIN_DAYS = without(
    (
        THREE_BOATS[: THREE_BOATS.index('[[limit]]\nspecies = "crab"\nper = "season"')]
        + THREE_BOATS[THREE_BOATS.index("[[shock]]") : THREE_BOATS.index("[[choice]]")]
    )
    .replace("count = { low = 300, typical = 340, high = 380 }", "count = 340")
    .replace("  storm_odds_per_season = 0.3\n", ""),
    *("stop_on", "stay_in_below", "spare =", "owner_days_per_month"),
)
