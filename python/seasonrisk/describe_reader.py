# SPDX-License-Identifier: MIT
"""What all parts of a plan's description share: means and words of a plan by key path, and its days."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from seasonrisk import _core
from seasonrisk.values import EventSize, Guess, number_as_typed
from seasonrisk.words import day_text

if TYPE_CHECKING:
    from seasonrisk.plan import Plan

__all__ = ["MONTHS", "Good", "Reader", "joined", "number_text", "opening", "span_text", "weekdays_text"]

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def number_text(value: float, digits: int = 4) -> str:
    """A number worked out from the plan, with separators and no more than a few digits.

    Examples
    --------
    >>> number_text(28600.0), number_text(0.13), number_text(2.5)
    ('28,600', '0.13', '2.5')
    """
    return f"{value:,.0f}" if abs(value) >= 1000.0 else f"{value:.{digits}g}"


def opening(text: str) -> str:
    """A name at the beginning of a sentence: its first letter large, all others as they are.

    Examples
    --------
    >>> opening("deckhand"), opening("Marigold Anne")
    ('Deckhand', 'Marigold Anne')
    """
    return text[:1].upper() + text[1:]


@dataclass
class Reader:
    """Means and words of a plan, by key path."""

    plan: Plan
    entries: dict[str, _core.PlanValue] = field(init=False)

    def __post_init__(self) -> None:
        self.entries = {entry.path: entry for entry in self.plan.entries}

    def has(self, path: str) -> bool:
        return path in self.entries

    def word(self, path: str) -> Any:
        return self.entries[path].value

    def mean(self, path: str, otherwise: float = 0.0) -> float:
        return self.entries[path].mean() if path in self.entries else otherwise

    def sections(self, path: str) -> Iterator[str]:
        """Paths of a list's sections, ``"boat.0.crew.0"`` and on."""
        n = 0
        while any(entry.startswith(f"{path}.{n}.") for entry in self.entries):
            yield f"{path}.{n}"
            n += 1

    def money(self, value: float) -> str:
        places = 0 if value >= 100.0 or abs(value - round(value)) < 0.005 else 2
        return f"{value:,.{places}f} {self.plan.money}"

    def number(self, path: str, *, times: int = 1, digits: int = 4) -> str:
        """The plan's own number as it was typed; of a guess, its mean to a few digits."""
        value = self.plan.numbers[path]
        if isinstance(value, Guess | EventSize):
            return number_text(times * self.mean(path), digits)
        return number_as_typed(value, times=times)

    def counted(self, path: str, noun: str) -> str:
        """A count of the plan with its noun: ``1 day``, ``2.5 days``."""
        text = self.number(path)
        return f"{text} {noun}" if text == "1" else f"{text} {noun}s"

    def amount(self, path: str) -> str:
        """The plan's own amount of money as it was typed, with pence as they are written; of a guess, its mean."""
        if path not in self.plan.numbers or isinstance(self.plan.numbers[path], Guess | EventSize):
            return self.money(self.mean(path))
        text = self.number(path)
        return f"{text}{'0' if text[-2:-1] == '.' else ''} {self.plan.money}"

    def by_month(self, path: str, month: int) -> float | None:
        """Mean of a monthly value: the month's own, or the last before it that has one, going round the year."""
        if path in self.entries:
            return self.mean(path)
        for back in range(12):
            at = f"{path}.{MONTHS[(month - 1 - back) % 12]}"
            if at in self.entries:
                return self.mean(at)
        return None

    def boats(self) -> list[str]:
        return list(self.sections("boat"))

    def years(self) -> int:
        return int(self.word("business.years"))

    def hauls(self, fishery: str) -> float:
        """Pots hauled on a full day: no more than there are. A trotline is run as often as the plan says."""
        hauls = self.mean(f"{fishery}.hauls_per_day")
        is_line = self.word(f"{fishery}.gear") == "trotline"
        return hauls if is_line else min(hauls, self.mean(f"{fishery}.count"))

    def season_dates(self) -> list[dt.date]:
        start, end = self.word("season.start"), self.word("season.end")
        return [start + dt.timedelta(days=n) for n in range((end - start).days + 1)]

    def fishing_dates(self) -> list[dt.date]:
        """Season days, up to an early stop, that are neither rest days nor days off."""
        rest = self.word("season.rest_days")
        stop = self.word("season.stop_on") if self.has("season.stop_on") else self.word("season.end")
        off = [(self.word(f"{path}.from"), self.word(f"{path}.to")) for path in self.sections("season.days_off")]
        return [
            d
            for d in self.season_dates()
            if d <= stop and WEEKDAYS[d.weekday()] not in rest and not any(a <= d <= b for a, b in off)
        ]

    def fishery_span(self, fishery: str) -> tuple[dt.date, dt.date]:
        """First and last day of a fishery."""
        first = f"{fishery}.from" if self.has(f"{fishery}.from") else "season.start"
        last = f"{fishery}.to" if self.has(f"{fishery}.to") else "season.end"
        return self.word(first), self.word(last)

    def boat_dates(self, boat: str) -> list[dt.date]:
        """Fishing dates on which the boat has a fishery and is there."""
        spans = [self.fishery_span(path) for path in self.sections(f"{boat}.fishery")]
        there = self.word(f"{boat}.fish_from") if self.has(f"{boat}.fish_from") else dt.date.min
        return [d for d in self.fishing_dates() if d >= there and any(a <= d <= b for a, b in spans)]

    def goods(self) -> list[Good]:
        """All that is sold by itself, in the plan's order: grades, and species without grades."""
        found = []
        for species in self.sections("species"):
            name, unit = self.word(f"{species}.name"), self.word(f"{species}.unit")
            grades = list(self.sections(f"{species}.grade"))
            for grade in grades:
                sold_by = self.word(f"{grade}.sold_by") if self.has(f"{grade}.sold_by") else unit
                found.append(Good(self.word(f"{grade}.name"), name, sold_by))
            if not grades:
                found.append(Good(name, name, unit))
        return found

    def good(self, name: str) -> Good:
        return next(good for good in self.goods() if good.name == name)

    def price_path(self, outlet: str, good: Good) -> str | None:
        """Where the outlet's price for a good stands: its own, or that of its species."""
        paths = (f"{outlet}.price.{good.name}", f"{outlet}.price.{good.species}")
        return next((path for path in paths if self.has(path)), None)

    def is_simple(self) -> bool:
        """One boat with one fishery, one outlet, no grades: all in one can be said of the catch."""
        one_fishery = len(self.boats()) == 1 and len(list(self.sections("boat.0.fishery"))) == 1
        return (
            one_fishery and len(list(self.sections("outlet"))) == 1 and all(g.name == g.species for g in self.goods())
        )


@dataclass(frozen=True)
class Good:
    """Something sold by itself, its species, and what it is counted in."""

    name: str
    species: str
    unit: str


def joined(words: Iterable[str]) -> str:
    """Words in a row.

    Examples
    --------
    >>> joined(["lobster"]), joined(["lobster", "crab", "prawn"])
    ('lobster', 'lobster, crab and prawn')
    """
    listed = list(words)
    return " and ".join((", ".join(listed[:-1]), listed[-1])) if len(listed) > 1 else "".join(listed)


def span_text(first: dt.date, last: dt.date) -> str:
    """``1 June 2027 to 30 September 2027``."""
    return f"{day_text(first)} to {day_text(last)}"


def weekdays_text(days: list[str]) -> str:
    """Days of the week, a run of them as from and to.

    Examples
    --------
    >>> weekdays_text(["Monday", "Tuesday", "Wednesday"]), weekdays_text(["Friday", "Sunday"]), weekdays_text([])
    ('Monday to Wednesday', 'Friday and Sunday', 'every day')
    """
    places = sorted(WEEKDAYS.index(day) for day in days)
    if not places or len(places) == 7:
        return "every day"
    if len(places) > 2 and places[-1] - places[0] == len(places) - 1:
        return f"{WEEKDAYS[places[0]]} to {WEEKDAYS[places[-1]]}"
    return joined(WEEKDAYS[place] for place in places)
