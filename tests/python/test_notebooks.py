# SPDX-License-Identifier: MIT
"""The notebooks run from top to bottom with few seasons, as a reader would run them, and draw their pictures."""

from __future__ import annotations

import os
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

NOTEBOOKS = sorted((Path(__file__).resolve().parents[2] / "notebooks").glob("*.ipynb"))


def test_there_are_notebooks() -> None:
    assert NOTEBOOKS


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_notebook_runs_and_draws(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(os.environ, "SEASONRISK_NOTEBOOK_SEASONS", "400")
    monkeypatch.setitem(os.environ, "PYDEVD_DISABLE_FILE_VALIDATION", "1")
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, timeout=300, kernel_name="python3", resources={"metadata": {"path": str(path.parent)}}).execute()
    shown = [output for cell in notebook.cells for output in cell.get("outputs", [])]
    assert not [output for output in shown if output.output_type == "error"]
    assert sum("image/png" in output.get("data", {}) for output in shown) >= 2


def test_without_ipywidgets_the_family_notebook_says_so_and_shows_one_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """The import is made to fail in the kernel, whether or not it is installed here."""
    path = next(path for path in NOTEBOOKS if path.stem.startswith("3_"))
    monkeypatch.setitem(os.environ, "SEASONRISK_NOTEBOOK_SEASONS", "200")
    monkeypatch.setitem(os.environ, "PYDEVD_DISABLE_FILE_VALIDATION", "1")
    notebook = nbformat.read(path, as_version=4)
    notebook.cells.insert(0, nbformat.v4.new_code_cell("import sys; sys.modules['ipywidgets'] = None"))
    NotebookClient(notebook, timeout=300, kernel_name="python3", resources={"metadata": {"path": str(path.parent)}}).execute()
    (slider,) = (cell for cell in notebook.cells if cell.cell_type == "code" and "SelectionSlider" in cell.source)
    said = "".join(output.get("text", "") for output in slider.outputs)
    assert "ipywidgets is not installed" in said
    assert "Fishing until" in said
    assert sum("image/png" in output.get("data", {}) for output in slider.outputs) == 1


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_notebook_opens_with_a_question_and_ends_with_what_to_do_and_the_cautions(path: Path) -> None:
    cells = nbformat.read(path, as_version=4).cells
    assert cells[0].cell_type == "markdown"
    assert cells[0].source.splitlines()[0].endswith("?")
    assert cells[-1].source.startswith("## What next")
    assert "not financial, insurance, tax or legal advice" in cells[-1].source
    assert not any(cell.get("outputs") for cell in cells)  # kept without outputs: the test makes them
