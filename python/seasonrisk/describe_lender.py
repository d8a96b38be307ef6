# SPDX-License-Identifier: MIT
"""What a lender asks for in sentences: past years, the note, sources, stresses, and what is supposed for certain."""

from __future__ import annotations

import datetime as dt
from collections import Counter

from seasonrisk.describe_reader import Reader, joined
from seasonrisk.words import counted, day_text

__all__ = ["note_lines", "past_lines", "source_lines", "stress_lines", "suppose_lines"]


def past_lines(plan: Reader) -> list[str]:
    """Past years one after the other, each with what was typed of it."""
    lines = []
    for path in plan.sections("past_year"):
        told = [key for key in plan.entries if key.startswith(f"{path}.") and key != f"{path}.year"]
        parts = []
        for key in told:
            name = key.removeprefix(f"{path}.").replace("_", " ")
            shown = plan.number(key) if name == "days fished" else plan.amount(key)
            parts.append(f"{name} {shown}")
        lines.append(f"Past year {plan.word(f'{path}.year')}: {joined(parts)}; nothing simulated rests on it.")
    return lines


def note_lines(plan: Reader) -> list[str]:
    """The lender, what is asked for, and what is put by."""
    parts = []
    if plan.has("note.ask"):
        lender = f" of {plan.word('note.lender')}" if plan.has("note.lender") else ""
        parts.append(f"{plan.amount('note.ask')} asked for{lender}")
    if plan.has("note.reserve"):
        parts.append(f"{plan.amount('note.reserve')} put by outside the account, on which nothing simulated counts")
    return [f"Note for the lender: {joined(parts)}."] if parts else []


def source_lines(plan: Reader) -> list[str]:
    """How many sources of each kind are told."""
    kinds = Counter(source.origin for source in plan.plan.sources.values())
    parts = [f"{origin} {count}" for origin, count in kinds.items()]
    return [f"Sources told of numbers or of whole sections: {joined(parts)}."] if parts else []


def stress_lines(plan: Reader) -> list[str]:
    """Stresses of the owner's own, by name."""
    if not plan.plan.stresses:
        return []
    return [f"Stresses of your own, beside those that are always the same: {joined(plan.plan.stresses)}."]


def suppose_lines(plan: Reader) -> list[str]:
    """What is supposed for certain, with its days."""
    lines = []
    for path in plan.sections("suppose"):
        what, year = plan.word(f"{path}.what"), plan.word(f"{path}.year")
        when = f"in year {year} of the history"
        boat = plan.word(f"{path}.boat") if plan.has(f"{path}.boat") else plan.word("boat.0.name")
        if what == "bad catch":
            lines.append(f"Supposed {when}: every species has its 1-in-10 low year, and prices follow as they are tied.")
            continue
        who = {"closure": "nobody fishes", "breakdown": f"{boat} is broken down", "no skipper": f"{boat} has no skipper"}[what]
        bill = f"; it costs {plan.amount(f'{path}.cost')}, of which no insurer pays any" if what == "breakdown" else ""
        lines.append(f"Supposed {when}: {who} {_days(plan, path)}{bill}.")
    return lines


def _days(plan: Reader, path: str) -> str:
    """From when and for how long, by the calendar of the first year."""
    first: dt.date = plan.word(f"{path}.from") if plan.has(f"{path}.from") else plan.word("season.start")
    begin = f"from {day_text(first)}" if plan.word(f"{path}.year") == 1 else f"from {first.day} {first:%B}"
    if plan.has(f"{path}.days"):
        return f"{begin} for {counted(plan.word(f'{path}.days'), 'day')}"
    return f"{begin} for {counted(0, 'day')}" if plan.word(f"{path}.what") == "breakdown" else f"{begin} to the season's end"
