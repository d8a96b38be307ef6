# SPDX-License-Identifier: MIT
"""The skipper's page: does the season cover its costs, how bad is a bad year, when is cash lowest."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from seasonrisk import page, plot, summary, words
from seasonrisk.report.assumptions import assumptions
from seasonrisk.report.drawing import drawn, require_report, shown

if TYPE_CHECKING:
    from seasonrisk.run import Run

__all__ = ["html_page"]

NEEDED = (
    "running", "standing", "loan", "household", "cash_room", "sales", "lowest_cash", "lowest_cash_month", "days_fished",
)  # fmt: skip


def html_page(run: Run, date: dt.date | None = None, *, paper: str = "A4") -> str:
    """The page as text: the same bytes for the same run and date.

    Parameters
    ----------
    run : Run
        With the usual columns kept; costs by kind are shown as far as they were kept.
    date : date, optional
        Day written on the page; today when left out.
    paper : {"A4", "letter"}
        What it is laid out for when printed.

    Raises
    ------
    ValueError
        When a column the page cannot do without was not kept.
    MissingExtra
        When Jinja2 or matplotlib is not installed.
    """
    require_report()
    missing = [name for name in NEEDED if name not in run]
    if missing or len(run.months) < 12:
        raise ValueError(
            f"keep: a report needs the usual columns; this run lacks {', '.join(missing) or 'months of cash'}"
        )
    return drawn(
        "season.html",
        run.plan,
        date,
        paper,
        headline=page.headline(run),
        sentence=words.households_sentence(run),
        rungs=summary.rungs(run),
        good_and_bad=summary.good_and_bad(run),
        cash=run.month_cash(),
        years=summary.years(run) if len(words.seasons_of(run.plan)) > 1 else None,
        days=summary.days(run),
        selling=summary.selling(run),
        family=summary.family(run),
        costs=summary.costs(run),
        pictures={
            "dots": shown(plot.dots(run), plot.dots_caption(run)),
            "month_cash": shown(plot.month_cash(run), plot.month_cash_caption(run)),
        },
        assumptions=assumptions(run.plan),
        total_loss=page.total_loss_lines(run),
        give_or_take=page.GIVE_OR_TAKE,
        provenance=page.provenance(run),
        not_modelled=words.NOT_MODELLED,
    )
