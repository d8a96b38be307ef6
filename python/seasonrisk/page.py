# SPDX-License-Identifier: MIT
"""The page a skipper reads: a run in lines of at most 100 letters, short for a prompt or whole for the terminal."""

from __future__ import annotations

import textwrap
from pathlib import Path
from typing import TYPE_CHECKING

from seasonrisk import summary
from seasonrisk.table import Table
from seasonrisk.values import number_as_typed
from seasonrisk.words import (
    CASH_HOLDS,
    CAUTIONS,
    RUNGS,
    TOTAL_LOSS,
    boats_of,
    chance_text,
    counted,
    day_text,
    has_total_loss,
    households_sentence,
    month_text,
    noun_of,
    plural,
    seasons_of,
    total_loss_odds,
)

if TYPE_CHECKING:
    from seasonrisk.run import Run

__all__ = ["GIVE_OR_TAKE", "cash_sentence", "headline", "page", "provenance", "section", "short_page", "total_loss_lines", "wrapped"]

WIDTH = 100

GIVE_OR_TAKE = (
    "\u00b1 (give or take): with more and more simulated seasons the figure would end up within it 19 times in 20. It tells how "
    "well the plan was simulated, not how good the plan is."
)

SHORT_BY = "Short by: mean of those that miss it. Cash: the room left, or lacking, at the lowest month end."


def wrapped(text: str, indent: str = "") -> list[str]:
    """``text`` in lines of the page's width."""
    return textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent)


def headline(run: Run) -> str:
    """Who, when, and how many seasons."""
    start, end = (day_text(run.plan[f"season.{end}"]) for end in ("start", "end"))  # type: ignore[arg-type]
    stopped = "" if run.complete else f" of the {run.facts.histories_asked:,} asked for, then it was stopped"
    years = len(seasons_of(run.plan))
    again = "" if years == 1 else f", and the same dates in the next {counted(years - 1, 'year')}"
    noun = f"simulated {noun_of(run.plan)}"
    return f"{run.plan.name}, {start} to {end}{again}: {counted(run.histories, noun)}{stopped}; money in {run.money}"


def provenance(run: Run, *, folder: bool = True) -> str:
    """What is needed to make the run again; without ``folder`` the plan's file alone, for who is handed the page."""
    facts = run.facts
    source = run.plan.source if folder else Path(run.plan.source).name
    changed = f" with {counted(len(run.plan.changes), 'change')}" if run.plan.changes else ""
    return (
        f"Plan {source}{changed}; key {facts.key}; {counted(run.histories, noun_of(run.plan))}; "
        f"seasonrisk {facts.version}, draws of version {facts.stream_version}."
    )


def cash_sentence(run: Run) -> str:
    """When cash is lowest, and how low."""
    month, chance = run.lowest_month()
    middling, bad = run.quantile("lowest_cash", 0.5), run.quantile("lowest_cash", 0.1)
    return (
        f"Cash is lowest most often at the end of {month_text(month)} ({chance_text(chance)}): the lowest month end is "
        f"{middling.amount_text} {run.money} in a middling {noun_of(run.plan)} and {bad.amount_text} in a bad one."
    )


def total_loss_lines(run: Run) -> list[str]:
    """How often the boat is lost, and where that stands; nothing when the plan gives it no odds."""
    if not has_total_loss(run.plan):
        return []
    told = []
    several = len(boats_of(run.plan)) > 1
    for name, odds in total_loss_odds(run.plan):
        typed = number_as_typed(odds) if isinstance(odds, float) else f"about {number_as_typed(odds.typical)}"  # type: ignore[union-attr]
        told.append(f"{name}: {typed}" if several else typed)
    seen = summary.total_loss(run)
    found = f"; seen in {chance_text(seen)} of these {plural(noun_of(run.plan))}" if seen is not None and seen.n > 3 else ""
    return [
        f"Total loss: the plan gives odds of {', '.join(told)} that {TOTAL_LOSS}{found}. It is in no other figure: such a season "
        "goes on as if she stayed afloat, so neither the boat's worth nor the insurer's payment for her is counted."
    ]


def has_cash(run: Run) -> bool:
    return "lowest_cash" in run and "lowest_cash_month" in run and len(run.months) >= 12


def short_page(run: Run) -> str:
    """About fifteen lines, for `repr`; only what was kept."""
    lines = wrapped(headline(run))
    if "household" in run:
        lines += wrapped(households_sentence(run), "  ")
    for name, words in {**RUNGS, "cash_room": CASH_HOLDS}.items():
        if name in run:
            left = "" if name == "cash_room" else f"   left, mean: {run.mean(name)}"
            lines.append(f"  {words:<42}{chance_text(run.chance(name), whole=False):>22}{left}")
    if "household" in run:
        lines += [
            f"  left after all in {words:<36}{run.quantile('household', level)}"
            for words, level in summary.SEASONS.items()
        ]
    if has_cash(run):
        lines += wrapped(cash_sentence(run), "  ")
    for line in total_loss_lines(run):
        lines += wrapped(line, "  ")
    return "\n".join(
        [*lines, f"  Key {run.key}; {len(run.columns)} columns kept (run.columns); more in run.summary()."]
    )


def section(table: Table) -> list[str]:
    """A table with its title, after an empty line."""
    return ["", table.title, *("  " + line for line in table.lines())]


def page(run: Run) -> str:
    """The whole page, for the terminal: about 50 lines."""
    lines = [*wrapped(headline(run)), "", *wrapped(households_sentence(run))]
    several_years = len(seasons_of(run.plan)) > 1
    cash = summary.years(run) if several_years else run.month_cash((0.1, 0.5, 0.9))
    lines += [*section(summary.rungs(run)), *wrapped(SHORT_BY, "  ")]
    for table in (summary.good_and_bad(run), cash):
        lines += section(table)
    lines += wrapped(cash_sentence(run), "  ")
    lines += section(summary.days(run))
    for table in (summary.selling(run), summary.family(run)):
        if table.rows:
            lines += section(table)
    for line in total_loss_lines(run):
        lines += ["", *wrapped(line)]
    lines += ["", *wrapped(GIVE_OR_TAKE), *wrapped(provenance(run)), "", *wrapped(" ".join(CAUTIONS))]
    return "\n".join(lines)
