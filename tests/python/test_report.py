# SPDX-License-Identifier: MIT
"""The HTML page: whole, by itself, honest. Source: the written list of what the page shows (DEVELOPERS.md)."""

from __future__ import annotations

import datetime as dt
import re
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest
import seasonrisk as sr
from seasonrisk.report import assumptions, html_page
from seasonrisk.summary import costs
from seasonrisk.words import NOT_MODELLED
from small_plan import bare, text

DAY = dt.date(2027, 1, 15)


class Reader(HTMLParser):
    """Tags that were opened, images, and all text."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.images: list[dict[str, str | None]] = []
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        if tag == "img":
            self.images.append(dict(attributes))
        if tag not in ("img", "meta"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data


@pytest.fixture(scope="module")
def page(run: sr.Run) -> str:
    return html_page(run, DAY)


def test_the_page_is_well_formed_and_asks_for_nothing_from_outside(page: str) -> None:
    assert Reader(page).open == []
    assert not re.search(r"https?:|//\w|url\(|@import|<script|<link|<iframe", re.sub(r'src="data:[^"]*"', "", page))


def test_both_pictures_are_inside_and_have_words_for_those_who_cannot_see_them(page: str) -> None:
    images = Reader(page).images

    assert len(images) == 2
    assert all((image["src"] or "").startswith("data:image/svg+xml;base64,") for image in images)
    assert all(len(image["alt"] or "") > 60 for image in images)


def test_the_question_comes_first_and_nothing_is_left_out(page: str, run: sr.Run) -> None:
    said = Reader(page).text

    assert re.search(r"<body>\s*<h1>Does the season cover its costs\?", page)
    for what in (
        *sr.CAUTIONS,
        *NOT_MODELLED,
        str(run.key),
        "20,000",
        f"draws of version {run.facts.stream_version}",
        sr.__version__,
        "15 January 2027",
    ):
        assert what in said, what


def test_every_number_of_the_plan_stands_in_the_assumptions(page: str, plan: sr.Plan) -> None:
    rows = re.findall(
        r'<tr><th scope="row">([\w.]+)</th><td data-head="low">([^<]*)</td><td data-head="typical">([^<]*)</td><td data-head="high">([^<]*)</td>',
        page,
    )
    shown = {path: (low, typical, high) for path, low, typical, high in rows}

    assert set(shown) >= set(plan.numbers)
    assert shown["prices.fuel_per_l"] == ("0.8", "0.95", "1.25")
    assert shown["boat.0.fishery.0.count"] == ("", "420", "")


def test_the_assumptions_show_every_digit_that_was_typed() -> None:
    """The expected digits are those of the plan."""
    plan = sr.Plan.parse(
        text(bare(business={"opening_cash": 12345.67}, household={"tax_fraction": 0.0375123, "tax_months": ["jan"]}))
    )
    shown = {row[0]: row[1:4] for row in assumptions(plan)}

    assert shown["business.opening_cash"] == ("", "12,345.67", "")
    assert shown["household.tax_fraction"] == ("", "0.0375123", "")


@pytest.mark.parametrize("keep", ["all", None])
def test_the_costs_of_the_page_add_up_whatever_was_kept(plan: sr.Plan, keep: str | None) -> None:
    """sales - ... = left, in the means of one run (definition of the rungs)."""
    shown = costs(sr.simulate(plan, histories=500, key=1, keep=keep)).values

    total = 0.0
    for words, value, _ in shown:
        if words.startswith("= left"):
            assert value == pytest.approx(total, abs=1e-6), words
        else:
            total += value
    assert any("not kept" in words for words, _, _ in shown) == (keep is None)


def test_the_same_run_and_day_give_the_same_bytes(page: str, run: sr.Run) -> None:
    assert html_page(run, DAY) == page


def test_names_are_escaped() -> None:
    run = sr.simulate(sr.Plan.parse(text(bare(business={"name": "<b>&"}))), histories=50, key=1)

    assert "<b>" not in html_page(run, DAY)
    assert "&lt;b&gt;&amp;" in html_page(run, DAY)


def test_it_is_laid_out_for_the_paper_that_is_asked_for(page: str, run: sr.Run) -> None:
    assert "size: A4;" in page
    assert "size: letter;" in html_page(run, DAY, paper="letter")
    with pytest.raises(ValueError, match="paper: 'foolscap' is none of A4, letter"):
        html_page(run, DAY, paper="foolscap")


def test_a_report_is_not_written_over_a_file_or_into_a_closed_folder(
    run: sr.Run, tmp_path: Path, closed_folder: Path
) -> None:
    there = tmp_path / "note.html"
    there.write_text("my own")

    with pytest.raises(FileExistsError, match="is there already"):
        run.report(there)
    assert there.read_text() == "my own"
    with pytest.raises(PermissionError, match="cannot be written to"):
        run.report(closed_folder / "note.html")
    run.report(there, overwrite=True)
    assert there.read_text("utf-8").startswith("<!DOCTYPE html>")


def test_a_run_without_the_usual_columns_is_told_what_it_lacks(plan: sr.Plan) -> None:
    with pytest.raises(ValueError, match="lacks running, standing"):
        html_page(sr.simulate(plan, histories=10, key=1, keep=["household"]))


def test_a_report_without_its_packages_tells_what_to_install(run: sr.Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "jinja2", None)

    with pytest.raises(sr.MissingExtra, match=r'pip install "seasonrisk\[report\]"'):
        html_page(run)
