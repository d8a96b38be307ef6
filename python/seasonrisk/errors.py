# SPDX-License-Identifier: MIT
"""What can go wrong, by name. The engine raises these same classes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, NoReturn

__all__ = ["Error", "Finding", "MissingExtra", "PlanError", "RunTooLarge"]


@dataclass(frozen=True)
class Finding:
    """One thing the rule book has to say about a plan.

    Attributes
    ----------
    severity : str
        ``"error"`` or ``"warning"``.
    path : str
        Key path, such as ``"boat.0.crew.1.share_fraction"``; empty for the file as a whole.
    value : str
        As written, shortened; may be empty.
    message, hint : str
        What is wrong and what is allowed; the likely meaning or the way out (may be empty).
    file : str
        Name given to the reader.
    line, column : int
        Counted from 1; 0 when the finding has no place in the file.
    text : str
        All of it on one line: ``file:line: path = value: message; hint``.
    """

    severity: str
    path: str
    value: str
    message: str
    hint: str
    file: str
    line: int
    column: int
    text: str

    def __str__(self) -> str:
        return self.text

    @classmethod
    def of(cls, found: Any) -> Finding:
        """The Python twin of one of the engine's findings; a Finding is given back as it is."""
        if isinstance(found, cls):
            return found
        return cls(
            found.severity, found.path, found.value, found.message, found.hint,
            found.file, found.line, found.column, str(found),
        )  # fmt: skip


class Error(Exception):
    """Base of what the library itself raises."""


class PlanError(Error, ValueError):
    """A plan with problems; the text lists them all.

    Attributes
    ----------
    findings : tuple of Finding
        Errors and warnings, by line.
    """

    def __init__(self, findings: Iterable[Any]) -> None:
        self.findings = tuple(Finding.of(found) for found in findings)
        super().__init__(self.findings)

    def __str__(self) -> str:
        return "\n".join(map(str, self.findings))


class RunTooLarge(Error, ValueError):
    """A run refused before it starts, for its memory or its time; the text names the way out."""


class MissingExtra(Error, ImportError):
    """A package that only some calls need is not installed; the text holds the line to type."""


def missing_extra(package: str, extra: str, purpose: str, cause: ImportError) -> NoReturn:
    """Raise MissingExtra with the one line that installs what is missing."""
    raise MissingExtra(
        f'{purpose} needs {package}, which is not installed: pip install "seasonrisk[{extra}]"'
    ) from cause
