# SPDX-License-Identifier: MIT
"""Keeping a run in a file.

Format 1 is a NumPy ``.npz`` file, no pickle, readable without this package: ``header`` is one JSON text with the
plan's text and changes, the key, versions, and for each column its name, unit and meaning; ``column_0``,
``column_1``, ... hold the values, float64, one per history. Every later version reads every earlier format.
"""

from __future__ import annotations

import base64
import dataclasses
import io
import json
import struct
import zipfile
import zlib
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, get_type_hints

import numpy as np
from numpy.typing import NDArray

from seasonrisk.errors import PlanError
from seasonrisk.files import write_file
from seasonrisk.plan import Changes, Plan

if TYPE_CHECKING:
    from seasonrisk.run import Run

__all__ = ["load", "save"]

FORMAT = 1
Made = TypeVar("Made")

# What NumPy, zip and JSON answer to a file that was cut short or written in by another hand.
READING_FAILS = (
    ArithmeticError, AttributeError, EOFError, LookupError, MemoryError, NotImplementedError, OSError, RuntimeError,
    SyntaxError, TypeError, ValueError, struct.error, zipfile.BadZipFile, zlib.error,
)  # fmt: skip


class _OfLaterFormat(ValueError):
    """Whole, and not to be read by this version."""


def save(run: Run, path: str | Path, *, overwrite: bool = False) -> None:
    """See `Run.save`."""
    data, source, own, chosen = run.plan.__reduce__()[1]
    header = {
        "seasonrisk_run": FORMAT,
        "plan": {
            "source": source,
            "bytes_base64": base64.b64encode(data).decode("ascii"),
            "own": own,
            "chosen": chosen,
        },
        "facts": dataclasses.asdict(run.facts),
        "columns": [dataclasses.asdict(run.column(name)) for name in run.columns],
    }
    arrays: dict[str, Any] = {f"column_{c}": run[name] for c, name in enumerate(run.columns)}
    buffer = io.BytesIO()
    np.savez(buffer, header=np.array(json.dumps(header, ensure_ascii=False)), **arrays)
    write_file(path, buffer.getvalue(), overwrite=overwrite)


def load(path: str | Path) -> Run:
    """See `Run.load`."""
    with Path(path).open("rb") as opened:  # ours to close: NumPy leaves its own open when it fails half way
        if not zipfile.is_zipfile(opened):
            raise ValueError(f"{path}: is no saved run")
        opened.seek(0)
        try:
            with np.load(opened, allow_pickle=False) as file:
                return _run_in(file)
        except _OfLaterFormat as error:
            raise ValueError(f"{path}: {error}") from None
        except PlanError:
            raise  # the run is whole; its plan is one that this version refuses, and says why
        except READING_FAILS as error:
            raise ValueError(f"{path}: is no saved run, or a damaged one: {_what(error)}") from error


def _run_in(file: Any) -> Run:
    """The run in an open ``.npz`` file; of a damaged one any of READING_FAILS."""
    from seasonrisk.run import Column, Run, RunFacts

    header = _of(dict, json.loads(str(_array(file, "header"))), "the header")
    version = _of(int, header["seasonrisk_run"], "seasonrisk_run")
    if version > FORMAT:
        raise _OfLaterFormat(f"is of format {version}; this version reads up to {FORMAT}")
    facts = _made(RunFacts, header["facts"], "facts")
    columns = {}
    for c, found in enumerate(_of(list, header["columns"], "columns")):
        columns[_made(Column, found, f"columns.{c}")] = _values(_array(file, f"column_{c}"), f"column_{c}")
    lengths = {len(values) for values in columns.values()}
    if len(lengths) != 1 or len({column.name for column in columns}) < len(header["columns"]):
        raise ValueError("its columns must be one or more, of different names and of one length")
    if max(lengths) > facts.histories_asked:
        raise ValueError(f"its columns hold {max(lengths):,} histories, and {facts.histories_asked:,} were asked for")
    return Run(_plan_in(_of(dict, header["plan"], "plan")), columns, facts)


def _array(file: Any, name: str) -> Any:
    if name not in file.files:
        raise ValueError(f"{name} is missing")
    return file[name]


def _made(kind: type[Made], found: Any, name: str) -> Made:
    """A dataclass from what the header holds for it: its very fields, each of its type."""
    fields = get_type_hints(kind)
    if _of(dict, found, name).keys() != fields.keys():
        raise ValueError(f"{name} must hold {', '.join(fields)}")
    for field, type_ in fields.items():
        _of((int, float) if type_ is float else type_, found[field], f"{name}.{field}")
    return kind(**found)


def _plan_in(saved: dict[str, Any]) -> Plan:
    return Plan(
        base64.b64decode(_of(str, saved["bytes_base64"], "plan.bytes_base64"), validate=True),
        _of(str, saved["source"], "plan.source"),
        _changes(saved["own"], "plan.own"),
        _changes(saved["chosen"], "plan.chosen"),
    )


def _changes(pairs: Any, name: str) -> Changes:
    made = []
    for pair in _of(list, pairs, name):
        if len(_of(list, pair, name)) != 2:
            raise ValueError(f"{name} is not what it should be: {pair!r:.60}")
        path, value = pair
        made.append((str(_of(str, path, name)), str(_of(str, value, name))))
    return tuple(made)


def _values(values: Any, name: str) -> NDArray[np.float64]:
    if values.dtype != np.float64 or values.ndim != 1 or not len(values):
        raise ValueError(f"{name} must be one row of numbers of 8 bytes, not {values.dtype} of shape {values.shape}")
    values.setflags(write=False)
    return np.asarray(values)


def _of(kind: Any, value: Any, name: str) -> Any:
    """The value, when it is of that kind; True is no number."""
    if not isinstance(value, kind) or isinstance(value, bool):
        raise ValueError(f"{name} is not what it should be: {value!r:.60}")
    return value


def _what(error: BaseException) -> str:
    return f"{error.args[0]} is missing" if isinstance(error, KeyError) and error.args else str(error)
