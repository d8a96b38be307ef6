# SPDX-License-Identifier: MIT
"""Changing values in the text of a plan with its comments, order and spacing kept. Needs tomlkit."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from seasonrisk import _core
from seasonrisk.errors import Error, missing_extra

__all__ = ["edited"]


def edited(data: bytes, changes: Iterable[tuple[str, str]]) -> bytes:
    """The text of a plan with values changed.

    Parameters
    ----------
    data : bytes
        Text of a plan, UTF-8.
    changes : iterable of (path, value)
        Key paths and their new values as TOML, made in order.

    Raises
    ------
    MissingExtra
        When tomlkit is not installed.
    Error
        When a change cannot be written there, such as at a key with a point in its name.
    """
    try:
        import tomlkit
    except ImportError as error:
        missing_extra("tomlkit", "edit", "Writing a changed plan with its comments kept", error)
    changes = list(changes)
    document = tomlkit.parse(data.decode("utf-8").removeprefix("\ufeff"))
    for path, value in changes:
        try:
            if value:
                _set(document, path.split("."), tomlkit.value(value))
            else:
                _take_out(document, path.split("."))
        except (LookupError, TypeError, ValueError) as error:
            raise Error(f"path={path}: {value} cannot be written there; change the file by hand") from error
    text = tomlkit.dumps(document).encode("utf-8")
    _require_same_plan(data, changes, text)
    return text


def _set(at: Any, steps: list[str], value: Any) -> None:
    *way, last = steps
    for step in way:
        if isinstance(at, list):
            at = at[int(step)]
        elif last == "+" and step is way[-1] and step not in at:
            at[step] = at = _list_of_tables()
        else:
            at = at.setdefault(step, {})
    if last == "+":
        at.append(_as_section(value))
    else:
        at[int(last) if isinstance(at, list) else last] = value


def _list_of_tables() -> Any:
    import tomlkit

    return tomlkit.aot()


def _as_section(value: Any) -> Any:
    """An inline table as a section of its own, the way entries of a plan's lists are written."""
    import tomlkit

    section = tomlkit.table()
    for key, inner in value.items():
        if isinstance(inner, list) and inner and all(isinstance(each, dict) for each in inner) and key != "day_costs":
            tables = _list_of_tables()
            for each in inner:
                tables.append(_as_section(each))
            section.append(key, tables)
        else:
            section.append(key, inner)
    return section


def _take_out(at: Any, steps: list[str]) -> None:
    *way, last = steps
    for step in way:
        at = at[int(step)] if isinstance(at, list) else at[step]
    del at[int(last) if isinstance(at, list) else last]


def _require_same_plan(data: bytes, changes: list[tuple[str, str]], text: bytes) -> None:
    """The edited text must say what the changed plan says, or nothing is written."""
    meant, written = _core.read_plan(data, "plan", changes), _core.read_plan(text, "plan", [])
    # Two plans with problems may look alike for all that could not be read of them.
    if not (meant.ok and written.ok) or written.plan.on_its_own() != meant.plan.on_its_own():
        paths = ", ".join(path for path, _ in changes)
        raise Error(f"{paths}: could not be written into the text of the plan; change the file by hand")
