# SPDX-License-Identifier: MIT
"""A page as PDF, with the tags that let it be read aloud. Needs WeasyPrint, and Pango beside it."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Any

from seasonrisk.errors import MissingExtra, missing_extra

__all__ = ["pdf_of", "require_pdf"]

SYSTEM_PACKAGES = "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"


def require_pdf() -> Any:
    """WeasyPrint: asked for before a long run.

    Raises
    ------
    MissingExtra
        When it is not installed, or the system's packages that it draws with are not there.
    """
    try:
        import weasyprint
    except ImportError as error:
        missing_extra("weasyprint", "pdf", "A PDF", error)
    except OSError as error:
        raise MissingExtra(
            f"A PDF needs Pango, which is not there; on Debian and Ubuntu: sudo apt-get install {SYSTEM_PACKAGES}; "
            "or write .html, which needs none of it"
        ) from error
    return weasyprint


def _fonts() -> str:
    """The letters that come with matplotlib: the same on every machine, and there even where no font is installed."""
    import matplotlib as mpl

    folder = Path(mpl.get_data_path()) / "fonts" / "ttf"
    faces = (("DejaVuSerif", "", ""), ("DejaVuSerif-Bold", "bold", ""), ("DejaVuSerif-Italic", "", "italic"))
    rules = [
        f"@font-face {{ font-family: Page; src: url('{(folder / name).as_uri()}.ttf'); "
        f"font-weight: {weight or 'normal'}; font-style: {style or 'normal'} }}"
        for name, weight, style in faces
    ]
    return "\n".join([*rules, "body { font-family: Page; font-size: 8.6pt } body.dense { font-size: 7pt; line-height: 1.27 }"])


def pdf_of(html: str) -> bytes:
    """The page as a tagged PDF (PDF/UA-1, ISO 14289-1): the same bytes for the same page.

    Raises
    ------
    MissingExtra
        When WeasyPrint or what it draws with is not there.
    """
    weasyprint = require_pdf()
    mark = hashlib.sha256(html.encode("utf-8")).digest()[:16]
    fonts = weasyprint.text.fonts.FontConfiguration()
    style = weasyprint.CSS(string=_fonts(), font_config=fonts)
    page = weasyprint.HTML(string=html)
    return bytes(page.write_pdf(stylesheets=[style], font_config=fonts, pdf_variant="pdf/ua-1", pdf_identifier=mark))
