# SPDX-License-Identifier: MIT
"""Answers of ``seasonrisk new`` that are sound one by one and do not go together, told by the names of the questions.

The plan does not exist yet, so its lines would tell nobody anything.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable

from seasonrisk.errors import Finding
from seasonrisk.questions import MONTHS, QUESTIONS, Answers

__all__ = ["SEASONS_REMEMBERED", "by_question", "days_by_month", "days_left", "misfits"]

SEASONS_REMEMBERED = 5  # the breakdowns asked for
MOST_LOST = 0.9  # of the days there are

# Which question a key of the plan comes from; the longest beginning that fits counts.
SOURCES = {
    "business.name": "boat",
    "business.money": "money",
    "business": "cash",
    "season": "season",
    "season.rest_days": "days_a_week",
    "weather": "weather",
    "species": "species",
    "species.0.per_haul": "catch",
    "species.0.year_sd": "catch",
    "species.1.per_haul": "catch2",
    "species.1.year_sd": "catch2",
    "outlet": "price",
    "prices.fuel_per_l": "fuel",
    "prices.bait_per_haul": "bait",
    "boat.0.name": "boat",
    "boat.0.fuel_l_per_day_out": "fuel",
    "boat.0.fishery": "pots",
    "boat.0.crew": "crew",
    "boat.0.breakdown": "breakdowns",
    "boat.0.gear_loss": "pots_lost",
    "boat.0.insurance": "insurance",
    "standing": "bills",
    "loan": "loan",
    "household": "draw",
}


def days_by_month(dates: Iterable[dt.date]) -> Counter[str]:
    """Days to go in each month that has some."""
    return Counter(MONTHS[date.month - 1] for date in dates)


def days_left(answers: Answers, dates: list[dt.date]) -> float:
    """Days out of a usual season: those meant, less weather and breakdowns."""
    lost = answers["weather"]
    bad = sum(lost.values()) if isinstance(lost, dict) else lost
    return float(len(dates) - bad - answers["breakdowns"][1] / SEASONS_REMEMBERED)


def misfits(answers: Answers, dates: list[dt.date]) -> list[str]:
    """All that does not go together."""
    problems = _weather(answers, dates)
    if not problems and days_left(answers, dates) < 1.0:
        problems.append("weather, breakdowns: more days are lost than there are days to go")
    count, days, usual, worst = answers["breakdowns"]
    if count == 0 and days > 0:
        problems.append(f"breakdowns: no breakdowns cannot have lost {days:.10g} days")
    if worst < usual or usual == 0.0 < worst:
        problems.append(
            f"breakdowns: the usual bill of {usual:.10g} and the worst of {worst:.10g} do not go together; the worst "
            "must be no smaller, and the usual above 0 when the worst is"
        )
    pots, lost = answers["pots"][0], answers["pots_lost"][0]
    if lost >= pots:
        problems.append(f"pots_lost={lost:.10g}: must be fewer than the {pots:.10g} pots there are")
    return problems


def _weather(answers: Answers, dates: list[dt.date]) -> list[str]:
    lost = answers["weather"]
    most = "more than nine tenths cannot be lost"
    if not isinstance(lost, dict):
        too_many = lost > MOST_LOST * len(dates)
        return [f"weather={lost:.10g}: there are only {len(dates)} days to go; {most}"] if too_many else []
    there, problems = days_by_month(dates), []
    for month, days in lost.items():
        if month not in there:
            problems.append(f"weather={month} {days:.10g}: the season has no day to go in {month}; leave it out")
        elif days > MOST_LOST * there[month]:
            problems.append(f"weather={month} {days:.10g}: there are only {there[month]} days to go; {most}")
    absent = [month for month in there if month not in lost]
    if absent:
        problems.append(f"weather: say how many days are lost in {', '.join(absent)}, too")
    return problems


def by_question(findings: Iterable[Finding]) -> list[str]:
    """What the rule book says of a plan that was not written, with the question in place of the line."""
    texts = {question.name: question.text for question in QUESTIONS}
    lines = []
    for finding in findings:
        fitting = [path for path in SOURCES if f"{finding.path}.".startswith(f"{path}.")]
        name = SOURCES[max(fitting, key=len)] if fitting else ""
        asked = f"{name} ({texts[name]})" if name else "the answers together"
        value = f" = {finding.value}" if finding.value else ""
        hint = f"; {finding.hint}" if finding.hint else ""
        lines.append(f"{asked}: {finding.path}{value}: {finding.message}{hint}")
    return lines
