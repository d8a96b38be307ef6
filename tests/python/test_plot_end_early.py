# SPDX-License-Identifier: MIT
"""The picture that follows a slider shows every season of the day chosen. Source: the seasons themselves."""

from __future__ import annotations

import numpy as np
import pytest
import seasonrisk as sr
from matplotlib.figure import Figure
from seasonrisk import plot_end_early


@pytest.fixture(scope="module")
def ends(plan: sr.Plan) -> sr.EndEarly:
    return sr.end_early(plan, last_days=20, histories=2000, rng=7)


def test_the_steps_hold_every_season_and_the_mean_is_drawn(ends: sr.EndEarly) -> None:
    day = ends.days[0]
    ax = plot_end_early.one_last_day(ends, day.date, ax=Figure().add_subplot())
    (steps,) = ax.patches
    heights, edges, _ = steps.get_data()
    given_up = ends.runs[ends.planned]["household"] - ends.runs[day.date]["household"]
    assert heights.sum() == pytest.approx(100.0)
    assert edges[0] == np.quantile(given_up, 0.005)
    assert heights[edges[1:] <= 0.0].sum() <= 100.0 * np.mean(given_up <= 0.0) <= heights[edges[:-1] <= 0.0].sum()
    assert any(line.get_xdata()[0] == day.given_up.value for line in ax.get_lines())


def test_one_pair_of_axes_serves_every_day_of_a_slider(ends: sr.EndEarly) -> None:
    ax = Figure().add_subplot()
    for date in (ends.planned, ends.days[3].date):  # the planned day turns the axes off
        ax.clear()
        plot_end_early.one_last_day(ends, date, ax=ax)
    assert ax.axison
    assert len(ax.patches) == 1
    assert "farthest out" in plot_end_early.one_last_day_caption(ends, ends.days[3].date)
