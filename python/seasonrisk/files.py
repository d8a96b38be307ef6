# SPDX-License-Identifier: MIT
"""Writing files so that nothing of the user's is lost: never over a file unless told, and never half."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

__all__ = ["require_writable", "write_file"]


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
    folder = path.parent
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


def write_file(path: str | Path, data: bytes, *, overwrite: bool = False) -> None:
    """Write all of ``data`` or nothing: to a new file beside it first, which then takes its name."""
    require_writable(path, overwrite=overwrite)
    path = Path(path)
    part = path.with_name(f".seasonrisk-{os.getpid()}.part")
    try:
        with part.open("xb") as file:
            file.write(data)
        if not overwrite:
            path.touch(exist_ok=False)  # fails, unlike a rename, when the file has come into being meanwhile
        os.replace(part, path.resolve())
    except BaseException:
        part.unlink(missing_ok=True)
        raise
