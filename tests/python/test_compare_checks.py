# SPDX-License-Identifier: MIT
"""Outside checks of whole seasons (`season.json`), answered by `compare`. Random figures: the entries' tolerances, four
standard errors at 100,000 histories, widened for fewer; exact figures must be met to the rounding of sums."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
import seasonrisk as sr
from season_checks import checks_file, entries, figures

if checks_file() is None:
    pytest.skip("the outside checks (shared/checks beside the repository) are not here", allow_module_level=True)

KEY = 20270601
HISTORIES = 40_000
WIDER = math.sqrt(100_000 / HISTORIES)
DIFFERENCES = [f for f in figures() if f.entry in ("deductible-menu", "more-pots") and f.arm == "difference"]


@cache
def comparison(entry: str) -> sr.Comparison:
    return sr.compare(sr.Plan.parse(entries()[entry]["plan"]), histories=HISTORIES, key=KEY)


@pytest.mark.parametrize("figure", DIFFERENCES, ids=str)
def test_a_difference_of_the_outside_checks(figure: object) -> None:
    f = figure
    choice = comparison(f.entry)[f.choice]  # type: ignore[attr-defined]
    tolerance = f.tolerance * (WIDER if f.random else 1.0)  # type: ignore[attr-defined]
    if f.quantity == "every rung, every history":  # type: ignore[attr-defined]
        assert all(not choice.differences[rung].any() for rung in ("running", "standing", "loan", "household"))
        assert all(change.mean.exact and change.mean.value == 0.0 for change in choice.rungs.values())
        return
    if f.quantity == "tags, mending and rope":  # type: ignore[attr-defined]
        steps = dict(choice.steps)
        both = steps["standing_costs"], steps["inputs"]
        assert all(step.exact for step in both)
        assert -sum(step.value for step in both) == pytest.approx(f.value, abs=tolerance)  # type: ignore[attr-defined]
        return
    standing = choice.rungs["standing"]
    if f.quantity == "chance it is a gain":  # type: ignore[attr-defined]
        said = standing.better.value
    elif f.measure == "mean":  # type: ignore[attr-defined]
        said = standing.mean.value
        assert standing.mean.low - 2.0 * standing.mean.standard_error <= f.value <= standing.mean.high + 2.0 * standing.mean.standard_error  # type: ignore[attr-defined]
    else:
        level = float(f.measure.split()[1])  # type: ignore[attr-defined]
        said = np.sort(choice.differences["standing"])[math.ceil(level * HISTORIES) - 1]
    assert said == pytest.approx(f.value, abs=tolerance + 1e-6)  # type: ignore[attr-defined]


def test_the_chances_with_more_and_with_fewer_pots() -> None:
    for name in ("More pots", "Fewer pots"):
        expected = next(f for f in figures() if f.entry == "more-pots" and f.arm == "choice" and f.choice == name)
        got = comparison("more-pots")[name].rungs["standing"].choice_chance.value
        assert got == pytest.approx(expected.value, abs=expected.tolerance * WIDER)


def test_the_added_pots_lose_money_and_never_pay_back() -> None:
    """The entry's own mean is -782.60 a season; it gives no cost of a pot, so nothing else could be said."""
    pots = comparison("more-pots")["More pots"].pots
    assert pots is not None
    assert pots.yearly_gain.high < 0.0
    assert (pots.cost, pots.payback_seasons) == (None, None)
    ((_, _, before, after, added),) = pots.catch
    assert added.value < after.value < before.value


def test_the_claims_a_year_at_which_two_deductibles_cost_the_same() -> None:
    """0.12 for 300 of premium and 2,500 of deductible (common practice; the entry's own figure, tolerance 1e-9)."""
    expected = next(f for f in figures() if f.quantity.startswith("break-even claims a year"))
    (policy,) = comparison("deductible-menu")["3,500 deductible"].policies

    assert policy.break_even_claims == pytest.approx(expected.value, abs=expected.tolerance)
    assert "as long as fewer than 0.12 claims a year, one in 8.3 years, are above it" in " ".join(comparison("deductible-menu").page().split())
    assert comparison("deductible-menu")["Lost for certain"].policies == ()


def test_two_boats_on_one_weather_each_by_herself() -> None:
    """two-boats-one-weather: all costs but the bills of 39,500 are the boats' own, so what they leave less the bills is
    the standing rung, mean 278.363636 (tolerance 47); the second boat's wages, mean 9204.54545 (13), are hers alone.

    Without the second boat the first leaves 640 - 160 a day out, 67.5 days (the entry's working), so the business gains
    278.363636 + 39500 - 67.5 x 480 = 7378.36 by her; the tolerance is that of the standing rung."""
    entry = entries()["two-boats-one-weather"]
    both = sr.Plan.parse(entry["plan"])
    text = entry["plan"]
    start, end = text.index('[[boat]]\nname = "Duckling"'), text.index('[[standing]]\nname = "bills of both boats"')
    one = sr.Plan.parse(text[:start] + text[end:])

    choice = sr.compare(one, both, histories=HISTORIES, key=KEY).choices[0]

    leaves = {boat.name: boat.contribution.value for boat in choice.boats}
    assert sum(leaves.values()) - 39_500.0 == pytest.approx(278.363636, abs=47.0 * WIDER)
    assert choice.mean.value == pytest.approx(7378.363636, abs=47.0 * WIDER)
    assert choice.new_boat is not None
    own, rest = (step.value for _, step in choice.new_boat.steps[:2])
    assert own == pytest.approx(leaves["Duckling"])
    assert own + rest == pytest.approx(choice.rungs["standing"].mean.value)
    assert rest < 0.0  # she takes from the shared ground, and the lorry's limit is shared
