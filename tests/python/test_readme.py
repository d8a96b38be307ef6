# SPDX-License-Identifier: MIT
"""What the README shows is true: its code runs, its plan is sound, its output and messages are real.

Source of every expectation: the README itself.
"""

from __future__ import annotations

import re
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import seasonrisk as sr

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text("utf-8")
DEMO = (ROOT / "examples" / "plans" / "one_boat.toml").read_text("utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```", README, flags=re.DOTALL | re.MULTILINE)


def command(line: str, folder: Path) -> str:
    """What a `seasonrisk ...` line of the README prints."""
    words = shlex.split(line)
    assert words[0] == "seasonrisk"
    done = subprocess.run(
        [sys.executable, "-m", "seasonrisk", *words[1:]], cwd=folder, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder as a user has it: the examples, and the README's plan under the name the README gives it."""
    shutil.copytree(ROOT / "examples" / "plans", tmp_path / "examples" / "plans")
    (tmp_path / "my_boat.toml").write_text(blocks("toml")[-1], "utf-8")
    return tmp_path


def test_python_blocks_run(folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(folder)
    names: dict[str, object] = {}
    for block in blocks("python"):
        exec(compile(block, "README.md", "exec"), names)
    assert "Marigold Anne" in capsys.readouterr().out


def test_commands_run(folder: Path) -> None:
    lines = [line for block in blocks("sh") for line in block.splitlines() if line.startswith("seasonrisk ")]
    assert len(lines) >= 2
    for line in lines:
        assert command(line, folder)


def test_scripts_named_are_there() -> None:
    scripts = re.findall(r"^bash (\S+)$", README, flags=re.MULTILINE)
    assert len(scripts) >= 2
    assert [script for script in scripts if not (ROOT / script).is_file()] == []


def test_the_plan_is_sound_and_no_longer_than_it_says() -> None:
    text = blocks("toml")[-1]
    assert sr.Plan.parse(text).findings == ()
    assert len([line for line in text.splitlines() if line]) <= 26


def test_the_choices_shown_do_what_they_are_named_for() -> None:
    plan = sr.Plan.parse(f"{DEMO}\n{blocks('toml')[0]}")
    by_day, gearbox = sr.compare(plan, plan.choices[-2:], histories=500, rng=7)
    assert plan.findings == ()
    assert {name for name, step in by_day.steps if step.value} <= {"crew_pay", "overdraft_interest", "tax"}
    steps = dict(gearbox.steps)
    assert steps["standing_costs"].value == pytest.approx(-9000.0)
    assert steps["sales"].high < 0.0  # three weeks of August on the quay


def test_the_page_shown_is_what_the_command_prints(folder: Path) -> None:
    (shown,) = blocks("text")
    first, *page = shown.splitlines()
    assert first.startswith("$ ")
    printed = [line.rstrip() for line in command(first[2:], folder).splitlines()]
    assert [line for line in page if line and line not in printed] == []
    assert len(page) >= 10


def test_pictures_shown_are_there_and_say_what_they_show() -> None:
    pictures = re.findall(r"!\[([^\]]*)\]\(([^)]+)\)", README)
    assert pictures
    for said, picture in pictures:
        assert len(said) > 20
        assert (ROOT / picture).is_file()


def findings_of(text: str) -> str:
    with pytest.raises(sr.PlanError) as caught:
        sr.Plan.parse(text)
    return str(caught.value)


def too_large() -> str:
    with pytest.raises(sr.RunTooLarge) as caught:
        sr.simulate(sr.Plan.parse(DEMO), histories=2**31, key=1)
    return str(caught.value)


def choice_that_moves_luck() -> str:
    return findings_of(DEMO + '\n[[choice]]\nname = "No lobster"\nremove = ["species.0"]\n')


def report_there() -> str:
    done = subprocess.run(
        [sys.executable, "-m", "seasonrisk", "season", "examples/plans/one_boat.toml", "--report", "README.md"],
        cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 1
    return done.stdout + done.stderr


def on_the_command_line(*arguments: str) -> str:
    done = subprocess.run([sys.executable, "-m", "seasonrisk", *arguments], cwd=ROOT, capture_output=True, text=True, check=False)
    return done.stdout + done.stderr


# Each message of the table, and what brings it about.
CAUSES: dict[str, Callable[[], str]] = {
    "seasonrisk needs packages that are not installed": (ROOT / "cpp/cmake/dependencies.cmake").read_text,
    "Python 3.11 or newer is needed": (ROOT / "examples/set_up.sh").read_text,
    "did you mean": lambda: findings_of(DEMO.replace("per_haul =", "per_hual =", 1)),
    "is missing": lambda: findings_of(DEMO.replace("fuel_per_l =", "# fuel_per_l =", 1)),
    "would move up and meet other luck": choice_that_moves_luck,
    "has no [[choice]] to compare": lambda: on_the_command_line("compare", "examples/plans/smallest.toml"),
    "too few to say": lambda: on_the_command_line("season", "examples/plans/smallest.toml", "--seasons", "1"),
    "must be from 0 to 1": lambda: findings_of(DEMO.replace("levy_fraction = 0.01", "levy_fraction = 20")),
    "raise the memory limit": too_large,
    "--overwrite": report_there,
}


@pytest.mark.parametrize("row", re.findall(r"^\| `([^`]+)` \|", README, flags=re.MULTILINE))
def test_messages_of_the_table_are_said(row: str) -> None:
    assert row in CAUSES[row]()
