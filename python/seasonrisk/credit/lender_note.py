# SPDX-License-Identifier: MIT
"""What a lender can be shown: one page, with every figure's error, its hard cases, and what it does not know."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path

from seasonrisk import progress as progress_
from seasonrisk.choice.same_luck import DEFAULT_HISTORIES
from seasonrisk.credit import note_parts
from seasonrisk.credit.coverage import Coverage, coverage
from seasonrisk.credit.loans import Loans, loans
from seasonrisk.credit.past import PastYears, past_columns, past_years, what_happened
from seasonrisk.credit.stresses import Stresses, stress_columns, stresses
from seasonrisk.credit.working_capital import WorkingCapital, working_capital, working_capital_columns
from seasonrisk.credit.years import year_columns
from seasonrisk.engine import Rng, key_from, require_plan, simulate
from seasonrisk.page import section, wrapped
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.values import number_as_typed
from seasonrisk.words import CAUTIONS, RUNGS

__all__ = ["LenderNote", "lender_columns", "lender_note"]

#: What the steps and the years of the page look at beside the figures of this package.
USUAL = (*RUNGS, "cash_room", "lowest_cash", "lowest_cash_month", "sales")


@dataclass(frozen=True)
class LenderNote:
    """The page for a lender; ``print`` it, or `write` it as HTML or PDF.

    Attributes
    ----------
    plan : Plan
    run : Run
        The plan as it is.
    loans : Loans
    coverage : Coverage
    working_capital : WorkingCapital
    stresses : Stresses
    past : PastYears or None
        None where the plan has no ``[[past_year]]``.
    shown : PastYears or None
        The year-end form, of a run kept from before the season; None where none was given.
    """

    plan: Plan
    run: Run
    loans: Loans
    coverage: Coverage
    working_capital: WorkingCapital
    stresses: Stresses
    past: PastYears | None
    shown: PastYears | None = None

    def told(self, key: str) -> str:
        """What the plan's ``[note]`` says under a key, as text; empty where it says nothing."""
        path = f"note.{key}"
        if path in self.plan.numbers:
            value = self.plan.numbers[path]
            return number_as_typed(value if isinstance(value, int | float) else value.typical)
        return str(self.plan[path]).strip() if path in self.plan else ""

    @property
    def parts(self) -> list[note_parts.Part]:
        """The page, part by part."""
        return note_parts.parts_of(self)

    def page(self) -> str:
        """The page as text."""
        lines = [*wrapped(note_parts.headline(self)), "", *wrapped(note_parts.answer(self))]
        for part in self.parts:
            lines += ["", part.title]
            for said in part.said:
                lines += wrapped(said, "  ")
            for table in part.tables:
                lines += section(table)
            for said in part.small:
                lines += wrapped(said, "  ")
        return "\n".join([*lines, "", *wrapped(" ".join(CAUTIONS))])

    def html(self, date: dt.date | None = None, *, paper: str = "A4") -> str:
        """The page as HTML, whole in one file: the same bytes for the same note and date.

        Parameters
        ----------
        date : date, optional
            Day written on the page; today when left out.
        paper : {"A4", "letter"}
            What it is laid out for when printed.

        Raises
        ------
        MissingExtra
            When Jinja2 or matplotlib is not installed.
        """
        from seasonrisk.report.lender_note import html_page

        return html_page(self, date, paper=paper)

    def write(self, path: str | Path, *, date: dt.date | None = None, paper: str = "A4", overwrite: bool = False) -> None:
        """Write the page as what the name ends in, ``.html`` or ``.pdf``.

        Raises
        ------
        FileExistsError
            When the file is there and ``overwrite`` is not given.
        ValueError
            When the name ends in neither.
        MissingExtra
            When a package that the page needs is not installed; HTML needs neither WeasyPrint nor Pango.
        """
        from seasonrisk.report import require_page, write_page

        require_page(path, overwrite=overwrite)
        write_page(path, self.html(date, paper=paper), overwrite=overwrite)

    def __repr__(self) -> str:
        return self.page()

    def _repr_html_(self) -> str:
        return "".join(table._repr_html_() for part in self.parts for table in part.tables)


def lender_columns(plan: Plan) -> list[str]:
    """Every column that the figures of this package look at."""
    return list(dict.fromkeys([*stress_columns(plan), *working_capital_columns(plan), *past_columns(plan)]))


def lender_note(
    plan: Plan,
    *,
    histories: int = DEFAULT_HISTORIES,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: progress_.Progress = None,
    shown: Run | None = None,
) -> LenderNote:
    """Everything a lender can be shown of a plan: loans, security, coverage, hard cases, cash, past years.

    Parameters
    ----------
    plan : Plan
        Its ``[note]``, ``[sources]``, ``[[past_year]]`` and ``[[stress]]`` are shown where it has them.
    histories, rng, key, threads
        As in `simulate`. Of each hard case half as many histories, 1,000 at least where there are so many: under the
        same luck fewer do.
    progress : None, bool or callable
        As in `simulate`; counts the histories of all of them.
    shown : Run, optional
        What was shown before a season that has its ``[[past_year]]`` in the plan by now, see `what_happened`: such as
        the run saved with last year's page.

    Returns
    -------
    LenderNote

    Raises
    ------
    ValueError, TypeError
        When the plan tells of no season of ``shown``; for an argument outside its range or of a kind that cannot be meant, named with what is allowed.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> note = sr.lender_note(sr.Plan.read("examples/plans/one_boat.toml"), histories=200, rng=7)
    >>> [part.title for part in note.parts][:2]
    ['What is asked, and what is owed', 'Security']
    """
    require_plan(plan)
    happened = None if shown is None else what_happened(shown, plan)
    drawn = key_from(rng, key)
    wanted = [*USUAL, *year_columns(plan, RUNGS), *lender_columns(plan)]
    run = simulate(plan, histories=histories, key=drawn, threads=threads, keep=list(dict.fromkeys(wanted)), progress=progress)
    hard = stresses(run, threads=threads, progress=progress)
    past = past_years(plan, run)
    return LenderNote(plan, run, loans(plan), coverage(run), working_capital(run), hard, past if past.years else None, happened)
