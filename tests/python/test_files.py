# SPDX-License-Identifier: MIT
"""Writing files. Source: the project's rule that nothing of the user's is lost and no file is left half written;
permissions as common practice has them (those of any new file; an old file keeps its own)."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from seasonrisk.files import same_file, write_file


@pytest.fixture(params=[0o022, 0o077], ids=oct)
def mask(request: pytest.FixtureRequest) -> Iterator[int]:
    before = os.umask(request.param)
    yield request.param
    os.umask(before)


def test_a_new_file_gets_the_permissions_of_any_new_file(tmp_path: Path, mask: int) -> None:
    write_file(tmp_path / "new", b"1")

    assert (tmp_path / "new").stat().st_mode & 0o777 == 0o666 & ~mask
    assert os.umask(mask) == mask  # left as it was


def test_a_file_written_over_keeps_its_permissions(tmp_path: Path) -> None:
    path = tmp_path / "private"
    path.write_bytes(b"old")
    path.chmod(0o600)

    write_file(path, b"new", overwrite=True)

    assert path.read_bytes() == b"new"
    assert path.stat().st_mode & 0o777 == 0o600


def test_a_stranger_with_the_name_of_an_earlier_temporary_file_is_no_hindrance(tmp_path: Path) -> None:
    stranger = tmp_path / f".seasonrisk-{os.getpid()}.part"  # left behind by a process of the same number
    stranger.write_bytes(b"of somebody else")

    write_file(tmp_path / "new", b"1")

    assert stranger.read_bytes() == b"of somebody else"
    assert sorted(path.name for path in tmp_path.iterdir()) == [stranger.name, "new"]


def test_a_link_stays_a_link_and_the_file_behind_it_is_written(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    (tmp_path / "far/file").write_bytes(b"old")
    (tmp_path / "link").symlink_to(tmp_path / "far/file")

    write_file(tmp_path / "link", b"new", overwrite=True)

    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "far/file").read_bytes() == b"new"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["far", "link"]


@pytest.mark.parametrize("overwrite", [True, False])
def test_a_failure_leaves_what_was_there_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, overwrite: bool
) -> None:
    def fail(*_: object) -> None:
        raise OSError("disk full")

    path = tmp_path / "file"
    if overwrite:
        path.write_bytes(b"old")
    monkeypatch.setattr(os, "replace", fail)
    with pytest.raises(OSError, match="disk full"):
        write_file(path, b"new", overwrite=overwrite)

    assert [(p.name, p.read_bytes()) for p in tmp_path.iterdir()] == ([("file", b"old")] if overwrite else [])


def test_one_file_is_known_by_all_its_names(tmp_path: Path) -> None:
    file = tmp_path / "file"
    file.touch()
    os.link(file, tmp_path / "second name")

    assert same_file(file, tmp_path / "second name")
    assert same_file(tmp_path / "not there", tmp_path / "." / "not there")
    assert not same_file(file, tmp_path / "not there")
