# SPDX-License-Identifier: MIT
"""From figures to a page: the templates of this folder, and pictures that stand inside the page."""

from __future__ import annotations

import base64
import datetime as dt
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from seasonrisk import words
from seasonrisk.errors import missing_extra

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.plan import Plan

__all__ = ["PAPERS", "Picture", "drawn", "require_report", "shown"]

#: Sizes of paper a page can be laid out for.
PAPERS = ("A4", "letter")


@dataclass(frozen=True)
class Picture:
    """A picture inside the page, and the sentence that says what it shows: its caption, and for those who cannot see it."""

    address: str
    caption: str


def require_report() -> Any:
    """Jinja2, once it and matplotlib are known to be there: asked before a long run.

    Raises
    ------
    MissingExtra
        When one of them is not installed.
    """
    for package in ("matplotlib", "jinja2"):
        try:
            module = __import__(package)
        except ImportError as error:
            missing_extra(package, "report", "A report", error)
    return module


def shown(axes: Axes, caption: str) -> Picture:
    """The figure of ``axes`` as a drawing of lines, sharp on any paper; the same bytes for the same figure."""
    import matplotlib as mpl

    buffer = io.BytesIO()
    with mpl.rc_context({"svg.hashsalt": "seasonrisk"}):
        figure = axes.get_figure(root=True)
        figure.savefig(buffer, format="svg", metadata={"Date": None, "Creator": None})  # type: ignore[union-attr]
    return Picture("data:image/svg+xml;base64," + base64.b64encode(buffer.getvalue()).decode("ascii"), caption)


def drawn(template: str, plan: Plan, date: dt.date | None, paper: str, **figures: object) -> str:
    """The page that ``template`` makes of ``figures``; whatever stands in a plan is shown as text.

    Raises
    ------
    ValueError
        When ``paper`` is none of `PAPERS`.
    MissingExtra
        When Jinja2 or matplotlib is not installed.
    """
    from seasonrisk import __version__

    jinja2 = require_report()
    if paper not in PAPERS:
        raise ValueError(f"paper: {paper!r} is none of {', '.join(PAPERS)}")
    environment = jinja2.Environment(
        loader=jinja2.PackageLoader("seasonrisk.report", "."),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return str(
        environment.get_template(template).render(
            plan=plan,
            date=date or dt.date.today(),
            day_text=words.day_text,
            paper=paper,
            version=__version__,
            cautions=words.CAUTIONS,
            **figures,
        )
    )
