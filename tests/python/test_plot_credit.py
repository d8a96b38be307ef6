# SPDX-License-Identifier: MIT
"""Coverage and hard cases, drawn. The expected places are the figures of the note, which other tests count again."""

from __future__ import annotations

from pathlib import Path

import pytest
import seasonrisk as sr
from seasonrisk import plot_credit
from small_plan import bare, text


@pytest.fixture(scope="module")
def note(demo_path: Path) -> sr.LenderNote:
    return sr.lender_note(sr.Plan.read(demo_path.parent / "three_boats_five_years.toml"), histories=200, key=7)


def test_each_year_has_both_forms_from_the_middle_to_the_bad_year(note: sr.LenderNote) -> None:
    ax = plot_credit.coverage(note.coverage)
    bars = [list(line.get_ydata()) for line in ax.lines if line.get_linewidth() == 4.0]
    floors = [line.get_ydata()[0] for line in ax.lines if line.get_linewidth() == 0.8]

    wanted = [[year.before_household.bad.value, year.before_household.median.value] for year in note.coverage.years if year.before_household]
    wanted += [[year.after_household.bad.value, year.after_household.median.value] for year in note.coverage.years if year.after_household]
    assert bars == wanted
    assert floors == [1.0, 1.25]
    assert [label.get_text() for label in ax.get_xticklabels()] == ["2027", "2028", "2029", "2030", "2031"]


def test_each_hard_case_has_its_row_the_plan_on_top(note: sr.LenderNote) -> None:
    ax = plot_credit.hard_cases(note.stresses)
    names = [label.get_text() for label in ax.get_yticklabels()]
    dots = [line.get_xdata()[0] for line in ax.lines if line.get_marker() == "o"]

    assert names == ["as it is", *(f"own: {case.name}" if case.own else case.name for case in note.stresses)]
    assert dots == [case.lowest.value for case in (note.stresses.as_it_is, *note.stresses)]
    low, high = ax.get_ylim()
    assert low > high  # the first row stands on top


def test_a_plan_without_payments_has_no_picture_of_coverage_and_says_why() -> None:
    fixed = sr.lender_note(sr.Plan.parse(text(bare())), histories=20, key=1)

    with pytest.raises(ValueError, match="no loan payment falls due"):
        plot_credit.coverage(fixed.coverage)
    assert plot_credit.coverage_caption(fixed.coverage).startswith("No loan payment falls due")


def test_the_sentences_say_the_lowest(note: sr.LenderNote) -> None:
    worst = min((year for year in note.coverage.years if year.after_household), key=lambda year: year.after_household.median.value)  # type: ignore[union-attr]
    lowest = min(note.stresses, key=lambda case: case.lowest_bad.value)

    assert worst.after_household is not None
    assert f"is {worst.season}: {worst.after_household.median.amount_text} in the" in plot_credit.coverage_caption(note.coverage)
    assert f"it is {lowest.lowest_bad.amount_text}" in plot_credit.hard_cases_caption(note.stresses)
