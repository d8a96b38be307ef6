# SPDX-License-Identifier: MIT
"""Plain words for what drives an outcome: names of guesses and of kinds of luck, shares, effects."""

from __future__ import annotations

import math
from collections.abc import Iterable

from seasonrisk.estimate import Estimate, rounded, rounded_up
from seasonrisk.plan import Plan

__all__ = ["LUCK", "TOO_SMALL", "guess_words", "share_text", "too_small"]

#: Kinds of luck, by the names the engine gives them and the events counted beside them.
LUCK = {
    "weather": "good and bad years of weather (high: worse)",
    "catch": "good and bad years of catch",
    "price": "good and bad years of price",
    "fuel": "years of cheap and dear fuel",
    "bait": "years of cheap and dear bait",
    "grades": "years of good and poor grades",
    "days_weather": "days lost to weather, beyond such a year",
    "breakdowns": "breakdowns: repairs and days",
}
TOO_SMALL = "too small to see"


def too_small(share: Estimate) -> bool:
    """Whether an estimate is within two standard errors of nothing."""
    return not share.exact and not abs(share.value) >= 2.0 * share.standard_error


def share_text(share: Estimate) -> str:
    """A share of the spread, in 100.

    Examples
    --------
    >>> share_text(Estimate(0.3812, 0.004, 0.373, 0.389, 10_000)), share_text(Estimate(0.001, 0.002, -0.003, 0.005, 10_000))
    ('38.0', 'too small to see')
    """
    return TOO_SMALL if too_small(share) else rounded(100.0 * share.value, 100.0 * share.standard_error)


def error_text(share: Estimate, times: float = 100.0) -> str:
    """Half the 95% interval, to one digit; nothing beside what cannot be seen or is not known."""
    if math.isnan(share.standard_error) or too_small(share):
        return ""
    return rounded_up(1.96 * share.standard_error * times)


def guess_words(plans: Iterable[Plan], paths: Iterable[str]) -> dict[str, str]:
    """Each key path by the names its owner gave: ``"lobster: per haul"`` for ``"species.0.per_haul"``."""
    words: dict[str, str] = {}
    for path in paths:
        plan = next(p for p in plans if path in p)
        words[path] = _called(plan, path)
    twice = {text for text in words.values() if list(words.values()).count(text) > 1}
    return {path: f"{text} ({path})" if text in twice else text for path, text in words.items()}


def _called(plan: Plan, path: str) -> str:
    steps = path.split(".")
    names: list[str] = []
    after = 0
    for n in range(1, len(steps)):
        for key in ("name", "kind", "who", "for"):
            at = ".".join([*steps[:n], key])
            if at in plan and at != path:
                names.append(str(plan[at]))
                after = n
                break
    names = list(dict.fromkeys(names)) or [steps[0]]
    rest = " ".join(step for step in steps[max(after, 1):] if not step.isdigit()).replace("_", " ")
    return f"{', '.join(names)}: {rest}"
