# SPDX-License-Identifier: MIT
"""Writing a page to a file: what the file's name ends in says whether as HTML or as PDF."""

from __future__ import annotations

from pathlib import Path

from seasonrisk.files import require_writable, write_file
from seasonrisk.report.drawing import require_report
from seasonrisk.report.pdf import pdf_of, require_pdf

__all__ = ["require_page", "write_page"]


def require_page(path: str | Path, *, overwrite: bool) -> None:
    """Tell now, before a long run, what would keep `write_page` from writing.

    Raises
    ------
    ValueError
        When the name ends in neither ``.html`` nor ``.pdf``.
    OSError
        See `require_writable`.
    MissingExtra
        When a package the page needs is not there.
    """
    if _kind(path) == ".pdf":
        require_pdf()
    require_report()
    require_writable(path, overwrite=overwrite)


def write_page(path: str | Path, html: str, *, overwrite: bool = False) -> None:
    """Write the page, see `require_page`; nothing is written over unless ``overwrite`` is given."""
    write_file(path, pdf_of(html) if _kind(path) == ".pdf" else html.encode("utf-8"), overwrite=overwrite)


def _kind(path: str | Path) -> str:
    kind = Path(path).suffix.lower()
    if kind not in (".html", ".htm", ".pdf"):
        raise ValueError(f"{path}: a page is written as .html or .pdf; name the file so")
    return kind
