# SPDX-License-Identifier: MIT
"""What a lender reads: no word that claims more than the numbers bear, no line too long, nothing unknown shown as a number."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
import seasonrisk as sr
from conftest import ROOT

# Common practice in lending papers: a projection promises nothing and is nobody's approval.
CLAIMS = re.compile(r"\b(will|safe|safely|guarantee\w*|approved?|certain to)\b", re.IGNORECASE)
PLANS = sorted(ROOT.glob("examples/plans/*.toml"))
PAGES: dict[str, Callable[[sr.Plan, sr.Run], Any]] = {
    "loans": lambda plan, run: sr.loans(plan),
    "coverage": lambda plan, run: sr.coverage(run),
    "what gives first": lambda plan, run: sr.coverage(run).gives_first,
    "working capital": lambda plan, run: sr.working_capital(run),
    "stresses": lambda plan, run: sr.stresses(run, histories=300),
    "past years": lambda plan, run: sr.past_years(plan, run),
}


@pytest.fixture(scope="module", params=PLANS, ids=lambda path: path.stem)
def shown(request: pytest.FixtureRequest) -> dict[str, Any]:
    plan = sr.Plan.read(request.param)
    run = sr.simulate(plan, histories=600, key=7, keep=sr.lender_columns(plan))
    return {name: page(plan, run) for name, page in PAGES.items()}


@pytest.mark.parametrize("name", PAGES)
def test_a_page_claims_nothing_and_keeps_its_width(shown: dict[str, Any], name: str) -> None:
    page = repr(shown[name])

    assert CLAIMS.findall(page) == []
    assert [line for line in page.splitlines() if len(line) > 100] == []
    assert re.findall(r"\b(nan|inf|None|unknown)\b", page) == []


@pytest.mark.parametrize("name", PAGES)
def test_a_page_has_a_table_in_a_notebook(shown: dict[str, Any], name: str) -> None:
    assert "<table>" in shown[name]._repr_html_()


@pytest.mark.parametrize("line", ["it will pay", "a safe loan", "guaranteed", "approved by"])
def test_a_claim_would_be_seen(line: str) -> None:
    assert len(CLAIMS.findall(line)) == 1
