# SPDX-License-Identifier: MIT
"""The lender's page: what `LenderNote` says, laid out to be printed and kept on file."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from seasonrisk.credit import note_parts
from seasonrisk.report.assumptions import with_sources
from seasonrisk.report.drawing import drawn, require_report, shown

if TYPE_CHECKING:
    from seasonrisk.credit.lender_note import LenderNote

__all__ = ["html_page"]


def html_page(note: LenderNote, date: dt.date | None = None, *, paper: str = "A4") -> str:
    """The page as text: the same bytes for the same note and date; see `LenderNote.html`."""
    require_report()
    parts = [(part, [shown(draw(), caption) for draw, caption in part.drawings]) for part in note.parts]
    return drawn(
        "lender_note.html",
        note.plan,
        date,
        paper,
        headline=note_parts.headline(note),
        answer=note_parts.answer(note),
        parts=parts,
        assumptions=with_sources(note.plan),
    )
