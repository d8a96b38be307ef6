# SPDX-License-Identifier: MIT
"""Total loss of the boat, on a line of its own. Source: the README, which says that it is counted on a line of its
own and that every other figure goes on as if she stayed afloat."""

from __future__ import annotations

import datetime as dt
import html

import pytest
import seasonrisk as sr
from seasonrisk.page import page, short_page, total_loss_lines
from seasonrisk.report import html_page
from seasonrisk.summary import total_loss
from small_plan import bare, text

DAY = dt.date(2027, 1, 15)
POLICY = {"hull_value": 50000, "premium": 900, "pay_month": "may", "deductible": 250}


def run_with(odds: object, *, histories: int = 4000, keep: str | None = "all") -> sr.Run:
    weather = {"unfishable_fraction": 0.3}
    policy = {**POLICY, "total_loss_odds_per_year": odds}
    plan = sr.Plan.parse(text(bare(boat={"insurance": policy}, weather=weather)))
    return sr.simulate(plan, histories=histories, key=5, keep=keep)


@pytest.fixture(scope="module")
def risky() -> sr.Run:
    return run_with(0.1)


@pytest.fixture(scope="module")
def safe() -> sr.Run:
    return run_with(0.0)


def flat(said: str) -> str:
    return " ".join(html.unescape(said).split())


def test_page_and_report_say_it_and_what_it_means(risky: sr.Run) -> None:
    """0.1 of 4,000 seasons: 10 in 100, three standard errors are 1.4 points (binomial)."""
    (line,) = total_loss_lines(risky)

    assert "odds of 0.1 that the boat is lost in the year; seen in " in line
    assert 8 <= int(line.split("seen in ")[1].split(" in 100")[0]) <= 12
    assert "It is in no other figure" in line
    for said in (page(risky), short_page(risky), html_page(risky, DAY)):
        assert line in flat(said)


def test_the_summary_has_a_row_of_it_with_its_error(risky: sr.Run) -> None:
    (row,) = (row for row in risky.summary().values if "lost in the year" in row[0])

    assert row[1] == risky["total_loss"].mean()
    assert row[2] == pytest.approx(1.96 * (0.1 * 0.9 / 4000) ** 0.5, rel=0.15)


def test_a_plan_without_it_says_nothing(safe: sr.Run) -> None:
    for said in (page(safe), short_page(safe), html_page(safe, DAY), str(safe.summary())):
        assert "otal loss" not in said
        assert "lost in the year" not in said


def test_it_changes_no_other_number(risky: sr.Run, safe: sr.Run) -> None:
    """Not counted twice: without its own row the summaries are the same, digit for digit."""
    rows = [row for row in risky.summary().rows if "lost in the year" not in row[0]]

    assert rows == safe.summary().rows


def test_a_run_that_did_not_keep_it_says_what_the_plan_says() -> None:
    (line,) = total_loss_lines(run_with(0.1, histories=50, keep=None))

    assert "odds of 0.1" in line
    assert "seen in" not in line


def test_a_guess_of_the_odds_is_told_as_one() -> None:
    (line,) = total_loss_lines(run_with({"low": 0.001, "typical": 0.0025, "high": 0.01}, histories=50))

    assert "odds of about 0.0025 that" in line


def test_none_seen_in_a_few_seasons_is_not_called_certain() -> None:
    """Rule of three (published, Hanley and Lippman-Hand 1983): none in 50 leaves up to about 3 in 50."""
    run = run_with(1e-9, histories=50)
    found = total_loss(run)

    assert found is not None
    assert (found.value, found.exact) == (0.0, False)
    assert "seen in fewer than 3 in 50 of these seasons" in total_loss_lines(run)[0]
