# SPDX-License-Identifier: MIT
"""Pictures of a comparison show what it says. Source: the comparison's own numbers, and common practice for functions
that draw (axes in, axes out)."""

from __future__ import annotations

import sys

import numpy as np
import pytest
import seasonrisk as sr
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from seasonrisk import plot_compare


@pytest.fixture(scope="module")
def comparison(plan: sr.Plan) -> sr.Comparison:
    choices = [("fewer pots", {"boat.0.fishery.0.count": 300}), ("cheaper fuel", {"prices.fuel_per_l": 0.5})]
    return sr.compare(plan, choices, histories=2_000, key=7, indifference=200.0)


def test_the_bars_hold_every_season_and_none_of_both_sides(comparison: sr.Comparison) -> None:
    ax = Figure().add_subplot()
    choice = comparison["fewer pots"]
    assert plot_compare.paired_difference(choice, ax=ax) is ax

    bars = [(bar.get_x(), bar.get_width(), bar.get_height()) for bar in ax.patches]
    assert sum(height for _, _, height in bars) == pytest.approx(100.0)
    assert not any(x < -1e-9 and x + width > 1e-9 for x, width, _ in bars)
    right = sum(height for x, width, height in bars if x + width / 2.0 > 0.0)
    assert right == pytest.approx(100.0 * np.mean(choice.differences["household"] > 0.0), abs=0.2)
    assert any(line.get_xdata()[0] == choice.mean.value for line in ax.get_lines())


def test_a_choice_that_changes_nothing_has_a_picture_too(plan: sr.Plan) -> None:
    null = sr.compare(plan, {"boat.0.fishery.0.count": plan["boat.0.fishery.0.count"]}, histories=50, key=7)

    ax = plot_compare.paired_difference(null.choices[0])

    assert isinstance(ax, Axes)
    assert sum(bar.get_height() for bar in ax.patches) == pytest.approx(100.0)
    assert isinstance(plot_compare.menu(null), Axes)


def test_the_menu_has_a_point_for_each_choice_best_on_top(comparison: sr.Comparison) -> None:
    ax = plot_compare.menu(comparison)

    assert [label.get_text() for label in ax.get_yticklabels()] == [c.name for c in comparison.ranked()[::-1]]
    (points, _, _) = ax.containers[0]
    np.testing.assert_allclose(points.get_xdata(), [c.mean.value for c in comparison.ranked()[::-1]])


def test_captions_say_what_is_seen(comparison: sr.Comparison) -> None:
    assert "season by season under the same luck. Better in" in plot_compare.paired_difference_caption(comparison["cheaper fuel"])
    assert "cheaper fuel:" in plot_compare.menu_caption(comparison)


def test_a_picture_without_matplotlib_tells_what_to_install(comparison: sr.Comparison, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "matplotlib.figure", None)

    with pytest.raises(sr.MissingExtra, match=r'pip install "seasonrisk\[plot\]"'):
        plot_compare.menu(comparison)
