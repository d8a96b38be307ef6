# SPDX-License-Identifier: MIT
"""Saved runs that were damaged. Source: the written promise of `Run.load` (ValueError when a file is no saved run)."""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr

Damage = Callable[[dict[str, Any], dict[str, Any]], object]


@pytest.fixture(scope="module")
def whole(plan: sr.Plan, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    path = tmp_path_factory.mktemp("store") / "run.npz"
    sr.simulate(plan, histories=20, key=1, keep=["household", "sales"]).save(path)
    return path.read_bytes()


def damaged(whole: bytes, damage: Damage) -> bytes:
    with np.load(io.BytesIO(whole)) as file:
        arrays = dict(file)
    header = json.loads(str(arrays.pop("header")))
    damage(header, arrays)
    out = io.BytesIO()
    np.savez(out, header=np.array(json.dumps(header)), **arrays)
    return out.getvalue()


@pytest.mark.parametrize(
    ("damage", "says"),
    [
        (lambda h, a: h.pop("seasonrisk_run"), "seasonrisk_run is missing"),
        (lambda h, a: h.pop("plan"), "plan is missing"),
        (lambda h, a: h.pop("facts"), "facts is missing"),
        (lambda h, a: h.pop("columns"), "columns is missing"),
        (lambda h, a: h.update(seasonrisk_run="one"), "seasonrisk_run is not what it should be: 'one'"),
        (lambda h, a: h.update(seasonrisk_run=True), "seasonrisk_run is not what it should be: True"),
        (lambda h, a: h.update(plan="text"), "plan is not what it should be"),
        (lambda h, a: h["plan"].update(bytes_base64="*"), "base64"),
        (lambda h, a: h["plan"].update(bytes_base64=7), "plan.bytes_base64 is not"),
        (lambda h, a: h["plan"].update(source=None), "plan.source is not"),
        (lambda h, a: h["plan"].pop("own"), "own is missing"),
        (lambda h, a: h["plan"].update(own=[["a"]]), "plan.own is not"),
        (lambda h, a: h["plan"].update(chosen=[[1, 2]]), "plan.chosen is not"),
        (lambda h, a: h["plan"].update(chosen="ab"), "plan.chosen is not what it should be: 'ab'"),
        (lambda h, a: h.update(facts=[]), "facts is not what it should be"),
        (lambda h, a: h["facts"].pop("key"), "facts must hold key, histories_asked"),
        (lambda h, a: h["facts"].update(key="1"), "facts.key is not"),
        (lambda h, a: h["facts"].update(histories_asked=None), "facts.histories_asked is not"),
        (lambda h, a: h["facts"].update(histories_asked=5), "hold 20 histories, and 5 were asked for"),
        (lambda h, a: h.update(columns={}), "columns is not what it should be"),
        (lambda h, a: h.update(columns=[]), "one or more"),
        (lambda h, a: h.update(columns=["sales"]), r"columns\.0 is not"),
        (lambda h, a: h["columns"][0].pop("unit"), r"columns\.0 must hold name, unit, meaning"),
        (lambda h, a: h["columns"][0].update(name=1), r"columns\.0\.name is not"),
        (lambda h, a: h["columns"][0].update(name="sales"), "of different names"),
        (lambda h, a: a.pop("column_1"), "column_1 is missing"),
        (lambda h, a: a.update(column_1=a["column_1"][:-1]), "of one length"),
        (lambda h, a: a.update(column_1=a["column_1"].astype(np.float32)), "8 bytes, not float32"),
        (lambda h, a: a.update(column_1=a["column_1"].reshape(2, 10)), "float64 of shape"),
        (lambda h, a: a.update(column_1=np.array("text")), "8 bytes, not <U4"),
        (lambda h, a: a.update(column_0=np.array([]), column_1=np.array([])), "column_0 must be one row of numbers"),
    ],
)  # fmt: skip
def test_a_damaged_run_is_told_with_what_is_wrong(whole: bytes, tmp_path: Path, damage: Damage, says: str) -> None:
    path = tmp_path / "run.npz"
    path.write_bytes(damaged(whole, damage))

    with pytest.raises(ValueError, match=says) as told:
        sr.Run.load(path)
    assert str(told.value).startswith(f"{path}: is no saved run, or a damaged one: ")


def test_the_damage_is_what_is_refused(whole: bytes, tmp_path: Path) -> None:
    """Control: the same file written by the same way and not damaged is read."""
    path = tmp_path / "run.npz"
    path.write_bytes(damaged(whole, lambda header, arrays: None))

    assert sr.Run.load(path).histories == 20


def test_a_file_cut_short_or_with_wrong_bytes_never_ends_in_another_error(whole: bytes, tmp_path: Path) -> None:
    """Every 97th length, and a byte turned over at every 41st place; each part of a zip file has a check sum."""
    path = tmp_path / "run.npz"
    spoilt = [whole[:n] for n in range(0, len(whole), 97)]
    spoilt += [whole[:n] + bytes([whole[n] ^ 0xFF]) + whole[n + 1 :] for n in range(0, len(whole), 41)]
    refused = 0
    for content in spoilt:
        path.write_bytes(content)
        try:
            sr.Run.load(path)
        except ValueError:
            refused += 1

    assert refused > 0.95 * len(spoilt)


def test_a_run_of_a_later_format_is_not_called_damaged(whole: bytes, tmp_path: Path) -> None:
    path = tmp_path / "run.npz"
    path.write_bytes(damaged(whole, lambda header, arrays: header.update(seasonrisk_run=2)))

    with pytest.raises(ValueError, match="is of format 2; this version reads up to 1") as told:
        sr.Run.load(path)
    assert "damaged" not in str(told.value)


def test_a_file_that_is_not_there_is_an_os_error(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        sr.Run.load(tmp_path / "nothing.npz")
