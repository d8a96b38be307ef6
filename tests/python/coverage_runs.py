# SPDX-License-Identifier: MIT
"""How often intervals cover the truth: every estimate of a result, over many runs of it with other luck.

The truth is the same question asked of many more histories with another key; its own error is a twentieth of a run's in
the long form. ``--hypothesis-profile=long`` asks for the long form, as of the generated plans: 400 runs, of which 368 to
392 must cover (a true coverage of 0.95 falls outside in 4.4 of 1,000). The short form, 24 runs, only sees an interval that
is plainly wrong: 18 or more of 24 must cover, which a true 0.95 misses once in 10,000.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

import numpy as np
import seasonrisk as sr
from hypothesis import settings

LONG, SHORT = 400, 24
FIRST_KEY, TRUTH_KEY = 10_000, 7


def runs_asked() -> int:
    """Runs of the form that was asked for."""
    return LONG if settings.get_current_profile_name() == "long" else SHORT


def estimates_in(thing: object, path: str = "") -> Iterator[tuple[str, sr.Estimate]]:
    """Every estimate in a result, with where it stands."""
    if isinstance(thing, sr.Estimate):
        yield path.lstrip("."), thing
    elif isinstance(thing, Mapping):
        for key, value in thing.items():
            yield from estimates_in(value, f"{path}.{key}")
    elif isinstance(thing, tuple) and len(thing) == 2 and isinstance(thing[0], str):
        yield from estimates_in(thing[1], f"{path}.{thing[0]}")
    elif isinstance(thing, Sequence) and not isinstance(thing, str):
        for n, value in enumerate(thing):
            yield from estimates_in(value, f"{path}.{n}")
    elif dataclasses.is_dataclass(thing) and not isinstance(thing, sr.Run | type):
        for field in dataclasses.fields(thing):
            yield from estimates_in(getattr(thing, field.name), f"{path}.{field.name}")


def told(estimate: sr.Estimate) -> bool:
    """Whether an interval is told: not of what is exact, and not where an end is unknown."""
    return not estimate.exact and not math.isnan(estimate.low) and not math.isnan(estimate.high)


def covered(ask: Callable[[int, int], Any], histories: int, runs: int, truth_histories: int = 0) -> dict[str, tuple[int, int]]:
    """For each interval of what ``ask(key, histories)`` gives: runs in which it is told, and in which it covers."""
    truth = dict(estimates_in(ask(TRUTH_KEY, truth_histories or LONG * histories)))
    counts = {name: np.zeros(2, dtype=int) for name, value in truth.items() if told(value)}
    for run in range(runs):
        for name, estimate in estimates_in(ask(FIRST_KEY + run, histories)):
            if name in counts and told(estimate):
                slack = 1e-9 * max(1.0, abs(truth[name].value))  # a sum of columns may differ in its last digits
                counts[name] += (1, estimate.low - slack <= truth[name].value <= estimate.high + slack)
    return {name: (int(n), int(hits)) for name, (n, hits) in counts.items()}
