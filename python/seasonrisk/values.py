# SPDX-License-Identifier: MIT
"""Values of a plan: guesses, sizes of events, and how any value is written in a plan file."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeAlias

__all__ = ["EventSize", "Guess", "Source", "Value"]


@dataclass(frozen=True)
class Guess:
    """A number the owner does not know exactly; drawn once a history.

    Attributes
    ----------
    low, typical, high : float
        1 time in 10 it is below ``low``, half the time below ``typical``, 1 time in 10 above ``high``; in the
        unit of the key.
    """

    low: float
    typical: float
    high: float


@dataclass(frozen=True)
class EventSize:
    """The size of single events (a repair bill, days lost), spread anew at each event; never a guess.

    Attributes
    ----------
    low, typical, high : float
        1 event in 10 is smaller than ``low``, half are smaller than ``typical``, 1 in 10 is larger than ``high``.
    """

    low: float
    typical: float
    high: float


@dataclass(frozen=True)
class Source:
    """Where a number of the plan came from.

    Attributes
    ----------
    origin : str
        ``"own record"``, ``"owner's estimate"``, ``"published"`` or ``"default"``.
    where : str
        Where it stands, or who said so; may be empty.
    """

    origin: str
    where: str = ""


Value: TypeAlias = "float | int | bool | str | dt.date | Guess | EventSize | Sequence[Value] | Mapping[str, Value]"


def toml_text(value: Value) -> str:
    """The value as it is written in a plan file, on one line.

    Raises
    ------
    TypeError
        For a value of a kind that no plan holds.

    Examples
    --------
    >>> toml_text(Guess(12.5, 14.5, 17.0))
    '{ low = 12.5, typical = 14.5, high = 17.0 }'
    >>> toml_text(["Sunday"]), toml_text(True), toml_text(520)
    ('["Sunday"]', 'true', '520')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, float):
        return repr(float(value)) if math.isfinite(value) else str(float(value))
    if isinstance(value, str):
        return text_in_quotes(value)
    if isinstance(value, dt.datetime):
        raise TypeError(f"value={value!r}: a plan holds dates without a time of day")
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, Guess | EventSize):
        value = {"low": value.low, "typical": value.typical, "high": value.high}
    if isinstance(value, Mapping):
        inside = ", ".join(f"{key_text(key)} = {toml_text(inner)}" for key, inner in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    if isinstance(value, Sequence):
        return "[" + ", ".join(toml_text(inner) for inner in value) + "]"
    if hasattr(value, "item"):  # a NumPy number
        return toml_text(value.item())
    raise TypeError(f"value={value!r}: a plan holds numbers, words, dates, guesses, lists and tables")


def number_as_typed(value: float, *, times: int = 1) -> str:
    """A number of the plan with every digit it was typed with, and thousands set apart.

    Parameters
    ----------
    value : float
    times : int
        100 to show a fraction as so many in 100; multiplied in decimals, so that 0.07 becomes 7.

    Examples
    --------
    >>> number_as_typed(0.0375), number_as_typed(28600.0), number_as_typed(0.07, times=100)
    ('0.0375', '28,600', '7')
    """
    text = f"{Decimal(repr(float(value))) * times:,f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def text_in_quotes(text: str) -> str:
    """A TOML string with what must be escaped escaped.

    Examples
    --------
    >>> print(text_in_quotes('the "Ann"'))
    "the \\"Ann\\""
    """
    escaped = "".join(
        f"\\u{ord(letter):04x}" if ord(letter) < 0x20 or ord(letter) == 0x7F else letter
        for letter in text.replace("\\", "\\\\").replace('"', '\\"')
    )
    return f'"{escaped}"'


def key_text(key: str) -> str:
    """A TOML key, in quotes when it needs them.

    Examples
    --------
    >>> print(key_text("jun"), key_text("boat.0.name"))
    jun "boat.0.name"
    """
    bare = key.isascii() and key.replace("_", "").replace("-", "").isalnum()
    return key if bare else text_in_quotes(key)
