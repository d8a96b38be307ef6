# SPDX-License-Identifier: MIT
"""Files that a command is to write, looked at before anything is simulated."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from pathlib import Path
from typing import TypeAlias

from seasonrisk.files import require_writable, same_file

__all__ = ["Named", "require_files"]

#: An option of the command line, and the file it names; None when it was left out.
Named: TypeAlias = "tuple[str, Path | None]"


def require_files(plan: Path, files: Iterable[Named], *, pages: Iterable[Named] = (), overwrite: bool) -> None:
    """Tell now what would keep these files from being written.

    The plan, which is the owner's work, is never written over, not even when ``overwrite`` is given.

    Parameters
    ----------
    plan : Path
    files, pages : iterable of (str, Path or None)
        Pages are written as HTML or PDF, and what that needs is looked at too.
    overwrite : bool
        Whether files that are there may be written over.

    Raises
    ------
    ValueError
        When one is the plan itself, two are the same, or the name of a page ends in neither .html nor .pdf.
    OSError
        When one is there already, or its folder cannot be written to.
    MissingExtra
        When a package that a page needs is not there.
    """
    asked_pages = [(option, path) for option, path in pages if path is not None]
    asked = [*asked_pages, *((option, path) for option, path in files if path is not None)]
    problems = [
        f"{option} {path}: is the plan itself, which is never written over; name another file"
        for option, path in asked
        if same_file(path, plan)
    ]
    for (option, path), (other_option, other) in combinations(asked, 2):
        if same_file(path, other):
            both = f"{option} twice" if option == other_option else f"{option} and {other_option}"
            problems.append(f"{both}: are both {other}; name two files")
    if problems:
        raise ValueError("\n".join(problems))
    for _, path in asked:
        try:
            require_writable(path, overwrite=overwrite)
        except FileExistsError:
            raise FileExistsError(f"{path} is there already: name another file, or add --overwrite") from None
    if asked_pages:
        from seasonrisk.report import require_page

        for _, path in asked_pages:
            require_page(path, overwrite=overwrite)
