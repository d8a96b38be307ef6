# SPDX-License-Identifier: MIT
"""Writing files so that nothing of the user's is lost: never over a file unless told, and never half."""

from __future__ import annotations

import os
import stat
import tempfile
from pathlib import Path

__all__ = ["require_writable", "same_file", "write_file"]


def require_writable(path: str | Path, *, overwrite: bool) -> None:
    """Tell now, before a long run, what would keep `write_file` from writing.

    Raises
    ------
    FileExistsError
        When the file is there and ``overwrite`` is not given.
    OSError
        When the folder is missing or cannot be written to.
    """
    path = Path(path)
    folder = path.resolve().parent  # a link may lead to another folder
    if path.is_dir():
        raise IsADirectoryError(f"{path} is a folder: name a file in it")
    if path.exists() and not overwrite:
        raise FileExistsError(f"{path} is there already: choose another name, or say overwrite")
    if not folder.is_dir():
        raise FileNotFoundError(f"{path}: there is no folder {folder}")
    try:  # by trying: what a folder's permissions say is not all that can forbid it
        handle, name = tempfile.mkstemp(dir=folder, prefix=".seasonrisk-")
    except OSError as error:
        raise PermissionError(f"{path}: the folder {folder} cannot be written to ({error.strerror})") from error
    os.close(handle)
    os.unlink(name)


def same_file(one: str | Path, other: str | Path) -> bool:
    """Whether two paths lead to one file, by links too; of files that are not there yet, whether they would."""
    one, other = Path(one), Path(other)
    if one.exists() and other.exists():
        return one.samefile(other)
    return one.resolve() == other.resolve()


def write_file(path: str | Path, data: bytes, *, overwrite: bool = False) -> None:
    """Write all of ``data`` or nothing: to a new file beside it first, which then takes its name.

    A new file gets the permissions that any new file gets here; one that is written over keeps its own.
    """
    require_writable(path, overwrite=overwrite)
    target = Path(path).resolve()  # through a link, to the file it leads to
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".seasonrisk-", suffix=".part")
    part, taken = Path(name), False
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        part.chmod(_permissions(target))
        if not overwrite:
            target.touch(exist_ok=False)  # fails, unlike a rename, when the file has come into being meanwhile
            taken = True
        os.replace(part, target)
    except BaseException:
        part.unlink(missing_ok=True)
        if taken:
            target.unlink(missing_ok=True)
        raise


def _permissions(target: Path) -> int:
    if target.exists():
        return stat.S_IMODE(target.stat().st_mode)
    mask = os.umask(0o077)  # it can only be read by setting it
    os.umask(mask)
    return 0o666 & ~mask
