# SPDX-License-Identifier: MIT
"""A number found by simulation, with how sure it is, shown with no digit more than it supports.

The unit is the history: ``n`` seasons were simulated, and each counts once.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any, Literal, TypeAlias

__all__ = ["Estimate", "Kind", "rounded", "step_for"]

Kind: TypeAlias = Literal["amount", "chance"]


def step_for(error: float) -> float:
    """The smallest 1, 2 or 5 times a power of ten that is not below ``error``.

    Examples
    --------
    >>> step_for(130.0), step_for(0.0014), step_for(5.0)
    (200.0, 0.002, 5.0)
    """
    power = math.floor(math.log10(error))
    # Slightly less than the error is allowed, or 0.002 would be taken for just above 2 x 10^-3.
    for exponent in (power, power + 1):
        for digit in (1, 2, 5):
            step = digit * 10.0**exponent if exponent >= 0 else digit / 10.0**-exponent
            if step >= error * (1.0 - 1e-12):
                return step
    raise ValueError(f"error={error}: must be above 0 and finite")


def rounded(value: float, error: float) -> str:
    """The value to the step its error supports, with thousands separators.

    A value without error (0) is printed to the hundredth; one whose error is not known (NaN) to two digits.

    Examples
    --------
    >>> rounded(12345.6, 130.0), rounded(0.7243, 0.0014), rounded(-87.0, 30.0), rounded(1234.5, 0.0)
    ('12,400', '0.724', '-100', '1,234.50')
    """
    if math.isnan(value):
        return "unknown"
    if math.isnan(error):
        error = abs(value) / 20.0 or 1.0
    step = step_for(error) if error > 0.0 else 0.01
    places = max(0, -math.floor(math.log10(step) + 1e-9))
    text = f"{round(value / step) * step:,.{places}f}"
    if error == 0.0 and text.endswith(".00"):
        text = text[:-3]
    return text.removeprefix("-") if float(text.replace(",", "")) == 0.0 else text


@dataclass(frozen=True)
class Estimate:
    """A number with its Monte Carlo error.

    Attributes
    ----------
    value : float
        In the unit of its column; a share from 0 to 1 for a chance; NaN when it cannot be known.
    standard_error : float
        In the same unit; NaN when it cannot be known.
    low, high : float
        95% interval; NaN at a side that cannot be known.
    n : int
        Histories the value rests on: those that missed for a shortfall, the tail for its mean, else all.
    exact : bool
        Two or more histories, and every one gave the same value.
    kind : str
        ``"amount"`` or ``"chance"``.
    unit : str
        In words; three letters for money.

    Examples
    --------
    >>> print(Estimate(12345.6, 130.0, 12090.8, 12600.4, 10_000, unit="GBP"))
    12,400 GBP, give or take 300
    >>> print(Estimate(0.7243, 0.0014, 0.7215, 0.7271, 100_000, kind="chance"))
    72 in 100
    """

    value: float
    standard_error: float
    low: float
    high: float
    n: int
    exact: bool = False
    kind: Kind = "amount"
    unit: str = ""

    @classmethod
    def of(cls, found: Any, kind: Kind = "amount", unit: str = "") -> Estimate:
        """The Python twin of one of the engine's estimates."""
        return cls(found.value, found.standard_error, found.low, found.high, found.n, found.exact, kind, unit)

    @property
    def amount_text(self) -> str:
        """The value alone, to the digits it supports."""
        return rounded(self.value, 0.0 if self.exact else self.standard_error)

    @property
    def error_text(self) -> str:
        """Half the width of the 95% interval, to one step of the error; ``"exact"`` or ``"unknown"``."""
        if self.exact:
            return "exact"
        half = (self.high - self.low) / 2.0
        return "unknown" if math.isnan(half) or math.isnan(self.standard_error) else rounded_up(half)

    def complement(self) -> Estimate:
        """Of a chance or a share, that of the opposite."""
        return replace(self, value=1.0 - self.value, low=1.0 - self.high, high=1.0 - self.low)

    def __str__(self) -> str:
        if self.kind == "chance":
            from seasonrisk.words import chance_text

            return chance_text(self)
        unit = f" {self.unit}" if self.unit else ""
        if math.isnan(self.value):
            return "unknown"
        if self.exact:
            return f"{self.amount_text}{unit} exact"
        error = self.error_text
        return f"{self.amount_text}{unit}, " + (
            "how sure is unknown" if error == "unknown" else f"give or take {error}"
        )


def rounded_up(half_width: float) -> str:
    """Half the width of an interval, rounded up to one digit: never shown surer than it is.

    Examples
    --------
    >>> rounded_up(254.8), rounded_up(0.0028), rounded_up(0.0)
    ('300', '0.003', '0')
    """
    if half_width <= 0.0:
        return "0"
    power = math.floor(math.log10(half_width))
    digit = math.ceil(half_width / 10.0**power - 1e-9)
    if digit == 10:
        power, digit = power + 1, 1
    return f"{digit * 10.0**power:,.{max(0, -power)}f}"
