# SPDX-License-Identifier: MIT
"""Plain words for chances, money and seasons, and the cautions that go with every result."""

from __future__ import annotations

import datetime as dt
import math
from decimal import Decimal
from typing import TYPE_CHECKING

from seasonrisk.estimate import Estimate, rounded, rounded_up
from seasonrisk.values import Value

if TYPE_CHECKING:
    from seasonrisk.plan import Plan
    from seasonrisk.run import Run

__all__ = [
    "CASH_HOLDS", "CAUTIONS", "FEW", "NOT_MODELLED", "RUNGS", "TOTAL_LOSS", "boats_of", "chance_cell", "chance_text", "column_of", "day_text",
    "edge_in_100", "has_total_loss", "households_sentence", "in_100", "money_text", "month_text", "noun_of", "seasons_of", "short_day", "total_loss_odds",
]  # fmt: skip

#: Levels of "covers its costs", each with what the season pays at that level.
RUNGS = {
    "running": "running costs: fuel, bait, crew, repairs",
    "standing": "... and the bills owed in any case",
    "loan": "... and the loan and the overdraft",
    "household": "... and tax and the household",
}
MONTHS = ("January", "February", "March", "April", "May", "June",
          "July", "August", "September", "October", "November", "December")  # fmt: skip

#: The question beside the four rungs.
CASH_HOLDS = "cash stays within the overdraft"

#: The loss that is counted on a line of its own.
TOTAL_LOSS = "the boat is lost in the year"
TOTAL_LOSS_ODDS = "insurance.total_loss_odds_per_year"

#: With no more seasons than these no chance is told.
FEW = 3

CAUTIONS = (
    "Whether the boat goes out is for the skipper alone to decide, by the weather of the day; nothing here is a reason "
    "to go to sea.",
    "This is not financial, insurance, tax or legal advice.",
    "The results are only as good as the numbers in the plan.",
    "Local rules, and those licensed to advise on them, come first.",
    "Rest and lifejackets matter more than any number here.",
    "A chance is not a promise: a season that pays in 9 of 10 still fails in 1.",
)

NOT_MODELLED = (
    "fishing the ground out: what is landed now leaves nothing less for later days or years",
    "buyers who give up, and new ones who come",
    "refusals to lend, and what a lender does when a payment is missed",
    "boats bought or sold on the way, other than as assets of the plan",
    "costs that follow each other, such as bait with fuel",
    "what follows the loss of the boat: such a season goes on as if afloat, and its odds stand on a line of their own",
)


def chance_text(chance: Estimate, *, whole: bool = True) -> str:
    """A chance in words: "72 in 100" only when it is sure to a point, else "about 7 in 10".

    Parameters
    ----------
    chance : Estimate
        Of kind ``"chance"``.
    whole : bool
        Whole numbers, for sentences; else as many digits as the error supports, for tables.

    Examples
    --------
    >>> chance_text(Estimate(0.72, 0.045, 0.63, 0.80, 100, kind="chance"))
    'about 7 in 10'
    >>> chance_text(Estimate(0.0, 0.0, 0.0, 0.0003, 10_000, kind="chance"))
    'fewer than 3 in 10,000'
    >>> chance_text(Estimate(0.7243, 0.0014, 0.7215, 0.7271, 100_000, kind="chance"), whole=False)
    '72.4 in 100'
    """
    p, n = chance.value, chance.n
    if chance.exact and p in (0.0, 1.0):
        return "every season (exact)" if p else "no season (exact)"
    if n <= FEW:
        return f"{round(p * n)} of the {n} simulated, too few to say"
    if p in (0.0, 1.0):
        return f"all but fewer than 3 in {n:,}" if p else f"fewer than 3 in {n:,}"
    if chance.standard_error > 0.01:
        return _in_tenths(p)
    if not whole:
        return f"{rounded(p * 100.0, chance.standard_error * 100.0)} in 100"
    scale = _scale_for(p)
    if chance.standard_error * scale > (1.0 if scale == 100 else 0.5):  # rare, and seen too seldom to count them
        scale //= 10
        return f"fewer than 1 in {scale:,}" if p < 0.5 else f"more than {scale - 1:,} in {scale:,}"
    return f"{rounded(p * scale, 1.0)} in {scale:,}"


def chance_cell(chance: Estimate) -> str:
    """A chance for a narrow column of a table: one that was never seen, or always, is bounded by 3 in n.

    Examples
    --------
    >>> chance_cell(Estimate(1.0, 0.0, 0.9985, 1.0, 2_000, kind="chance"))
    'over 99.8 in 100'
    >>> chance_cell(Estimate(1.0, 0.0, 0.2, 1.0, 1, kind="chance"))
    'too few'
    """
    if chance.n <= FEW and not chance.exact:
        return "too few"
    if chance.value in (0.0, 1.0) and not chance.exact:
        return f"{edge_in_100(chance)} in 100"
    return chance_text(chance, whole=False)


def in_100(chance: Estimate) -> str:
    """A chance for a column headed "in 100": the number alone.

    Examples
    --------
    >>> in_100(Estimate(0.72, 0.045, 0.63, 0.80, 100, kind="chance"))
    'about 70'
    >>> in_100(Estimate(0.7243, 0.0014, 0.7215, 0.7271, 100_000, kind="chance"))
    '72.4'
    """
    if chance.exact:
        return f"{100.0 * chance.value:g}"
    if chance.n <= FEW or chance.value in (0.0, 1.0) or chance.standard_error <= 0.01:
        return chance_cell(chance).removesuffix(" in 100")
    tenths = round(chance.value * 10.0)
    return "under 10" if tenths == 0 else "over 90" if tenths == 10 else f"about {tenths}0"


def edge_in_100(chance: Estimate) -> str:
    """What bounds a chance that was never seen, or always, in 100."""
    edge = rounded_up(100.0 * (chance.high - chance.low))
    return f"under {edge}" if chance.value == 0.0 else f"over {100 - Decimal(edge)}"


def _in_tenths(p: float) -> str:
    tenths = round(p * 10.0)
    if tenths in (0, 10):
        return "more than 9 in 10" if tenths else "fewer than 1 in 10"
    return f"about {tenths} in 10"


def _scale_for(p: float) -> int:
    """100, or the power of ten at which neither side of the chance is below 1."""
    scale = 100
    while min(p, 1.0 - p) * scale < 1.0 - 1e-9:
        scale *= 10
    return scale


def money_text(amount: Estimate, money: str) -> str:
    """Money to the digits it supports, with its three letters: ``"12,400 GBP"``."""
    return f"{amount.amount_text} {money}"


def total_loss_odds(plan: Plan) -> list[tuple[str, Value]]:
    """Name of each boat that the plan gives odds of being lost, and the odds as typed."""
    found = [path for path in plan.numbers if path.startswith("boat.") and path.endswith(TOTAL_LOSS_ODDS)]
    odds = [(str(plan[f"boat.{path.split('.')[1]}.name"]), plan.numbers[path]) for path in found]
    return [(name, value) for name, value in odds if not isinstance(value, int | float) or value > 0.0]


def has_total_loss(plan: Plan) -> bool:
    """Whether the plan gives odds of losing a boat."""
    return bool(total_loss_odds(plan))


def boats_of(plan: Plan) -> list[str]:
    """Names of the plan's boats."""
    return [str(e.value) for e in plan.entries if e.path.startswith("boat.") and e.path.count(".") == 2 and e.path.endswith(".name")]


def seasons_of(plan: Plan) -> list[int]:
    """The calendar year in which each season of a history starts."""
    first = plan["season.start"].year  # type: ignore[union-attr]
    return [first + n for n in range(int(plan["business.years"]))]  # type: ignore[arg-type]


def column_of(plan: Plan, name: str, season: int) -> str:
    """Column of one season: ``"loan.2028"``, or ``"loan"`` where a history is one season."""
    return name if len(seasons_of(plan)) == 1 else f"{name}.{season}"


def noun_of(plan: Plan) -> str:
    """What one history is: ``"season"``, or ``"run of 5 seasons"``."""
    years = len(seasons_of(plan))
    return "season" if years == 1 else f"run of {years} seasons"


def plural(noun: str) -> str:
    """``"seasons"``, ``"runs of 5 seasons"``."""
    return noun.replace("run of", "runs of") if "run of" in noun else noun + "s"


def counted(n: int, noun: str) -> str:
    """``1 season``, ``2,000 seasons``: a count with its noun."""
    return f"{n:,} {noun if n == 1 else plural(noun)}"


def short_day(day: dt.date) -> str:
    """A day for a column of a table.

    Examples
    --------
    >>> short_day(dt.date(2027, 6, 1))
    '1 Jun 2027'
    """
    return f"{day.day} {month_text(f'{day:%Y-%m}')}"


def day_text(day: dt.date) -> str:
    """A day as it is spoken.

    Examples
    --------
    >>> day_text(dt.date(2027, 6, 1))
    '1 June 2027'
    """
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def month_text(month: str) -> str:
    """A month, short.

    Examples
    --------
    >>> month_text("2027-06")
    'Jun 2027'
    """
    year, number = month.split("-")
    return f"{MONTHS[int(number) - 1][:3]} {year}"


def households_sentence(run: Run) -> str:
    """The answer to the first question, in one sentence."""
    several, years = len(boats_of(run.plan)) > 1, len(seasons_of(run.plan))
    pays = "the boats pay their way and the household" if several else "the boat pays its way and the household"
    it_is = "they are" if several else "it is"
    together = "" if years == 1 else ", all years together"
    noun = noun_of(run.plan)
    chance, short = run.chance("household"), run.shortfall_when_missed("household")
    by = "" if math.isnan(short.value) else f", on average by about {money_text(short, run.money)}"
    if chance.exact:
        left = money_text(run.mean("household"), run.money)
        return f"There is no luck in these numbers: {pays if chance.value else f'the {noun} is short'}{by or f', with {left} left'}."
    if chance.n <= FEW:
        return f"{counted(chance.n, f'simulated {noun}')} {'is' if chance.n == 1 else 'are'} too few to say how often {pays}."
    counts = chance_text(chance).replace(",", "").split(" in ")
    if all(count.isdigit() for count in counts):
        good, of = map(int, counts)
        return f"In {good:,} of {of:,} {plural(noun)} like these {pays}{together}; in the other {of - good:,} {it_is} short{by}."
    otherwise = f"; when {it_is} short, then{by.removeprefix(',')}" if by else ""
    return f"In {chance_text(chance)} {plural(noun)} like these {pays}{together}{otherwise}."
