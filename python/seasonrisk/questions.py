# SPDX-License-Identifier: MIT
"""What ``seasonrisk new`` asks: years, counts and worst cases, which an owner knows, never spreads, which nobody does.

Each question has a name, a default and a range that are shown, and a reader that says what is wrong with an answer.
All defaults are invented.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

__all__ = ["QUESTIONS", "Answers", "Question", "ask"]

Answers: TypeAlias = dict[str, Any]

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
CREW_PAY = ("share of sales", "share after bait and fuel", "day wage")
NEXT_YEAR = dt.date.today().year + 1


def always(_: Answers) -> bool:
    return True


@dataclass(frozen=True)
class Question:
    """One question.

    Attributes
    ----------
    name : str
        For ``--answer name=value``.
    text, allowed : str
        What is asked, and which answers are taken, units among them.
    default : str
        Taken when nothing is typed.
    read : callable
        Turns an answer into a value; ValueError says what is wrong with it.
    is_asked : callable
        Whether the question has a sense after the answers so far.
    """

    name: str
    text: str
    allowed: str
    default: str
    read: Callable[[str], Any]
    is_asked: Callable[[Answers], bool] = always

    def line(self) -> str:
        """The question with its name, range and default."""
        return f"{self.name}: {self.text} ({self.allowed}) [{self.default}]"


def number(text: str) -> float:
    """A number as people write it.

    Examples
    --------
    >>> number("12,500"), number("0.3")
    (12500.0, 0.3)
    """
    # A comma is taken for thousands only where it can be nothing else: in much of Europe "0,30" is three tenths.
    if re.fullmatch(r"[1-9]\d{0,2}(,\d{3})+(\.\d+)?|\d+(\.\d+)?|\.\d+", text):
        return float(text.replace(",", ""))
    if re.fullmatch(r"[\d.]*,[\d.,]*", text):
        raise ValueError(
            f"{text!r} can be read in two ways: use a point for part of a number, such as 0.30, and a comma for "
            "thousands only, such as 1,234"
        )
    raise ValueError(f"{text!r} is no number of 0 or more")


def numbers(
    *ranges: tuple[str, float, float], rising: bool = False, whole: bool = False
) -> Callable[[str], tuple[float, ...]]:
    """A reader of several numbers with spaces between them, each with a name and a range; it tells all that is wrong."""

    def read(text: str) -> tuple[float, ...]:
        words = text.replace(", ", " ").split()
        if len(words) != len(ranges):
            needed = (
                "1 number is needed"
                if len(ranges) == 1
                else f"{len(ranges)} numbers are needed, with spaces between them"
            )
            raise ValueError(f"{needed}: {', '.join(name for name, _, _ in ranges)}")
        values, problems = [], []
        for word, (name, low, high) in zip(words, ranges, strict=True):
            try:
                value = number(word)
            except ValueError as error:
                problems.append(str(error))
                continue
            values.append(value)
            if not low <= value <= high:
                problems.append(f"{name} must be from {low:.10g} to {high:.10g}, not {value:.10g}")
            elif whole and not value.is_integer():
                problems.append(f"{name} must be a whole number from {low:.10g} to {high:.10g}, not {value:.10g}")
        if rising and not problems and values != sorted(values):
            problems.append("the numbers must rise: worst, usual, best")
        if problems:
            raise ValueError("; ".join(problems))
        return tuple(values)

    return read


def whole_number(name: str, low: float, high: float) -> Callable[[str], int]:
    """A reader of one whole number."""
    read = numbers((name, low, high), whole=True)
    return lambda text: int(read(text)[0])


def read_text(text: str) -> str:
    if not 1 <= len(text) <= 60 or not text.isprintable():
        raise ValueError("1 to 60 letters are needed")
    return text


def read_money(text: str) -> str:
    if not re.fullmatch("[A-Z]{3}", text.upper()):
        raise ValueError(f"{text!r} is not three letters, such as GBP, EUR or USD")
    return text.upper()


def read_season(text: str) -> tuple[dt.date, dt.date]:
    found = re.findall(r"\d{4}-\d{2}-\d{2}", text)
    if len(found) != 2:
        raise ValueError("two days are needed, such as 2027-06-01 to 2027-11-30")
    start, end = map(dt.date.fromisoformat, found)
    if not dt.timedelta(days=6) <= end - start <= dt.timedelta(days=270):
        raise ValueError("the last day must be 6 to 270 days after the first")
    return start, end


def read_weather(text: str) -> float | dict[str, float]:
    """Days of a usual season, or days by month: ``"37"``, ``"jun 3, jul 3, nov 11"``."""
    if re.fullmatch(r"[\d.,]+", text):
        return numbers(("days", 0, 250))(text)[0]
    by_month: dict[str, float] = {}
    for part in text.lower().split(","):
        month, _, days = part.strip().partition(" ")
        if month not in MONTHS:
            raise ValueError(f"{part.strip()!r} is not a month and its days, such as jun 3")
        if month in by_month:
            raise ValueError(f"{month} is there twice")
        by_month[month] = numbers((f"days of {month}", 0, 31))(days)[0]
    return by_month


def read_species(text: str) -> list[str]:
    names = [name.strip() for name in text.split(",")]
    if (
        not 1 <= len(names) <= 2
        or len(set(names)) != len(names)
        or not all(re.fullmatch(r"[\w -]{1,30}", name) for name in names)
    ):
        raise ValueError("one name, or two with a comma between them, of letters only")
    return names


def read_crew(text: str) -> tuple[str, float] | None:
    if text == "alone":
        return None
    for pay in CREW_PAY:
        if text.startswith(pay + " "):
            most = 5000.0 if pay == "day wage" else 0.6
            return pay, numbers((pay, 0.0, most))(text.removeprefix(pay))[0]
    raise ValueError(f"alone, or one of {', '.join(CREW_PAY)} with its number")


def has_second(answers: Answers) -> bool:
    return len(answers["species"]) == 2


def _year_numbers(what: str, most: float) -> Callable[[str], tuple[float, ...]]:
    ends = (("worst", 0.001, most), ("usual", 0.001, most), ("best", 0.001, most))
    return numbers(*((f"{name} {what}", low, high) for name, low, high in ends), rising=True)


_MONEY = 10_000_000.0
_CATCH, _PRICE = _year_numbers("catch", 1e7), _year_numbers("price", 1e5)

QUESTIONS = (
    Question("boat", "Name of the boat", "1 to 60 letters", "Invented Boat", read_text),
    Question("money", "Which money", "three letters", "GBP", read_money),
    Question("season", "First and last day of the season", "two days, up to 270 apart", f"{NEXT_YEAR}-06-01 to {NEXT_YEAR}-11-30", read_season),
    Question("days_a_week", "Days a week you mean to go", "1 to 7", "6", whole_number("days", 1, 7)),
    Question("weather", "Days of those lost to weather in a usual season, or by month", "37, or: jun 3, jul 3, aug 4", "37", read_weather),
    Question("pots", "Pots in the water, and pots hauled in a day", "each 1 to 5,000", "420 220", numbers(("pots", 1, 5000), ("hauls", 1, 5000))),
    Question("species", "What you catch, one or two", "names with a comma between", "lobster, crab", read_species),
    Question("records", "Years of records or memory behind the next answers", "1 to 60", "5", whole_number("years", 1, 60)),
    Question("catch", "Season's catch of the first: worst, usual, best year", "kg, rising", "2500 3200 4000", _CATCH),
    Question("price", "Its price: worst, usual, best year", "money a kg, rising", "12.5 14.5 16.5", _PRICE),
    Question("catch2", "Season's catch of the second: worst, usual, best year", "kg, rising", "11000 14500 18500", _CATCH, has_second),
    Question("price2", "Its price: worst, usual, best year", "money a kg, rising", "2.3 2.7 3.1", _PRICE, has_second),
    Question("fuel", "Fuel bill of a usual day out, and the price of a litre", "money; money", "80 0.95", numbers(("bill", 0, 1e5), ("price", 0.01, 1000))),
    Question("bait", "Bait for one pot, one haul", "money", "0.30", numbers(("bait", 0, 1000))),
    Question("crew", "How one hand is paid", "alone; share of sales 0.17; share after bait and fuel 0.20; day wage 110", "share after bait and fuel 0.20", read_crew),
    Question("breakdowns", "Breakdowns in the last five seasons: how many, days lost in all, usual bill, worst bill", "counts; money", "12 20 700 4500",
             numbers(("how many", 0, 500), ("days lost", 0, 900), ("usual bill", 0, _MONEY), ("worst bill", 0, _MONEY))),
    Question("pots_lost", "Pots lost in a usual season, and what a new one costs", "pots; money", "42 75", numbers(("pots lost", 0, 4000), ("cost", 0, 10_000))),
    Question("insurance", "Insurance premium a year, and your own part of each claim", "money; 0 0 for none", "2900 1500", numbers(("premium", 0, _MONEY), ("own part", 0, _MONEY))),
    Question("bills", "All other bills of a year: haul-out, service, dues, licences, accountant, phone", "money", "12000", numbers(("bills", 0, _MONEY))),
    Question("loan", "Loan: still owed, interest in 100 a year, years left", "money; 0 to 50; 1 to 40; 0 0 1 for none", "60000 8.5 10",
             numbers(("owed", 0, _MONEY), ("interest", 0, 50), ("years", 1, 40))),
    Question("draw", "What the household takes a month", "money", "1500", numbers(("draw", 0, _MONEY))),
    Question("cash", "Cash in the account three months before the season, and how far it may go below nothing", "money; money", "18000 5000",
             numbers(("cash", 0, _MONEY), ("overdraft", 0, _MONEY))),
)  # fmt: skip


def ask(given: Mapping[str, str], *, take_defaults: bool) -> Answers:
    """Answers to every question: those given, then the defaults or what is typed; a wrong one is asked again.

    Raises
    ------
    ValueError
        When given answers are wrong, or to no question, all of them told at once before anything is asked; or when
        the typed answers end too soon.
    """
    read = _read_given(given)
    answers: Answers = {}
    for question in QUESTIONS:
        if not question.is_asked(answers):
            if question.name in given:
                raise ValueError(
                    f"--answer {question.name}={given[question.name]}: is not asked of one species; leave it out"
                )
        elif question.name in read:
            answers[question.name] = read[question.name]
        else:
            answers[question.name] = question.read(question.default) if take_defaults else _typed(question)
    return answers


def _read_given(given: Mapping[str, str]) -> Answers:
    by_name = {question.name: question for question in QUESTIONS}
    read, problems = {}, []
    for name, text in given.items():
        if name not in by_name:
            problems.append(f"--answer {name}: there is no such question; there are {', '.join(by_name)}")
            continue
        try:
            read[name] = by_name[name].read(text)
        except ValueError as error:
            problems.append(f"--answer {name}={text}: {error}")
    if problems:
        raise ValueError("\n".join(problems))
    return read


def _typed(question: Question) -> Any:
    while True:
        try:
            answer = input(f"{question.text}\n  ({question.allowed}) [{question.default}]: ").strip()
        except EOFError:
            raise ValueError(
                f"no answer to {question.name!r}: give --answer {question.name}=..., or --defaults"
            ) from None
        try:
            return question.read(answer or question.default)
        except ValueError as error:
            print(f"  Not taken: {error}.")
