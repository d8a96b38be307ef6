# SPDX-License-Identifier: MIT
"""The page a skipper reads: a run in lines of at most 100 letters, short for a prompt or whole for the terminal."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from seasonrisk import summary
from seasonrisk.table import Table
from seasonrisk.values import number_as_typed
from seasonrisk.words import (
    CASH_HOLDS,
    CAUTIONS,
    RUNGS,
    TOTAL_LOSS,
    TOTAL_LOSS_ODDS,
    chance_text,
    counted,
    day_text,
    has_total_loss,
    households_sentence,
    month_text,
)

if TYPE_CHECKING:
    from seasonrisk.run import Run

__all__ = ["GIVE_OR_TAKE", "cash_sentence", "headline", "page", "provenance", "short_page", "total_loss_lines"]

WIDTH = 100

GIVE_OR_TAKE = (
    "\u00b1 (give or take): with more and more simulated seasons the figure would end up within it 19 times in 20. It tells how "
    "well the plan was simulated, not how good the plan is."
)


def wrapped(text: str, indent: str = "") -> list[str]:
    """``text`` in lines of the page's width."""
    return textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent)


def headline(run: Run) -> str:
    """Who, when, and how many seasons."""
    start, end = (day_text(run.plan[f"season.{end}"]) for end in ("start", "end"))  # type: ignore[arg-type]
    stopped = "" if run.complete else f" of the {run.facts.histories_asked:,} asked for, then it was stopped"
    return f"{run.plan.name}, {start} to {end}: {counted(run.histories, 'simulated season')}{stopped}; money in {run.money}"


def provenance(run: Run) -> str:
    """What is needed to make the run again."""
    facts = run.facts
    changed = f" with {counted(len(run.plan.changes), 'change')}" if run.plan.changes else ""
    return (
        f"Plan {run.plan.source}{changed}; key {facts.key}; {run.histories:,} seasons; "
        f"seasonrisk {facts.version}, draws of version {facts.stream_version}."
    )


def cash_sentence(run: Run) -> str:
    """When cash is lowest, and how low."""
    month, chance = run.lowest_month()
    middling, bad = run.quantile("lowest_cash", 0.5), run.quantile("lowest_cash", 0.1)
    return (
        f"Cash is lowest most often at the end of {month_text(month)} ({chance_text(chance)}): the lowest month end is "
        f"{middling.amount_text} {run.money} in a middling season and {bad.amount_text} in a bad one."
    )


def total_loss_lines(run: Run) -> list[str]:
    """How often the boat is lost, and where that stands; nothing when the plan gives it no odds."""
    if not has_total_loss(run.plan):
        return []
    odds = run.plan.numbers[TOTAL_LOSS_ODDS]
    typed = number_as_typed(odds) if isinstance(odds, float) else f"about {number_as_typed(odds.typical)}"
    seen = summary.total_loss(run)
    found = f"; seen in {chance_text(seen)} of these seasons" if seen is not None and seen.n > 3 else ""
    return [
        f"Total loss: the plan gives odds of {typed} that {TOTAL_LOSS}{found}. It is in no other figure: such a season "
        "goes on as if she stayed afloat, so neither the boat's worth nor the insurer's payment for her is counted."
    ]


def has_cash(run: Run) -> bool:
    return "lowest_cash" in run and "lowest_cash_month" in run and len(run.months) == 12


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


def _section(table: Table) -> list[str]:
    return ["", table.title, *("  " + line for line in table.lines())]


def page(run: Run) -> str:
    """The whole page, for the terminal: about 50 lines."""
    lines = [*wrapped(headline(run)), "", *wrapped(households_sentence(run))]
    for table in (summary.rungs(run), summary.good_and_bad(run), run.month_cash((0.1, 0.5, 0.9))):
        lines += _section(table)
    lines += wrapped(cash_sentence(run), "  ")
    lines += _section(summary.days(run))
    for line in total_loss_lines(run):
        lines += ["", *wrapped(line)]
    lines += ["", *wrapped(GIVE_OR_TAKE), *wrapped(provenance(run)), "", *wrapped(" ".join(CAUTIONS))]
    return "\n".join(lines)
