# SPDX-License-Identifier: MIT
"""Numbers of a plan that a question moves: one key, several by one factor, several along a line, or the last day."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from seasonrisk import _core
from seasonrisk.choice.input_names import DAYS, NAMES, name_of, nearest, unit_of
from seasonrisk.estimate import Estimate, rounded
from seasonrisk.plan import Plan
from seasonrisk.values import EventSize, Guess, Value, number_as_typed
from seasonrisk.words import counted, day_text

__all__ = ["Input", "LastDay", "Together", "What", "digits", "input_of"]

What: TypeAlias = "str | Sequence[str] | Mapping[str, tuple[float, float]]"

FURTHEST = 5.0  # left to itself a search goes from a fifth of what the plan has to five times that
N_GRID = 9
NUDGE = 1e-9  # how near to a bound that is not itself allowed


@dataclass(frozen=True)
class Input:
    """What is moved, and how a plan is made for each of its values.

    Attributes
    ----------
    what : str
        In words, such as ``"outlet.0.price.crab (usual price paid)"``.
    unit : str
        Of its values; empty for a factor.
    in_plan : float
        The value at which the plan is as it stands.
    grid : tuple of float
        Values to look at first, rising; the ends are the range.
    step : float
        1 for whole numbers, else 0.
    """

    plan: Plan
    what: str
    unit: str
    in_plan: float
    grid: tuple[float, ...]
    step: float = 0.0

    def changes(self, value: float) -> dict[str, Value]:
        """What is set in the plan at this value."""
        raise NotImplementedError

    def plan_at(self, value: float) -> Plan:
        """The plan with the number moved: a choice, so that crowding and usual landings stay those of the plan."""
        return self.plan.choose(self.changes(value))

    def number(self, value: float, error: float = 0.0) -> str:
        """A value alone, with no digit more than its error supports."""
        return digits(value, error)

    def text(self, value: float, error: float = 0.0) -> str:
        """A value with its unit."""
        return f"{self.number(value, error)} {self.unit}".rstrip()

    def reach(self, at: str, *, rising: bool) -> str:
        """On which side of a value the target is reached, as a part of a sentence."""
        return f"from {at} upwards" if rising else f"up to {at}"

    @property
    def plan_text(self) -> str:
        """What the plan has, as a part of a sentence."""
        return f"the plan has {self.text(self.in_plan)}"

    def room(self, found: Estimate, *, rising: bool) -> str:
        """How far the plan's value is from the one found, as a part of a sentence."""
        here = self.in_plan
        can = "can" if (here > found.value) == rising else "must"
        way = "fall" if here > found.value else "rise"
        if here == 0.0:
            return f"it {can} {way} by {self.text(abs(found.value), found.standard_error)}"
        part, error = 100.0 * abs(found.value / here - 1.0), 100.0 * abs(found.standard_error / here)
        return f"it {can} {way} by {rounded(part, max(error, 1.0 if part >= 10.0 else 0.1))} in 100"


@dataclass(frozen=True)
class OneNumber(Input):
    """One key. A guess is moved as a whole, its three points by one factor; its value is the typical one."""

    path: str = ""

    def changes(self, value: float) -> dict[str, Value]:
        return {self.path: _moved(self.plan.numbers[self.path], value, self.in_plan)}


@dataclass(frozen=True)
class Together(Input):
    """Several keys, all multiplied by one factor."""

    paths: tuple[str, ...] = ()

    def changes(self, value: float) -> dict[str, Value]:
        return {path: _times(self.plan.numbers[path], value) for path in self.paths}

    def text(self, value: float, error: float = 0.0) -> str:
        return f"{self.number(value, error)} times what the plan has"

    @property
    def plan_text(self) -> str:
        return "the plan itself is at 1"

    def each(self) -> list[tuple[str, float]]:
        """Name of each number moved, and what the plan has: of a guess the typical value."""
        return [(name_of(self.plan, path), _typical(self.plan.numbers[path])) for path in self.paths]


@dataclass(frozen=True)
class AlongLine(Input):
    """Several keys, each from its first value (0) to its second (1)."""

    ends: tuple[tuple[str, float, float], ...] = ()

    def changes(self, value: float) -> dict[str, Value]:
        return {path: start + value * (end - start) for path, start, end in self.ends}

    def text(self, value: float, error: float = 0.0) -> str:
        at = ", ".join(f"{path} = {digits(start + value * (end - start), error * abs(end - start))}" for path, start, end in self.ends)
        return f"{self.number(value, error)} of the way ({at})"

    @property
    def plan_text(self) -> str:
        return "0 is " + ", ".join(f"{path} = {digits(start)}" for path, start, _ in self.ends)

    def room(self, found: Estimate, *, rising: bool) -> str:
        return "the plan itself may lie beside this line"


@dataclass(frozen=True)
class LastDay(Input):
    """The last day of fishing, as calendar days from the season's start: the season stops early, whole days."""

    start: dt.date = dt.date.min

    def changes(self, value: float) -> dict[str, Value]:
        return {"season.stop_on": self.day(value)}

    def day(self, value: float) -> dt.date:
        """The last day of a season of so many calendar days."""
        return self.start + dt.timedelta(days=round(value) - 1)

    def number(self, value: float, error: float = 0.0) -> str:
        return day_text(self.day(value))

    def reach(self, at: str, *, rising: bool) -> str:
        return f"on {at} or {'later' if rising else 'earlier'}"

    def text(self, value: float, error: float = 0.0) -> str:
        return self.number(value)

    def room(self, found: Estimate, *, rising: bool) -> str:
        days = counted(abs(round(found.value - self.in_plan)), "day")
        can = "can" if (self.in_plan > found.value) == rising else "must"
        return f"fishing {can} end {days} {'earlier' if self.in_plan > found.value else 'later'}"


def input_of(plan: Plan, what: What, between: tuple[float, float] | None) -> Input:
    """What ``what`` stands for in this plan.

    Parameters
    ----------
    plan : Plan
    what : str, sequence of str, or mapping of str to (float, float)
        A key path or one of `NAMES` or ``"days"``; several of them; or key paths with values at 0 and at 1.
    between : (float, float), optional
        Range to search: in the unit of the key, as a factor, or along the line.

    Raises
    ------
    KeyError
        For a key path that the plan does not have.
    ValueError
        For what cannot be moved, or a range outside the allowed one.
    """
    if isinstance(what, Mapping):
        return _along_line(plan, what, between)
    if what == DAYS:
        return _last_day(plan, between)
    names = (what,) if isinstance(what, str) else tuple(what)
    if not names or not all(isinstance(name, str) for name in names):
        raise ValueError(f"what={what!r}: must be a key path, several, or one of {', '.join([*NAMES, DAYS])}")
    if DAYS in names:
        raise ValueError(f"what={what!r}: days move in whole days and cannot be moved together with others")
    paths = tuple(dict.fromkeys(path for name in names for path in _paths_of(plan, name)))
    called = " and ".join(names)
    if len(paths) == 1:
        return _one_number(plan, paths[0], called, between)
    return _together(plan, paths, called, between)


def _paths_of(plan: Plan, name: str) -> list[str]:
    if name in NAMES:
        found = [path for path in plan.numbers if re.fullmatch(NAMES[name], path)]
        if not found:
            raise ValueError(f"what={name!r}: the plan has no number of that kind")
        return found
    if name not in plan:
        raise KeyError(f"what={name}: is no key of the plan, nor one of {', '.join([*NAMES, DAYS])}{nearest(plan, name)}")
    if name not in plan.numbers:
        raise ValueError(f"what={name!r}: is not a number; a number, or one of {', '.join([*NAMES, DAYS])}, can be moved")
    return [name]


def _one_number(plan: Plan, path: str, called: str, between: tuple[float, float] | None) -> Input:
    entry = next(e for e in plan.entries if e.path == path)
    value = plan.numbers[path]
    typical = _typical(value)
    whole = entry.whole and not isinstance(value, EventSize)
    if whole and isinstance(value, Guess):
        raise ValueError(f"what={path!r}: a guess of a whole number cannot be moved; put one number there first")
    low, high = _range(path, value, entry, between)
    grid = _grid(low, high, typical, by_factor=between is None, whole=whole)
    unit = unit_of(plan, path, entry.unit)
    label = f"{path} ({entry.meaning})" if called == path else f"{called}, {path}"
    return OneNumber(plan, label, unit, typical, grid, 1.0 if whole else 0.0, path)


def _range(path: str, value: float | Guess | EventSize, entry: _core.PlanValue, between: tuple[float, float] | None) -> tuple[float, float]:
    """The range to search, inside what the rule book allows; a guess must not reach a bound with any of its points."""
    typical = _typical(value)
    points = (value.low, value.typical, value.high) if isinstance(value, Guess | EventSize) else (typical,)
    if typical == 0.0 and (between is None or len(points) > 1):
        raise ValueError(f"between={between!r}: the plan has 0 at {path}, so a range to search must be given, and one number there")
    lowest, highest = entry.lowest, entry.highest
    if entry.lowest_open or len(points) > 1:
        lowest += NUDGE * max(abs(typical), abs(lowest))
    if entry.highest_open or len(points) > 1:
        highest -= NUDGE * max(abs(typical), abs(highest))
    if len(points) > 1:  # the factor by which all three may be multiplied: none passes a bound, none changes sign
        most = min((highest if point > 0.0 else lowest) / point for point in points if point != 0.0)
        least = max([NUDGE, *(lowest / point for point in points if point > 0.0 and lowest > 0.0)])
        lowest, highest = sorted((typical * least, typical * most))
    low, high = sorted((typical / FURTHEST, typical * FURTHEST)) if between is None else _pair(between)
    if between is not None and not lowest <= low < high <= highest:
        # What only keeps off a bound that is not itself allowed is told as that bound.
        least_text = "above 0, up to" if 0.0 < lowest < 10.0 * NUDGE * max(1.0, abs(typical)) else f"from {digits(lowest)} to"
        raise ValueError(f"between={between!r}: must lie {least_text} {digits(highest)}, what {path} may be")
    return max(low, lowest), min(high, highest)


def _together(plan: Plan, paths: tuple[str, ...], called: str, between: tuple[float, float] | None) -> Input:
    low, high = (1.0 / FURTHEST, FURTHEST) if between is None else _pair(between)
    if low < 0.0:
        raise ValueError(f"between={between!r}: a factor must not be below 0")
    for path in paths:
        entry, value = next(e for e in plan.entries if e.path == path), plan.numbers[path]
        if _typical(value) == 0.0:
            continue
        least, most = (end / _typical(value) for end in sorted(_range(path, value, entry, None), key=abs))
        if between is not None and ((low < least * (1.0 - 1e-9) and least > 1.0 / FURTHEST) or (high > most * (1.0 + 1e-9) and most < FURTHEST)):
            raise ValueError(f"between={between!r}: {path} can be multiplied by {least:.4g} to {most:.4g}")
        if between is None:
            low, high = max(low, least), min(high, most)
    return Together(plan, called, "", 1.0, _grid(low, high, 1.0, by_factor=between is None, whole=False), 0.0, paths)


def _along_line(plan: Plan, ends: Mapping[str, tuple[float, float]], between: tuple[float, float] | None) -> Input:
    if not ends:
        raise ValueError(f"what={ends!r}: names no key path")
    for path in ends:
        _paths_of(plan, path)
    low, high = (0.0, 1.0) if between is None else _pair(between)
    lines = tuple((path, *_pair(pair, rising=False)) for path, pair in ends.items())
    path, start, end = next((line for line in lines if line[1] != line[2]), lines[0])
    if start == end:
        raise ValueError(f"what={ends!r}: nothing moves along this line")
    there = (_typical(plan.numbers[path]) - start) / (end - start)
    return AlongLine(plan, "the way along the line", "", there, _grid(low, high, there, by_factor=False, whole=False), 0.0, lines)


def _last_day(plan: Plan, between: tuple[float, float] | None) -> Input:
    if between is not None:
        raise ValueError("between: cannot be given for days; every last day of the season is in range")
    start = plan.date("season.start")
    n_days, in_plan = ((day - start).days + 1 for day in (plan.date("season.end"), plan.last_day))
    gear_in = max(1, math.ceil(_highest(plan.numbers.get("ending.gear_in_days", 0.0))))
    grid = _grid(min(gear_in, n_days - 1), n_days, in_plan, by_factor=False, whole=True)
    return LastDay(plan, "the last day of fishing", "days", float(in_plan), grid, 1.0, start)


def _grid(low: float, high: float, in_plan: float, *, by_factor: bool, whole: bool) -> tuple[float, ...]:
    """Values to look at first, the plan's own among them when it is in range."""
    spaced = in_plan * np.geomspace(low / in_plan, high / in_plan, N_GRID) if by_factor else np.linspace(low, high, N_GRID)
    inner = {float(value) for value in spaced[1:-1]}
    if whole:
        low, high = math.ceil(low - 1e-9), math.floor(high + 1e-9)
        inner = {float(round(value)) for value in inner}
    if low < in_plan < high:
        nearest = min(inner, key=lambda value: abs(value - in_plan))
        inner = (inner - {nearest}) | {in_plan}
    grid = tuple(sorted({float(low), float(high)} | {value for value in inner if low < value < high}))
    if len(grid) < 2:
        raise ValueError(f"between=({low:g}, {high:g}): holds no two values to compare")
    return grid


def _pair(pair: tuple[float, float], *, rising: bool = True) -> tuple[float, float]:
    try:
        low, high = (float(value) for value in pair)
    except (TypeError, ValueError):
        raise ValueError(f"between={pair!r}: must be two numbers") from None
    if not (math.isfinite(low) and math.isfinite(high)) or (rising and low >= high):
        raise ValueError(f"between={pair!r}: must be two finite numbers" + (", the lower first" if rising else ""))
    return low, high


def _typical(value: float | Guess | EventSize) -> float:
    return value.typical if isinstance(value, Guess | EventSize) else value


def _highest(value: float | Guess | EventSize) -> float:
    return value.high if isinstance(value, Guess | EventSize) else value


def _times(value: float | Guess | EventSize, factor: float) -> Value:
    if isinstance(value, Guess | EventSize):
        return type(value)(value.low * factor, value.typical * factor, value.high * factor)
    return value * factor


def _moved(value: float | Guess | EventSize, typical: float, in_plan: float) -> Value:
    return _times(value, typical / in_plan) if isinstance(value, Guess | EventSize) else typical


def digits(value: float, error: float = 0.0) -> str:
    """A value to the digits its error supports; without error to six digits."""
    return rounded(value, error) if error > 0.0 else number_as_typed(float(f"{value:.6g}"))
