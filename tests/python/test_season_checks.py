# SPDX-License-Identifier: MIT
"""Every outside check of a whole season that is in reach: plan text, reader, engine, summary.

Source of every expected number: the entry itself (derived by an exact method and checked by a second one).
Random figures: 4 standard errors at the entry's number of histories, so a right engine fails one figure in
about 16,000 when the key is changed; the key is fixed. Exact figures must be met by every single history.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from season_checks import LATER, Figure, checks_file, entries, figures, got

if checks_file() is None:
    pytest.skip(
        "the outside checks (shared/checks beside the repository) are not here", allow_module_level=True
    )

KEY = 20270601
LISTED_FOR_HISTORIES = 100_000  # the tolerances of the file hold for this many


@lru_cache(maxsize=6)
def run_of(entry: str, choice: str | None) -> Any:
    plan = sr.Plan.parse(entries()[entry]["plan"])
    plan = plan.choose(choice) if choice else plan
    return sr.simulate(plan, histories=entries()[entry]["histories"], key=KEY, keep=["all"])


@pytest.mark.parametrize("figure", [f for f in figures() if not f.later], ids=str)
def test_figure(figure: Figure) -> None:
    run, base = run_of(figure.entry, figure.choice), run_of(figure.entry, None)
    said = got(figure, run, base)
    if figure.tolerance is None:  # a text
        assert set(said) == {figure.value}
        return
    tolerance = figure.tolerance
    if figure.random:
        tolerance *= math.sqrt(LISTED_FOR_HISTORIES / entries()[figure.entry]["histories"])
    assert np.max(np.abs(np.asarray(said) - figure.value)) <= tolerance


def test_every_figure_is_covered_or_listed_for_later() -> None:
    waiting = [f for f in figures() if f.later]
    ours = [f for f in figures() if not f.later]

    # 20 entries, 170 exact and 181 random figures, says the page of the checks; none may drop out unseen.
    assert (len(entries()), len(figures()), sum(f.random for f in figures())) == (20, 351, 181)
    assert (len(ours), len(waiting), len({f.entry for f in ours})) == (351, 0, 20)
    for key in LATER:  # nothing stands on the list in vain
        assert any(key in (f.entry, (f.entry, f.choice), (f.entry, f.quantity)) for f in waiting), key
    print(f"\n{len(ours)} figures met now, {len(waiting)} for later:")
    for key, why in LATER.items():
        print("  ", key if isinstance(key, str) else " / ".join(key), "-", why)
