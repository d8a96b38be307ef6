# SPDX-License-Identifier: MIT
"""How much is left, drawn. The expected figures are counted with NumPy from the columns, apart from the pictures."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import seasonrisk as sr
from seasonrisk import plot_years
from small_plan import bare, text


@pytest.fixture(scope="module")
def five(demo_path: Path) -> sr.Run:
    return sr.simulate(sr.Plan.read(demo_path.parent / "three_boats_five_years.toml"), histories=400, key=3)


def test_the_line_falls_from_every_season_to_none_and_is_the_share_that_leaves_as_much(run: sr.Run) -> None:
    amounts, chances = plot_years.clearing(run).lines[0].get_data()
    left = run["household"]

    assert chances[0] == 100.0
    for n in (1, 5_000, 12_345, len(left) - 1):
        assert chances[n] == pytest.approx(100.0 * np.mean(left >= amounts[n]), abs=1e-9)


def test_the_marks_of_a_bad_middling_and_good_season_lie_on_the_line(run: sr.Run) -> None:
    marks = [line.get_xydata()[0] for line in plot_years.clearing(run).lines[1:4]]

    for (amount, chance), level in zip(marks, (0.1, 0.5, 0.9), strict=True):
        assert chance == pytest.approx(100.0 * (1.0 - level))
        assert np.mean(run["household"] >= amount) == pytest.approx(1.0 - level, abs=1.001 / run.histories)  # between two histories


def test_each_season_has_its_bar_and_its_chance(five: sr.Run) -> None:
    ax = plot_years.years(five)
    bars = [line.get_xdata() for line in ax.lines if len(line.get_xdata()) == 2 and line.get_linewidth() == 9.0]
    said = {label.get_text() for label in ax.texts}

    assert [label.get_text() for label in ax.get_yticklabels()] == ["2027", "2028", "2029", "2030", "2031"]
    for season, bar in zip(range(2027, 2032), bars, strict=True):
        left = five[f"household.{season}"]
        assert np.mean(left < bar[0]) == pytest.approx(0.1, abs=1.001 / 400)
        assert np.mean(left > bar[1]) == pytest.approx(0.1, abs=1.001 / 400)
        assert str(five.chance(f"household.{season}")) in said


def test_a_plan_of_one_season_has_one_bar(run: sr.Run) -> None:
    assert len(plot_years.years(run).get_yticklabels()) == 1


def test_a_plan_without_luck_has_a_picture_too() -> None:
    fixed = sr.simulate(sr.Plan.parse(text(bare())), histories=20, key=1)

    for ax in (plot_years.clearing(fixed), plot_years.years(fixed)):
        low, high = ax.get_xlim()
        assert low < fixed["household"][0] < high


def test_the_sentences_say_the_figures_of_the_run(run: sr.Run, five: sr.Run) -> None:
    caption = plot_years.clearing_caption(run)
    assert f"At least 0: {run.chance('household')}" in caption
    assert f"leaves {run.quantile('household', 0.1).amount_text} {run.money}" in caption
    for season in range(2027, 2032):
        middle, chance = five.quantile(f"household.{season}", 0.5).amount_text, five.chance(f"household.{season}")
        assert f"{season}: {middle}, covered in {chance}" in plot_years.years_caption(five)
