# SPDX-License-Identifier: MIT
"""The picture of a break-even shows what was found. Source: the found values themselves; common practice."""

from __future__ import annotations

from pathlib import Path

import pytest
import seasonrisk as sr

pytest.importorskip("matplotlib", reason="matplotlib is not installed")

from seasonrisk.plot_break_even import break_even, break_even_caption


@pytest.mark.parametrize("chance", [None, 0.9])
def test_it_shows_every_value_tried_the_target_and_the_plan(plan: sr.Plan, chance: float | None, tmp_path: Path) -> None:
    found = sr.break_even(plan, "catch", of="loan", chance=chance, histories=200, key=11)
    ax = break_even(found)
    curve, target, in_plan = ax.lines[:3]
    scale = 1.0 if chance is None else 100.0

    assert list(curve.get_xdata()) == [value for value, _ in found.tried]
    assert list(curve.get_ydata()) == [scale * e.value for _, e in found.tried]
    assert set(target.get_ydata()) == {0.0 if chance is None else 90.0}
    assert set(in_plan.get_xdata()) == {1.0}
    assert found.value is not None
    assert found.moved.number(found.value.value, found.value.standard_error) in [text.get_text() for text in ax.texts]
    ax.figure.savefig(tmp_path / "break_even.png")  # type: ignore[union-attr]
    assert (tmp_path / "break_even.png").stat().st_size > 10_000


def test_the_caption_says_it_in_words(plan: sr.Plan) -> None:
    found = sr.break_even(plan, "days", of="loan", histories=200, key=11)

    assert "Where the loan is covered on average" in break_even_caption(found)
    assert "fishing can end" in break_even_caption(found)
    assert break_even(found).get_xlabel() == "the last day of fishing"
