# SPDX-License-Identifier: MIT
"""The lender's page, part by part: the same parts make the text on a terminal, the HTML page and the PDF.

Every sentence says what was simulated, never what is to come; each number in it is one of the figures of the note.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from seasonrisk import page, plot, summary
from seasonrisk.credit import note_tables, words_coverage, words_past, words_stresses, words_working_capital
from seasonrisk.credit.assets import asset_names, security
from seasonrisk.estimate import Estimate
from seasonrisk.table import Table
from seasonrisk.words import FEW, NOT_MODELLED, chance_text, counted, money_text, noun_of, plural, seasons_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.credit.lender_note import LenderNote

__all__ = ["Part", "answer", "headline", "parts_of"]

NOT_TOLD = "not told in the plan"
CASES_MEAN = (
    "Loans, household: covered, all years together. Missed: a loan payment. Times: repayment capacity after living and tax over payments, in the year in which "
    "its middle is lowest; cash low: the lowest month end. Each with its middle and its 1-in-10 low."
)


@dataclass(frozen=True)
class Part:
    """One part of the page.

    Attributes
    ----------
    title : str
    said : tuple of str
        Sentences, in order, above the tables.
    tables : tuple of Table
    small : tuple of str
        What the tables mean, in small print below them.
    drawings : tuple of (callable, str)
        Draws a picture, and the sentence that says what it shows; left out on a terminal.
    annex : bool
        Belongs behind the page, for who wants to check it.
    """

    title: str
    said: tuple[str, ...] = ()
    tables: tuple[Table, ...] = ()
    small: tuple[str, ...] = ()
    drawings: tuple[tuple[Callable[[], Axes], str], ...] = ()
    annex: bool = False


def headline(note: LenderNote) -> str:
    """Who, which years, how many simulated, in which money."""
    return page.headline(note.run)


def answer(note: LenderNote) -> str:
    """How often every payment is met, what a short year comes to, and what the owner has put by against it."""
    found, noun = note.coverage, noun_of(note.plan)
    if found.missed is None:
        paid = "No loan payment falls due in these years."
    else:
        paid = f"Every loan payment is met from the account and its overdraft in {_of_simulated(found.missed.complement(), noun)}."
    short = found.gives_first
    if short.shortage.n == 0 and short.chance.exact:
        return f"{paid} No year is short after tax and the household."
    together = "" if short.n_years == 1 else ", its short years together"
    by = f", by {money_text(short.shortage, note.plan.money)} on average{together}" if short.shortage.n else ""
    text = f"{paid} {'It' if short.n_years == 1 else 'Some year'} is short after tax and the household in {chance_text(short.chance)}{by}."
    reserve = note.told("reserve")
    if reserve:
        text += f" {reserve} {note.plan.money} is put by outside the account; the simulation does not count on it."
    return text


def sentence(text: str) -> str:
    """With the full stop that the owner's own words may have already."""
    return text if text.endswith((".", "!", "?")) else text + "."


def _of_simulated(chance: Estimate, noun: str) -> str:
    """``"95 of 100 simulated seasons"``."""
    if chance.exact:
        return f"{'every' if chance.value else 'no'} simulated {noun}"
    return chance_text(chance) if chance.n <= FEW else f"{chance_text(chance).replace(' in ', ' of ')} simulated {plural(noun)}"


def parts_of(note: LenderNote) -> list[Part]:
    """All parts of the page, in the order in which a lender reads; those of the annex last."""
    page_itself = [_asked(note), _steps(note), _coverage(note), _stresses(note), _cash(note), _gives_first(note), _past(note), _people(note), _how_sure(note)]
    return [*page_itself, _hard_cases_made(note), _by_year(note)]


def _asked(note: LenderNote) -> Part:
    ask, lender = note.told("ask"), note.told("lender")
    asked = f"{ask} {note.plan.money}" if ask else NOT_TOLD
    said = [sentence(f"Asked for: {asked}{f', of {lender}' if lender else ''}"), sentence(f"Purpose: {note.told('purpose') or NOT_TOLD}")]
    said += _free_of_loans(note)
    if not note.loans.loans:
        return Part("What is asked, what is owed, what is held against it", (*said, "The plan has no loan."))
    small = (
        "Security: what a survey says it is worth, worn on from there as the asset wears, or its cost so worn; forced: what the plan "
        "says a sale in a hurry brings of that; ratio: all that is owed on it over that. Of guesses the typical value. A dash: not told.",
    )
    return Part("What is asked, what is owed, what is held against it", tuple(said), (note_tables.loans_table(note.loans),), small)


def _free_of_loans(note: LenderNote) -> list[str]:
    """What is owned that no loan is secured on, and what it is worth, at most in one sentence."""
    pledged = {loan.secured_on for loan in note.loans.loans}
    worth = []
    for name in asset_names(note.plan):
        value, forced = security(note.plan, name, 1)
        if name not in pledged and value:
            worth.append(f"{name}, {value:,.0f}" + ("" if forced is None else f" (forced {forced:,.0f})"))
    end = f"Owned with no loan secured on it, worth at the end of {seasons_of(note.plan)[0]}, {note.plan.money}"
    return [f"{end}: {'; '.join(worth)}."] if worth else []


def _steps(note: LenderNote) -> Part:
    if len(seasons_of(note.plan)) == 1:
        return Part("What the season pays, step by step", (), (summary.rungs(note.run),), (page.GIVE_OR_TAKE,))
    said = ("Each run is years in a row: a good or a bad year carries over, and so does the account.",)
    return Part("What the seasons pay, step by step", said, (summary.years(note.run),))


def _coverage(note: LenderNote) -> Part:
    found = note.coverage
    small = (
        "Before and after the owner's living and tax: each the middling year, the 1-in-10 year, and the chance below 1.0 and below 1.25. "
        "Missed: the chance that a month with a payment ends below the overdraft limit.",
        words_coverage.BEFORE,
        words_coverage.AFTER,
    )
    return Part("Coverage of the loan payments", tuple(words_coverage.missed_sentences(found)), (note_tables.coverage_table(found),), small)


def _stresses(note: LenderNote) -> Part:
    said = (
        "The same hard cases for every plan, each under the same weather, catch, prices and breakdowns as the plan itself. The owner "
        "can add to them and cannot leave one out; the annex says how each is made.",
    )
    none = [f"{name}: does not apply, {why}." for name, why in note.stresses.do_not_apply]
    return Part("Hard cases", said, (note_tables.stresses_table(note.stresses),), (" ".join([CASES_MEAN, *none]),))


def _cash(note: LenderNote) -> Part:
    nouns = plural(noun_of(note.plan))
    caption = f"Cash at the end of each month: the middle one, 5 in 10 {nouns} (dark) and 8 in 10 (light)."
    said = tuple(words_working_capital.sentences(note.working_capital))
    return Part("Cash", said, (), (), ((lambda: _cash_picture(note), caption),))


def _cash_picture(note: LenderNote) -> Axes:
    """As small as it is printed, so that its letters can be read there; the caption says the rest of the label."""
    axes = plot.month_cash(note.run, ax=plot.new_axes(None, 4.8, 2.0))
    axes.set_ylabel(note.plan.money)
    return axes


def _gives_first(note: LenderNote) -> Part:
    found = note.coverage.gives_first
    said = [sentence(f"In a bad year, in the owner's words: {note.told('in_a_bad_year') or NOT_TOLD}")]
    if found.shortage.n == 0:
        said.append(" ".join(words_coverage.gives_first_lines(found)))
    return Part("What gives first, and who covers it", tuple(said), (found.table,) if found.shortage.n else ())


def _past(note: LenderNote) -> Part:
    title, found = "What past years came to, and what was shown", note.past
    before, shown_tables = _shown_before(note)
    if found is None:
        return Part(title, ("The plan tells of no past year, so nothing stands beside the model's figures.",), shown_tables, (before,))
    sales = {year.year: figure.actual for year in found.years for figure in year.figures if figure.name == "sales"}
    said = [" ".join(words_past.outside_sentences(found))]
    if len(sales) > 1:
        worst = min(sales, key=lambda year: sales[year])
        average = f"{sum(sales.values()) / len(sales):,.0f} {note.plan.money}"
        said.insert(0, f"Sales of the {len(sales)} years told: {average} on average, {sales[worst]:,.0f} in the worst, {worst}.")
    return Part(title, tuple(said), (note_tables.past_table(found), *shown_tables), (before,))


def _shown_before(note: LenderNote) -> tuple[str, tuple[Table, ...]]:
    """What an earlier run showed beside what happened; without one, that this is not known."""
    if note.shown is None:
        return "What was shown a year ago beside what happened: not told; no run saved before the season was given.", ()
    years = ", ".join(str(year.year) for year in note.shown.years)
    made = f"a run kept since, {note.shown.histories:,} simulated, key {note.shown.key}"
    said = " ".join(words_past.outside_sentences(note.shown))
    return f"What was shown for {years} ({made}) beside what happened: {said}", (words_past.table(note.shown),)


def _people(note: LenderNote) -> Part:
    asked = {
        "Records": "records",
        "The licence (whose, transferable, pledgeable)": "licence",
        "Who runs the boat if the skipper is hurt": "skipper_if_hurt",
        "Who checked these numbers": "checked_by",
    }
    said = tuple(sentence(f"{what}: {note.told(key) or NOT_TOLD}") for what, key in asked.items())
    return Part("What no simulation can say, in the owner's words", said)


def _how_sure(note: LenderNote) -> Part:
    n = counted(note.run.histories, f"simulated {noun_of(note.plan)}")
    said = (
        f"This is the model's view of numbers that the owner gave; nobody has audited either. Each figure rests on {n}, and is shown "
        "with no digit more than its error supports.",
        f"Not modelled: {'; '.join(NOT_MODELLED)}. Chances under and over a number: never seen, or always; so fewer than 3 of all simulated, or all "
        f"but fewer than 3. {page.provenance(note.run, folder=False)}",
    )
    return Part("How sure, and what is left out", said[:1], (), said[1:])


def _hard_cases_made(note: LenderNote) -> Part:
    return Part("How each hard case is made, and what it takes on average", tuple(words_stresses.sentences(note.stresses)), annex=True)


def _by_year(note: LenderNote) -> Part:
    tables = (note.coverage.margins_table, *((note.loans.table,) if note.loans.loans else ()))
    return Part("Margins, and the loans until they are paid off", (), tables, (words_coverage.MARGINS,), annex=True)
