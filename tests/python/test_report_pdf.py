# SPDX-License-Identifier: MIT
"""The page as PDF. Sources: PDF/UA-1 is ISO 14289-1 (a tagged file names its language, its title and the words for
its pictures); what is read out of the file is read by pypdf, not by what wrote it.
"""

from __future__ import annotations

import datetime as dt
import io
import sys
from pathlib import Path
from typing import Any

import pypdf
import pytest
import seasonrisk as sr
from seasonrisk import plot
from seasonrisk.report import html_page, pdf_of, require_page

DAY = dt.date(2027, 1, 15)
A4_MM, LETTER_MM = (210.0, 297.0), (215.9, 279.4)  # ISO 216; ANSI/ASME Y14.1


@pytest.fixture(scope="module")
def html(run: sr.Run) -> str:
    return html_page(run, DAY)


@pytest.fixture(scope="module")
def data(html: str) -> bytes:
    return pdf_of(html)


def read(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data))


def elements(node: Any) -> list[tuple[str, str]]:
    """Kind and words of every element of the structure tree, in order."""
    node = node.get_object()
    found = [(str(node["/S"]), str(node.get("/Alt", "")))] if "/S" in node else []
    kids = node.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        if not isinstance(kid, int) and isinstance(kid.get_object(), dict):
            found += elements(kid)
    return found


def test_it_is_tagged_and_names_its_language_and_title(data: bytes, run: sr.Run) -> None:
    root = read(data).root_object

    assert root["/MarkInfo"]["/Marked"] is True or bool(root["/MarkInfo"]["/Marked"])
    assert root["/Lang"] == "en"
    assert read(data).metadata.title == f"{run.plan.name}: does the season cover its costs?"  # type: ignore[union-attr]
    assert b"pdfuaid" in bytes(root["/Metadata"].get_data())


def test_its_pictures_have_words_and_its_tables_have_heads(data: bytes, run: sr.Run) -> None:
    found = elements(read(data).root_object["/StructTreeRoot"])
    words = [alt for kind, alt in found if kind == "/Figure"]

    assert words == [plot.dots_caption(run), plot.month_cash_caption(run)]
    assert sum(kind == "/TH" for kind, _ in found) > 40
    assert [kind for kind, _ in found].count("/H1") == 1


def test_every_letter_it_shows_is_inside_the_file(data: bytes) -> None:
    embedded = set()
    for page in read(data).pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index]
            for below in font.get_object()["/DescendantFonts"]:
                descriptor = below.get_object()["/FontDescriptor"].get_object()
                embedded.add("/FontFile2" in descriptor or "/FontFile3" in descriptor)

    assert embedded == {True}


@pytest.mark.parametrize(("paper", "size_mm"), [("A4", A4_MM), ("letter", LETTER_MM)])
def test_it_has_the_size_of_the_paper(run: sr.Run, paper: str, size_mm: tuple[float, float]) -> None:
    box = read(pdf_of(html_page(run, DAY, paper=paper))).pages[0].mediabox

    assert (float(box.width) / 72 * 25.4, float(box.height) / 72 * 25.4) == pytest.approx(size_mm, abs=0.1)


def test_the_same_run_and_day_give_the_same_bytes(html: str, data: bytes) -> None:
    assert pdf_of(html) == data


def test_what_the_page_says_can_be_read_out_of_it(data: bytes) -> None:
    said = " ".join(" ".join(page.extract_text() for page in read(data).pages).split())

    for caution in sr.CAUTIONS:
        assert caution in said


def test_a_name_that_ends_in_neither_is_refused_before_anything_is_drawn(run: sr.Run, tmp_path: Path) -> None:
    for refuse in (lambda path: run.report(path), lambda path: require_page(path, overwrite=False)):
        with pytest.raises(ValueError, match=r"note\.doc: a page is written as \.html or \.pdf"):
            refuse(tmp_path / "note.doc")
    assert not list(tmp_path.iterdir())


def test_it_is_written_whole_and_never_over_a_file(run: sr.Run, tmp_path: Path) -> None:
    run.report(tmp_path / "note.pdf")

    assert (tmp_path / "note.pdf").read_bytes().startswith(b"%PDF-1.7")
    with pytest.raises(FileExistsError):
        run.report(tmp_path / "note.pdf")


def test_a_pdf_without_its_package_tells_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)

    with pytest.raises(sr.MissingExtra, match=r'pip install "seasonrisk\[pdf\]"'):
        pdf_of("<p>")


def test_a_pdf_without_the_packages_of_the_system_names_them(monkeypatch: pytest.MonkeyPatch) -> None:
    class Missing:
        def find_spec(self, name: str, *_: object) -> None:
            if name == "weasyprint":
                raise OSError("cannot load library 'libpango-1.0-0'")

    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Missing(), *sys.meta_path])

    with pytest.raises(sr.MissingExtra, match=r"sudo apt-get install libpango-1[.]0-0 libpangoft2-1[.]0-0 libharfbuzz-subset0"):
        pdf_of("<p>")
