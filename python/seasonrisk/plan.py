# SPDX-License-Identifier: MIT
"""The plan: all that the owner tells, read from one TOML file and never changed in place.

`Plan.read` a file or `Plan.parse` a text; look at numbers with ``plan["boat.0.fishery.0.count"]`` and at the whole
with `Plan.describe`; make another plan with `Plan.replace`, or a *choice* with `Plan.choose`; keep it with
`Plan.write`.
"""

from __future__ import annotations

import datetime as dt
import difflib
from collections.abc import Mapping
from functools import cached_property
from pathlib import Path
from types import MappingProxyType
from typing import TypeAlias

from seasonrisk import _core
from seasonrisk.errors import Finding, PlanError
from seasonrisk.values import EventSize, Guess, Source, Value, toml_text
from seasonrisk.words import counted

__all__ = ["Plan"]

Changes: TypeAlias = tuple[tuple[str, str], ...]


class Plan:
    """A sound plan. Made by `read`, `parse`, `replace` and `choose`; equal when all their values are equal.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> plan["boat.0.fishery.0.count"]
    420.0
    >>> plan.replace({"boat.0.fishery.0.count": 500})["boat.0.fishery.0.count"]
    500.0
    """

    def __init__(self, data: bytes, source: str, own: Changes = (), chosen: Changes = ()) -> None:
        """Read ``data``, make the changes ``own``, then those of a choice. `read` and `parse` are easier."""
        self._data, self._source, self._own, self._chosen = data, source, own, chosen
        reading = _sound(data, source, own)
        self._core = reading.plan.on_its_own()
        if chosen:
            base, reading = self._core, _sound(data, source, own + chosen)
            self._core = reading.plan.beside(base)
        self._findings = tuple(Finding.of(found) for found in reading.findings)

    # ------------------------------------------------------------------------------------------------ made from
    @classmethod
    def read(cls, path: str | Path) -> Plan:
        """Read a plan file.

        Raises
        ------
        PlanError
            With every problem, each with its line.
        OSError
            When the file cannot be read.
        """
        return cls(Path(path).read_bytes(), str(path))

    @classmethod
    def parse(cls, text: str | bytes, name: str = "plan") -> Plan:
        """Read a plan from text; ``name`` stands for the file in messages.

        Raises
        ------
        PlanError
            With every problem, each with its line.
        """
        return cls(text.encode("utf-8") if isinstance(text, str) else bytes(text), name)

    def replace(self, values: Mapping[str, Value | None]) -> Plan:
        """Another plan, with other values at some key paths: a plan of its own, not a choice made from this one.

        Parameters
        ----------
        values : mapping of str to value
            Key paths such as ``"boat.0.fishery.0.count"`` and their new values, in the unit of the key: numbers,
            words, dates, `Guess`, `EventSize`, lists or tables. A path that ends in ``.+`` adds an entry to a list
            (``"loan.+": {...}``); None takes the entry at the path out.

        Raises
        ------
        PlanError
            When the changed plan has problems.
        """
        return Plan(self._data, self._source, self.changes + _changes(values))

    def choose(self, choice: str | Mapping[str, Value | None]) -> Plan:
        """The plan with a choice made: what the choice sets is set, and the plan remembers how many pots it had before.

        Crowding on the ground is then counted against those pots, which is what makes "a hundred more pots" fish
        less than pro rata.

        Parameters
        ----------
        choice : str or mapping
            Name of a ``[[choice]]`` of the plan, or values by key path as in `replace`.

        Raises
        ------
        KeyError
            When the plan has no choice of that name.
        PlanError
            When the plan with this choice has problems.
        """
        if not isinstance(choice, str):
            return Plan(self._data, self._source, self._own, self._chosen + _changes(choice))
        if choice not in self.choices:
            raise KeyError(f"choice={choice}: the plan has no such choice; it has {', '.join(self.choices) or 'none'}")
        made = _core.changes_of_choice(self._data, choice)
        return Plan(self._data, self._source, self._own, self._chosen + tuple(made))

    def under(self, stress: str) -> Plan:
        """The plan under one of its own stresses: what the ``[[stress]]`` sets is set, as a choice sets it.

        Parameters
        ----------
        stress : str
            Name of a ``[[stress]]`` of the plan.

        Raises
        ------
        KeyError
            When the plan has no stress of that name.
        PlanError
            When the plan under this stress has problems.
        """
        if stress not in self.stresses:
            raise KeyError(f"stress={stress}: the plan has no such stress; it has {', '.join(self.stresses) or 'none'}")
        made = _core.changes_of_stress(self._data, stress)
        return Plan(self._data, self._source, self._own, self._chosen + tuple(made))

    # ------------------------------------------------------------------------------------------------ looked at
    @property
    def text(self) -> str:
        """The text it was read from, without `changes`."""
        return self._data.decode("utf-8")

    @property
    def source(self) -> str:
        """The file it was read from, or the name given to `parse`."""
        return self._source

    @property
    def changes(self) -> Changes:
        """What was changed since, as pairs of key path and TOML value, in order."""
        return self._own + self._chosen

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Warnings of the rule book, by line."""
        return self._findings

    @cached_property
    def entries(self) -> tuple[_core.PlanValue, ...]:
        """Every key that has a value, defaults included, with its unit, range and meaning, in the plan's order."""
        return tuple(self._core.values())

    @cached_property
    def numbers(self) -> Mapping[str, float | Guess | EventSize]:
        """Every number by key path, defaults included, in the unit of its key."""
        found: dict[str, float | Guess | EventSize] = {}
        for entry in self.entries:
            if isinstance(entry.value, tuple):
                found[entry.path] = EventSize(*entry.value) if entry.kind == "size" else Guess(*entry.value)
            elif entry.kind in ("number", "size"):
                found[entry.path] = entry.value
        return MappingProxyType(found)

    @property
    def choices(self) -> tuple[str, ...]:
        """Names of the choices written in the plan."""
        return self._names("choice")

    @property
    def stresses(self) -> tuple[str, ...]:
        """Names of the stresses written in the plan; see `under`."""
        return self._names("stress")

    def _names(self, section: str) -> tuple[str, ...]:
        is_name = [entry for entry in self.entries if entry.path.startswith(f"{section}.") and entry.path.endswith(".name")]
        return tuple(str(entry.value) for entry in is_name)

    @cached_property
    def sources(self) -> Mapping[str, Source]:
        """Where numbers came from, by the key path of a number or of a section, as ``[sources]`` tells it."""
        told = {
            entry.path.removeprefix("sources."): str(entry.value)
            for entry in self.entries
            if entry.path.startswith("sources.")
        }
        where = {path.removesuffix(".where"): value for path, value in told.items() if path.endswith(".where")}
        return MappingProxyType(
            {path: Source(value, where.get(path, "")) for path, value in told.items() if not path.endswith(".where")}
        )

    def source_of(self, path: str) -> Source | None:
        """Where the number at a key path came from: its own source, or that of the nearest section around it."""
        while path and path not in self.sources:
            path = path.rpartition(".")[0]
        return self.sources.get(path)

    @property
    def name(self) -> str:
        """Name of the business."""
        return str(self["business.name"])

    @property
    def money(self) -> str:
        """Three letters of its currency."""
        return str(self["business.money"])

    @cached_property
    def _values(self) -> dict[str, Value]:
        return {entry.path: entry.value for entry in self.entries} | dict(self.numbers)

    def __getitem__(self, path: str) -> Value:
        """The value at a key path; KeyError names the nearest."""
        if path in self._values:
            return self._values[path]
        near = difflib.get_close_matches(path, self._values, n=1)
        raise KeyError(f"path={path}: the plan has no value there" + (f"; did you mean {near[0]}?" if near else ""))

    def __contains__(self, path: object) -> bool:
        return path in self._values

    def date(self, path: str) -> dt.date:
        """The day at a key path; TypeError when something else stands there."""
        value = self[path]
        if not isinstance(value, dt.date):
            raise TypeError(f"path={path}: holds no day")
        return value

    @property
    def last_day(self) -> dt.date:
        """Last day of fishing: ``season.stop_on``, or the season's end."""
        return self.date("season.stop_on" if "season.stop_on" in self else "season.end")

    def describe(self) -> str:
        """The plan in sentences, with the means it implies, for the owner to check by eye."""
        from seasonrisk.describe import describe

        return describe(self)

    # ------------------------------------------------------------------------------------------------------ kept
    def write(self, path: str | Path, *, overwrite: bool = False) -> None:
        """Write the plan to a file: unchanged, the very bytes it was read from; changed, with its comments kept.

        A choice is written as a plan of its own: the file does not remember the pots of the plan before.

        Parameters
        ----------
        path : str or Path
        overwrite : bool
            Replace a file that is there.

        Raises
        ------
        FileExistsError
            When the file is there and ``overwrite`` is not given.
        MissingExtra
            When the plan is changed and tomlkit, which edits the text, is not installed.
        """
        from seasonrisk.edit import edited
        from seasonrisk.files import write_file

        data = edited(self._data, self.changes) if self.changes else self._data
        write_file(path, data, overwrite=overwrite)

    def __eq__(self, other: object) -> bool:
        return self._core == other._core if isinstance(other, Plan) else NotImplemented

    __hash__ = None  # type: ignore[assignment]  # equal plans may have different texts

    def __reduce__(self) -> tuple[type[Plan], tuple[bytes, str, Changes, Changes]]:
        return Plan, (self._data, self._source, self._own, self._chosen)

    def __repr__(self) -> str:
        changed = f", {counted(len(self.changes), 'change')}" if self.changes else ""
        return f"<Plan {self.name!r} from {self.source}{changed}>"


def _sound(data: bytes, source: str, changes: Changes) -> _core.PlanReading:
    reading = _core.read_plan(data, source, list(changes))
    if not reading.ok:
        raise PlanError(reading.findings)
    return reading


def _changes(values: Mapping[str, Value | None]) -> Changes:
    return tuple((path, "" if value is None else toml_text(value)) for path, value in values.items())
