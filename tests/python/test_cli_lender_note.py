# SPDX-License-Identifier: MIT
"""``seasonrisk lender-note``: words, files, numbers for machines, exit codes (0 well, 1 cannot, 2 the plan has problems)."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
import seasonrisk as sr
from seasonrisk.cli import main
from seasonrisk.credit import over_loan_life

ASKED = ["--seasons", "400", "--seed", "7"]


def test_it_prints_the_page_and_writes_it_as_often_as_asked(demo_path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    html, pdf = tmp_path / "note.html", tmp_path / "note.pdf"
    assert main(["lender-note", str(demo_path), *ASKED, "--write", str(html), "--write", str(pdf), "--paper", "letter"]) == 0
    out, err = capsys.readouterr()

    assert out == sr.lender_note(sr.Plan.read(demo_path), histories=400, rng=7).page() + "\n"
    assert err == f"\nWrote {html}\n\nWrote {pdf}\n"
    assert "size: letter" in html.read_text("utf-8")
    assert pdf.read_bytes().startswith(b"%PDF-")


def test_numbers_for_machines_are_those_of_python(demo_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lender-note", str(demo_path), *ASKED, "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    note = sr.lender_note(sr.Plan.read(demo_path), histories=400, rng=7)

    assert note.coverage.missed is not None
    assert said["missed"]["value"] == note.coverage.missed.value
    assert said["facility"]["value"] == note.working_capital.facility.value
    assert [case["name"] for case in said["stresses"]] == ["as it is", *(case.name for case in note.stresses)]
    assert said["coverage"][0]["after_household"]["bad"]["value"] == note.coverage.years[0].after_household.bad.value  # type: ignore[union-attr]
    assert [year["year"] for year in said["past"]] == [2024, 2025, 2026]
    assert said["cautions"] == list(sr.CAUTIONS)


def test_the_key_of_a_page_gives_the_page_again(demo_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["lender-note", str(demo_path), *ASKED]) == 0
    first = capsys.readouterr().out
    key = " ".join(first.split()).partition("; key ")[2].partition(";")[0]
    assert main(["lender-note", str(demo_path), "--seasons", "400", "--key", key]) == 0

    assert capsys.readouterr().out == first


def test_a_run_that_was_saved_is_set_beside_what_happened(demo_path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The year-end form: `season --save` before the season, the year's [[past_year]] after it."""
    kept, plan = tmp_path / "kept.npz", tmp_path / "mine.toml"
    plan.write_text(demo_path.read_text("utf-8") + "\n[[past_year]]\nyear = 2027\nsales = 1000\n", "utf-8")
    assert main(["season", str(demo_path), "--seasons", "50", "--seed", "3", "--save", str(kept)]) == 0
    capsys.readouterr()

    assert main(["lender-note", str(plan), "--seasons", "20", "--seed", "7", "--shown", str(kept), "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    assert said["shown"][0]["year"] == 2027
    assert said["shown"][0]["figures"][0]["low"]["value"] == sr.Run.load(kept).quantile("sales", 0.1).value
    assert main(["lender-note", str(demo_path), "--seasons", "20", "--seed", "7", "--shown", str(kept)]) == 1
    assert "write a [[past_year]] with year = 2027" in capsys.readouterr().err


def test_chances_over_the_life_of_the_loan(demo_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The demo's loan runs ten years and its plan one."""
    assert main(["lender-note", str(demo_path), "--seasons", "20", "--seed", "7", "--loan-life", "--json"]) == 0
    said = json.loads(capsys.readouterr().out)

    assert [year["season"] for year in said["coverage"]] == list(range(2027, 2037))
    assert said["missed"]["value"] == sr.lender_note(over_loan_life(sr.Plan.read(demo_path)), histories=20, rng=7).coverage.missed.value  # type: ignore[union-attr]


def test_a_page_that_was_asked_for_is_written_when_nobody_reads_on(demo_path: Path, tmp_path: Path) -> None:
    """Common practice: 128 + 13, the number of SIGPIPE, as for the other commands."""
    read_end, write_end = os.pipe()
    os.close(read_end)
    asked = ["lender-note", str(demo_path), "--seasons", "20", "--key", "1", "--write", str(tmp_path / "note.html")]
    done = subprocess.run([sys.executable, "-m", "seasonrisk", *asked], stdout=write_end, stderr=subprocess.PIPE, text=True)
    os.close(write_end)

    assert (done.returncode, done.stderr) == (141, f"\nWrote {tmp_path / 'note.html'}\n")
    assert (tmp_path / "note.html").read_text("utf-8").startswith("<!DOCTYPE html>")


@pytest.mark.parametrize("wrong", ["there", "plan", "twice", "kind"])
def test_nothing_is_simulated_when_the_page_cannot_be_written(
    wrong: str, demo_path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Source: the project's rule that nothing of the user's is written over without being asked."""
    plan = tmp_path / "mine.toml"
    plan.write_bytes(demo_path.read_bytes())
    (tmp_path / "there.html").write_text("my own")
    asked, says = {
        "there": (["--write", tmp_path / "there.html"], "is there already: name another file, or add --overwrite"),
        "plan": (["--write", plan, "--overwrite"], "is the plan itself"),
        "twice": (["--write", tmp_path / "a.pdf", "--write", tmp_path / "a.pdf"], "name two files"),
        "kind": (["--write", tmp_path / "a.doc"], "is written as .html or .pdf"),
    }[wrong]
    monkeypatch.setattr("seasonrisk.commands_lender_note.lender_note", lambda *_, **__: pytest.fail("was simulated"))

    assert main(["lender-note", str(plan), *map(str, asked)]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert says in err
    assert (tmp_path / "there.html").read_text() == "my own"
    assert plan.read_bytes() == demo_path.read_bytes()


def test_a_plan_with_problems_is_told_with_its_lines(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "mine.toml"
    plan.write_text("plan = 1\n[note]\npurpos = 'x'\n")

    assert main(["lender-note", str(plan)]) == 2
    assert "mine.toml:3: note.purpos" in capsys.readouterr().out
