# SPDX-License-Identifier: MIT
"""Pages to print or to hand over, whole in one file. They need Jinja2 and matplotlib; as PDF, WeasyPrint too."""

from __future__ import annotations

from seasonrisk.report.assumptions import assumptions
from seasonrisk.report.drawing import PAPERS, require_report
from seasonrisk.report.pdf import pdf_of, require_pdf
from seasonrisk.report.season import html_page
from seasonrisk.report.writing import require_page, write_page

__all__ = ["PAPERS", "assumptions", "html_page", "pdf_of", "require_page", "require_pdf", "require_report", "write_page"]
