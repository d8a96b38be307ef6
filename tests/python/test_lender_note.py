# SPDX-License-Identifier: MIT
"""The page for a lender. Sources: figures are counted again with NumPy from the run's columns; the words to avoid are
those of lending practice (common practice); the ten questions are those a loan officer asks (common practice).
"""

from __future__ import annotations

import datetime as dt
import io
import re
from pathlib import Path

import numpy as np
import pypdf
import pytest
import seasonrisk as sr
from seasonrisk.credit import note_parts, note_tables
from seasonrisk.report import pdf_of
from seasonrisk.report.assumptions import with_sources
from seasonrisk.words import NOT_MODELLED, chance_text
from small_plan import bare, text
from test_report import Reader

DAY = dt.date(2027, 1, 15)
MONTHS = "Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec"
NEVER = r"\b(will|safe|safely|guarantee\w*|approved?|certain(ly)?|expected profit)\b"


@pytest.fixture(scope="module")
def note(plan: sr.Plan) -> sr.LenderNote:
    return sr.lender_note(plan, histories=4_000, key=7)


@pytest.fixture(scope="module")
def years(demo_path: Path) -> sr.LenderNote:
    return sr.lender_note(sr.Plan.read(demo_path.parent / "three_boats_five_years.toml"), histories=600, key=7)


def said(note: sr.LenderNote) -> list[str]:
    """Every sentence above and below the tables, and the answer."""
    return [note_parts.answer(note), *(s for part in note.parts for s in (*part.said, *part.small))]


# ---------------------------------------------------------------------------------------------------- figures


@pytest.mark.parametrize("which", ["note", "years"])
def test_a_missed_payment_is_a_month_with_a_payment_that_ends_below_the_limit(which: str, request: pytest.FixtureRequest) -> None:
    found: sr.LenderNote = request.getfixturevalue(which)
    run = found.run
    limit = found.plan.numbers["business.overdraft_limit"]
    due = sorted({month for loan in found.loans.loans for month in loan.payment_months if month < len(run.months)})
    ends = np.array([run[f"cash.{month}"] for month in run.months])
    missed = (ends[due] < -limit).any(axis=0)

    assert found.coverage.missed is not None
    assert found.coverage.missed.value == pytest.approx(missed.mean(), abs=1e-12)
    met = sr.Estimate(1.0 - missed.mean(), found.coverage.missed.standard_error, 0.0, 1.0, run.histories, kind="chance")
    assert f"Every loan payment is met from the account and its overdraft in {chance_text(met).replace(' in ', ' of ')} simulated" in note_parts.answer(found)


@pytest.mark.parametrize("which", ["note", "years"])
def test_the_shortage_is_that_of_the_years_below_nothing(which: str, request: pytest.FixtureRequest) -> None:
    found: sr.LenderNote = request.getfixturevalue(which)
    seasons = range(2027, 2027 + len(found.coverage.years))
    columns = ["household"] if len(seasons) == 1 else [f"household.{season}" for season in seasons]
    short = sum(np.maximum(0.0, -found.run[column]) for column in columns)
    first = found.coverage.gives_first

    assert first.chance.value == pytest.approx((short > 0.0).mean(), abs=1e-12)
    assert first.shortage.value == pytest.approx(short[short > 0.0].mean(), rel=1e-12)
    assert sum(coverer.mean.value for coverer in first.coverers) == pytest.approx(first.shortage.value, rel=1e-9)
    assert f"{chance_text(first.chance)}, by {first.shortage.amount_text} {found.plan.money}" in note_parts.answer(found)


def test_the_facility_is_enough_at_the_month_ends_of_nine_in_ten(note: sr.LenderNote) -> None:
    lowest = np.min([note.run[f"cash.{month}"] for month in note.run.months], axis=0)

    assert np.mean(-lowest <= note.working_capital.facility.value) == pytest.approx(0.9, abs=1.001 / note.run.histories)


def test_every_hard_case_is_under_the_luck_of_the_plan(note: sr.LenderNote, plan: sr.Plan) -> None:
    dearer = sr.simulate(plan.choose({"prices.fuel_per_l": {"low": 1.2, "typical": 1.425, "high": 1.875}}), histories=4_000, key=7)
    n = note.stresses.histories
    fuel = note.stresses["Fuel 50 in 100 dearer"]

    assert fuel.difference.value == pytest.approx((dearer["household"] - note.run["household"])[:n].mean(), rel=1e-9)
    assert n == 2_000
    assert note.stresses.as_it_is.chances["household"].value == (note.run["household"][:n] >= 0.0).mean()


def test_every_number_in_its_sentences_is_one_of_its_figures(note: sr.LenderNote, years: sr.LenderNote) -> None:
    """What is left when the figures of the note, whose values other tests count again, are taken out: no number."""
    for found in (note, years):
        cash, first = found.working_capital, found.coverage.gives_first
        amounts = [first.shortage, cash.lowest, cash.lowest_bad, cash.facility, *(s.difference for s in found.stresses)]
        chances = [found.coverage.missed, found.coverage.two_bad_years, found.coverage.two_short_years, first.chance, cash.beyond_limit]
        past = [figure for year in found.past.years for figure in year.figures] if found.past else []
        amounts += [mark for figure in past for mark in (figure.low, figure.median, figure.high)]
        chances += [cash.lowest_month.chance, *(figure.below for figure in past)]
        known = [e.amount_text.lstrip("-") for e in amounts] + [e.error_text for e in amounts]
        known += [told for c in chances if c is not None for told in (chance_text(c), chance_text(c).replace(" in ", " of "))]
        known.append(re.sub(r"^Every loan.*overdraft in (.*?) simulated.*", r"\1", note_parts.answer(found)))
        known += [f"{found.run.histories:,}", str(found.run.key), sr.__version__, f"{found.working_capital.limit:,.0f}"]
        sales = [figure.actual for figure in past if figure.name == "sales"]
        known += [f"{sum(sales) / len(sales):,.0f}", f"{len(sales)} years told", *(str(year.year) for year in found.past.years)] if found.past else []
        known += [f"{abs(figure.actual):,.0f}" for figure in past] + [f"All {sum(figure.spread for figure in past)} figures"]
        known += [f"{figure.median.value:,.0f}" for figure in past if not figure.spread]
        own_words = [found.told(key) for key in ("ask", "purpose", "reserve", "in_a_bad_year", "records", "licence", "skipper_if_hurt", "checked_by")]
        left = " ".join(s for part in found.parts if not part.annex for s in part.said) + " " + note_parts.answer(found)
        years_told = len(found.coverage.years)
        for fixed in (rf"\b({MONTHS}) 20\d\d", r"\b9 (in|of) 10\b", r"\b1-in-10\b", rf"\bthese {years_told} years", rf"\bof {years_told} seasons"):
            left = re.sub(fixed, "", left)
        for words in filter(None, own_words):
            left = left.replace(words.rstrip("."), "")
        for figure in sorted(known, key=len, reverse=True):
            left = re.sub(rf"(?<![\d,.]){re.escape(figure)}(?![\d])(?![,.]\d)", "", left)
        assert not re.search(r"\d", left), re.findall(r".{30}\d+.{20}", left)


# ------------------------------------------------------------------------------------------------------ words


@pytest.mark.parametrize("which", ["note", "years"])
def test_the_page_keeps_to_a_hundred_letters(which: str, request: pytest.FixtureRequest) -> None:
    found: sr.LenderNote = request.getfixturevalue(which)
    on_the_page = [line for part in found.parts if not part.annex for table in part.tables for line in table.lines()]

    assert max(map(len, on_the_page)) + 2 <= 100


def test_it_promises_nothing(note: sr.LenderNote, years: sr.LenderNote) -> None:
    """Only what the owner himself says may promise; the shipped plans' words are in the page, and keep to it too."""
    for found in (note, years):
        assert not re.search(NEVER, found.page().replace("guaranteed by", ""), re.IGNORECASE)
        assert re.search(NEVER, "The boat will pay.")  # the pattern can fail


def test_what_no_figure_shows_is_said_to_be_not_told() -> None:
    page = sr.lender_note(sr.Plan.parse(text(bare())), histories=20, key=1).page()

    for what in ("Asked for", "Purpose", "Records", "skipper is hurt", "Who checked"):
        assert re.search(rf"{what}[^:]*: not told in the plan\.", " ".join(page.split())), what


def test_a_plan_without_a_loan_says_so_and_shows_no_ratio() -> None:
    found = sr.lender_note(sr.Plan.parse(text(bare())), histories=20, key=1)

    assert "The plan has no loan." in found.page()
    assert "No loan payment falls due in these years." in found.page()
    assert not re.search(r"\b(inf|nan)\b", found.page(), re.IGNORECASE)


def test_a_short_year_that_was_not_seen_is_bounded_and_nobody_covers_it() -> None:
    """Rule of three (common practice): 0 seen of n bounds the chance by 3 in n; only without luck it is none at all."""
    lucky, known = (sr.lender_note(sr.Plan.parse(text(bare(species={"year_sd": sd}))), histories=400, key=1) for sd in (0.01, 0.0))

    assert "It is short after tax and the household in fewer than 3 in 400." in note_parts.answer(lucky)
    assert "Years that run short: fewer than 3 in 400; so nobody is seen to cover one." in " ".join(lucky.page().split())
    assert "No year is short after tax and the household." in note_parts.answer(known)


def test_what_is_owned_is_said_without_a_loan_too() -> None:
    """By hand: 20,000 over 10 years to 0, two years old when the first money year ends: 365.25 days to a year."""
    van = {"name": "the van", "cost": 20_000.0, "bought": dt.date(2026, 3, 1), "life_years": 10.0, "forced_sale_fraction": 0.5}
    plan = bare()
    plan["asset"] = [van]
    found = sr.lender_note(sr.Plan.parse(text(plan)), histories=20, key=1)
    value = 20_000.0 * (1.0 - (dt.date(2028, 3, 1) - dt.date(2026, 3, 1)).days / 365.25 / 10.0)

    assert f"Owned with no loan secured on it, worth at the end of 2027, GBP: the van, {value:,.0f} (forced {value / 2:,.0f})." in " ".join(found.page().split())


def test_a_rate_is_shown_as_typed_and_long_names_are_cut() -> None:
    """100 x 0.07 is 7.000000000000001 in floating point."""
    plan = bare()
    plan["loan"] = [{"name": "loan of the boat", "balance": 1_000.0, "rate_fraction": 0.07, "years_left": 2.0, "secured_on": "a very long name of a boat " * 2}]
    found = sr.loans(sr.Plan.parse(text(plan)))
    (row,) = note_tables.loans_table(found).rows

    assert row[2] == "7"
    assert "at 7 in 100 a year" in " ".join(str(found).split())
    assert len(row[0]) <= 50


def test_the_owners_own_case_is_not_taken_for_one_of_every_plan() -> None:
    plan = bare()
    plan["stress"] = [{"name": "Prices 20 in 100 lower", "set": {"household.draw_per_month": 1.0}}]
    found = sr.lender_note(sr.Plan.parse(text(plan)), histories=20, key=1)
    names = [row[0] for row in note_tables.stresses_table(found.stresses).rows]

    assert names.count("Prices 20 in 100 lower") == 1
    assert names[-1] == "own: Prices 20 in 100 lower"


def test_a_run_kept_from_before_the_season_stands_beside_what_happened(plan: sr.Plan) -> None:
    """The marks are those of the run that was kept, not of the new plan's own."""
    shown = sr.simulate(plan, histories=500, key=3, keep="all")
    a_year_on = sr.Plan.parse(plan.text.replace("2027-", "2028-") + "\n[[past_year]]\nyear = 2027\nsales = 1000\n")
    found = sr.lender_note(a_year_on, histories=20, key=1, shown=shown)
    page = " ".join(found.page().split())

    assert found.shown is not None
    assert found.shown.years[0].figures[0].low == shown.quantile("sales", 0.1)
    assert "What was shown for 2027 (a run kept since, 500 simulated, key 3) beside what happened: 2027, sales of the catch: 1,000 GBP is below" in page
    assert "no run saved before the season was given" not in page
    with pytest.raises(ValueError, match=r"write a \[\[past_year\]\] with year = 2027"):
        sr.lender_note(plan, histories=20, key=1, shown=shown)


TEN_QUESTIONS = {
    "your three-year average, and your worst": "What past years came to",
    "the coverage in a 1-in-10 year": "How many times a year's money covers its loan payments",
    "what gives first, and who covers it": "What gives first, and who covers it",
    "price falls 20%": "Prices 20 in 100 lower",
    "when does cash run lowest, and how low": "The account is lowest most often at the end of",
    "what the boat is worth on survey, and forced sale": "forced: what the plan says a sale in a hurry brings",
    "whose licence": "The licence (whose, transferable, pledgeable)",
    "who runs the boat if you are hurt": "Who runs the boat if the skipper is hurt",
    "whose view, and who checked it": "This is the model's view of numbers that the owner gave",
    "how last year's projection compared with what happened": "What was shown a year ago beside what happened: not told",
}


@pytest.mark.parametrize("question", TEN_QUESTIONS)
def test_a_loan_officers_question_has_its_place_on_the_page(question: str, years: sr.LenderNote) -> None:
    """Common practice: what loan officers ask of a small boat."""
    assert TEN_QUESTIONS[question] in " ".join(years.page().split())


def test_the_page_names_who_asks_how_sure_it_is_and_what_it_leaves_out(note: sr.LenderNote) -> None:
    page = " ".join(note.page().split())

    for what in (*sr.CAUTIONS, *NOT_MODELLED, str(note.run.key), "4,000 simulated seasons", sr.__version__):
        assert what in page, what


# ------------------------------------------------------------------------------------------------------- page


def test_the_page_is_well_formed_and_asks_for_nothing_from_outside(years: sr.LenderNote) -> None:
    html = years.html(DAY)

    assert Reader(html).open == []
    assert not re.search(r"https?:|//\w|url\(|@import|<script|<link|<iframe", re.sub(r'src="data:[^"]*"', "", html))
    assert all(len(image["alt"] or "") > 60 for image in Reader(html).images)


def test_on_a_phone_each_cell_has_its_head_above_it_and_no_number_is_broken(years: sr.LenderNote) -> None:
    """A phone is 360 pixels wide (common practice), some 26 figures of a cell's size; so no cell that may not break is longer."""
    html = years.html(DAY)
    cells = re.findall(r"<td([^>]*)>([^<]*)</td>", html)
    tables = [table for part in years.parts for table in part.tables]
    phone = html.partition("@media screen and (max-width: 40em) {")[2]

    assert len(cells) > sum(len(row) - 1 for table in tables for row in table.rows)
    assert all("data-head=" in attributes for attributes, _ in cells)
    for table in tables:
        for head, cell in zip(table.heads[1:], table.rows[0][1:], strict=True):
            assert f'<td data-head="{head}">{cell}</td>' in html
    assert "td::before { content: attr(data-head)" in phone
    assert "td:not(.words) { white-space: nowrap }" in phone
    assert max(len(cell) for attributes, cell in cells if "words" not in attributes) <= 26


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("which", ["one_boat", "three_boats_five_years"])
def test_before_the_annex_there_are_two_pages(which: str, paper: str, demo_path: Path) -> None:
    """Two pages are what a loan officer reads in five minutes (common practice)."""
    note = sr.lender_note(sr.Plan.read(demo_path.parent / f"{which}.toml"), histories=1_000, key=7)
    page_itself, annex, _ = note.html(DAY, paper=paper).partition('<h1 class="annex">')

    assert annex
    assert len(pypdf.PdfReader(io.BytesIO(pdf_of(page_itself + "</body></html>"))).pages) == 2


def test_each_number_says_where_it_came_from_and_a_default_that_it_is_one() -> None:
    """By hand: what stands in the file is the owner's; what does not is a default."""
    plan = bare(prices={"fuel_year_sd": 0.1}, sources={"prices.fuel_per_l": "published"})
    told = {row[0]: row[-1] for row in with_sources(sr.Plan.parse(text(plan)).replace({"household.draw_per_month": 50.0}))}

    assert told["prices.fuel_per_l"] == "published"
    assert told["prices.fuel_year_sd"] == "not told"
    assert told["outlet.0.price.crab"] == "not told"
    assert told["household.draw_per_month"] == "not told"
    assert told["boat.0.catching_power"] == "default"
    assert told["boat.0.fishery.0.elasticity"] == "default"


def test_the_page_does_not_tell_in_which_folder_the_plan_lies(note: sr.LenderNote) -> None:
    assert "/" in note.plan.source
    assert note.plan.source not in note.page()
    assert f"Plan {Path(note.plan.source).name};" in note.page()


def test_the_printed_page_says_what_the_terminal_says(years: sr.LenderNote) -> None:
    shown = " ".join(Reader(years.html(DAY)).text.split())

    for sentence in said(years):
        assert " ".join(sentence.split()) in shown
    for part in years.parts:
        for table in part.tables:
            for row in table.rows:
                assert all(cell in shown for cell in row), row


def test_the_same_note_and_day_give_the_same_bytes(note: sr.LenderNote, plan: sr.Plan) -> None:
    assert sr.lender_note(plan, histories=4_000, key=7).html(DAY) == note.html(DAY)


def test_markup_and_quotes_in_a_plan_are_shown_as_text() -> None:
    wild = "<script>alert('x')</script> & \"Sons\""
    typed = wild.replace('"', r"\"")
    plan = sr.Plan.parse(text(bare(business={"name": typed}, note={"purpose": typed, "in_a_bad_year": "</p><b>", "lender": typed})))
    html = sr.lender_note(plan, histories=20, key=1).html(DAY)

    assert "<script>" not in html
    assert "<b>" not in html
    assert wild in Reader(html).text


def test_it_is_written_as_what_its_name_ends_in(note: sr.LenderNote, tmp_path: Path) -> None:
    note.write(tmp_path / "note.html", date=DAY)
    note.write(tmp_path / "note.pdf", date=DAY, paper="letter")

    assert (tmp_path / "note.html").read_text("utf-8") == note.html(DAY)
    assert (tmp_path / "note.pdf").read_bytes().startswith(b"%PDF-1.7")
    with pytest.raises(FileExistsError):
        note.write(tmp_path / "note.html")
    with pytest.raises(ValueError, match=r"written as \.html or \.pdf"):
        note.write(tmp_path / "note.txt")
