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
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from seasonrisk.files import write_file
from seasonrisk.plan import Changes, Plan

if TYPE_CHECKING:
    from seasonrisk.run import Run

__all__ = ["load", "save"]

FORMAT = 1


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
    from seasonrisk.run import Column, Run, RunFacts

    with Path(path).open("rb") as opened:
        if not zipfile.is_zipfile(opened):
            raise ValueError(f"{path}: is no saved run")
    try:
        with np.load(path, allow_pickle=False) as file:
            header = json.loads(str(file["header"]))
            if header["seasonrisk_run"] > FORMAT:
                raise ValueError(f"{path}: is of format {header['seasonrisk_run']}; this version reads up to {FORMAT}")
            columns = {Column(**column): file[f"column_{c}"] for c, column in enumerate(header["columns"])}
            saved, facts = header["plan"], RunFacts(**header["facts"])
    except (KeyError, TypeError, zipfile.BadZipFile, json.JSONDecodeError) as error:
        raise ValueError(f"{path}: is no saved run") from error
    for values in columns.values():
        values.setflags(write=False)
    plan = Plan(
        base64.b64decode(saved["bytes_base64"]),
        saved["source"],
        _changes(saved["own"]),
        _changes(saved["chosen"]),
    )
    return Run(plan, columns, facts)


def _changes(pairs: list[list[str]]) -> Changes:
    return tuple((path, value) for path, value in pairs)
