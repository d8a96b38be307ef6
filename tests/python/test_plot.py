# SPDX-License-Identifier: MIT
"""Pictures: what is drawn is what the run says. Source: common practice for functions that draw (axes in, axes out)."""

from __future__ import annotations

import subprocess
import sys
import textwrap
from pathlib import Path

import matplotlib as mpl
import numpy as np
import pytest
import seasonrisk as sr
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from seasonrisk import plot


@pytest.mark.parametrize("draw", [plot.month_cash, plot.dots])
def test_a_picture_uses_the_axes_it_is_given_and_changes_nothing_else(draw: object, run: sr.Run) -> None:
    ax, settings = Figure().add_subplot(), dict(mpl.rcParams)

    assert draw(run, ax=ax) is ax  # type: ignore[operator]
    assert dict(mpl.rcParams) == settings
    assert isinstance(draw(run), Axes)  # type: ignore[operator]


def test_no_picture_starts_pyplot_and_its_global_state(demo_path: Path) -> None:
    program = """
        import sys, seasonrisk as sr
        from seasonrisk import plot
        run = sr.simulate(sr.Plan.read(sys.argv[1]), histories=50, key=1)
        plot.dots(run), plot.month_cash(run)
        print("matplotlib.figure" in sys.modules, "matplotlib.pyplot" in sys.modules)
    """
    said = subprocess.run(
        [sys.executable, "-c", textwrap.dedent(program), demo_path], check=True, capture_output=True, text=True
    )

    assert said.stdout.split() == ["True", "False"]


def test_the_middle_line_and_the_overdraft_are_those_of_the_run(run: sr.Run) -> None:
    lines = plot.month_cash(run).get_lines()

    middle = [np.sort(run[f"cash.{month}"])[run.histories // 2 - 1] for month in run.months]
    np.testing.assert_array_equal(lines[0].get_ydata(), middle)
    assert list(lines[1].get_ydata()) == [-5000.0, -5000.0]  # the demo's overdraft limit


@pytest.mark.parametrize(("years", "labels"), [(1, 12), (2, 4), (5, 5), (10, 5), (30, 6)])
def test_the_months_have_no_more_labels_than_can_be_read(years: int, labels: int, plan: sr.Plan) -> None:
    """Twelve short ones of one year, else six with their years at most: what the picture's width holds (measured)."""
    run = sr.simulate(plan.replace({"business.years": years}), histories=4, key=1)

    assert len(plot.month_cash(run).get_xticks()) == labels


def test_there_are_twenty_dots_and_as_many_filled_as_the_chance_says(run: sr.Run) -> None:
    hollow, filled = plot.dots(run).collections

    assert len(hollow.get_offsets()) + len(filled.get_offsets()) == 20
    assert len(filled.get_offsets()) == round(20 * np.mean(run["household"] >= 0.0))


def test_a_rare_miss_keeps_its_dot(run: sr.Run) -> None:
    assert 0.975 < run.chance("running").value < 1.0  # rounding alone would fill all 20
    assert plot.n_filled(run, "running") == 19


def test_filled_and_hollow_dots_differ_in_grey(run: sr.Run) -> None:
    """Brightness by ITU-R BT.601 weights; half the scale apart is plain on any printer (from memory)."""
    hollow, filled = (np.asarray(c.get_facecolor())[0, :3] @ [0.299, 0.587, 0.114] for c in plot.dots(run).collections)

    assert hollow - filled > 0.5


@pytest.mark.parametrize(
    ("caption", "says"),
    [
        (plot.month_cash_caption, "Cash is lowest most often at the end of"),
        (plot.dots_caption, "are hollow: it is short"),
    ],
)
def test_each_picture_has_a_sentence(caption: object, says: str, run: sr.Run) -> None:
    assert says in caption(run)  # type: ignore[operator]


def test_a_picture_without_matplotlib_tells_what_to_install(run: sr.Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "matplotlib.figure", None)

    with pytest.raises(sr.MissingExtra, match=r'pip install "seasonrisk\[plot\]"'):
        plot.dots(run)
