# SPDX-License-Identifier: MIT
"""The shipped plans: sound, described, and their pages as they were last looked at.

Source of the pages: this library's own output, read by eye when it changed (golden files). To write them anew after
a change that is meant, run ``python tests/python/test_example_plans.py`` and read the difference.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import seasonrisk as sr
from run_checks import A_PENNY, CAUSES, closing_cash_by_the_books, names_in, season_days
from seasonrisk.page import page

REPOSITORY = Path(__file__).resolve().parents[2]
PLANS = sorted((REPOSITORY / "examples" / "plans").glob("*.toml"))
GOLDEN = REPOSITORY / "tests" / "data" / "golden" / "pages"


def page_of(path: Path) -> str:
    plan = sr.Plan.parse(path.read_text("utf-8"), path.name)
    return page(sr.simulate(plan, histories=2_000, key=20270601)) + "\n"


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_the_page_of_a_shipped_plan_is_as_it_was_last_looked_at(path: Path) -> None:
    assert page_of(path) == (GOLDEN / f"{path.stem}.txt").read_text("utf-8")


def test_five_plans_are_shipped_each_with_a_page() -> None:
    assert len(PLANS) == 5
    assert {path.stem for path in PLANS} == {path.stem for path in GOLDEN.iterdir()}


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_a_shipped_plan_says_it_is_invented_and_is_described(path: Path) -> None:
    assert "INVENTED" in path.read_text("utf-8").upper().split("PLAN = 1")[0]
    assert len(sr.Plan.read(path).describe().splitlines()) >= 8


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_days_add_up_and_nothing_is_missing_or_without_end(path: Path) -> None:
    run = sr.simulate(sr.Plan.read(path), histories=2_000, key=3, keep=["all"])
    boats = len(names_in(run.plan, "boat"))

    np.testing.assert_array_equal(sum(run[f"days_{cause}"] for cause in CAUSES), season_days(run.plan) * boats)
    assert all(np.isfinite(run[name]).all() for name in run.columns)


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_money_is_conserved(path: Path) -> None:
    run = sr.simulate(sr.Plan.read(path), histories=500, key=4, keep=["all"])

    np.testing.assert_allclose(run["closing_cash"], closing_cash_by_the_books(run), rtol=0.0, atol=A_PENNY)


if __name__ == "__main__":
    GOLDEN.mkdir(exist_ok=True)
    for plan_path in PLANS:
        (GOLDEN / f"{plan_path.stem}.txt").write_text(page_of(plan_path), "utf-8")
