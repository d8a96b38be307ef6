# SPDX-License-Identifier: MIT
"""``seasonrisk compare``: words, numbers for machines, exit codes (0 well, 1 cannot, 2 the plan has problems)."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import seasonrisk as sr
from seasonrisk.cli import main
from small_plan import bare, text


@pytest.fixture
def whelk() -> Path:
    return Path(__file__).resolve().parents[2] / "examples/plans/two_boats_whelk.toml"


def test_compare_prints_a_page_with_every_choice_of_the_plan(whelk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", str(whelk), "--seasons", "1000", "--seed", "7", "--equal-within", "500", "--largest-loss", "20000"]) == 0
    out, err = capsys.readouterr()

    said = " ".join(out.split())
    assert err == ""
    assert all(choice in said for choice in sr.Plan.read(whelk).choices)
    assert max(map(len, out.splitlines())) <= 100
    assert "Grey Plover pays her own loan in" in said
    assert "at 1 chance in 20" in said
    assert said.endswith(" ".join(sr.CAUTIONS))


def test_one_seed_gives_one_answer_and_the_choices_asked_for(whelk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["compare", str(whelk), "--seasons", "500", "--seed", "3", "--choice", "The buyer takes 2000 a day"]
    assert main(asked) == 0
    first = capsys.readouterr().out
    assert main(asked) == 0

    assert capsys.readouterr().out == first
    assert "Deductible" not in first


def test_numbers_for_machines_are_those_of_python(whelk: Path, capsys: pytest.CaptureFixture[str]) -> None:
    name = "Deductible 4000 on both boats"
    assert main(["compare", str(whelk), "--seasons", "800", "--seed", "3", "--choice", name, "--json"]) == 0
    said = json.loads(capsys.readouterr().out)

    found = sr.compare(sr.Plan.read(whelk), name, histories=800, rng=3)[name]
    (choice,) = said["choices"]
    assert (choice["name"], choice["rungs"]["loan"]["gained"]["value"]) == (name, found.rungs["loan"].gained.value)
    assert dict((step, one["value"]) for step, one in choice["steps"]) == {step: one.value for step, one in found.steps}
    assert said["run"]["histories"] == 800
    assert said["cautions"] == list(sr.CAUTIONS)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["--choice", "Sail her"], "--choice Sail her: the plan has no such choice"),
        (["--seasons", "0"], "--seasons 0"),
        (["--equal-within", "-5"], "--equal-within -5.0"),
        (["--largest-loss", "0"], "--largest-loss 0.0"),
    ],
)
def test_what_cannot_be_done_is_one_line_and_1(whelk: Path, arguments: list[str], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", str(whelk), "--seed", "1", *arguments]) == 1
    out, err = capsys.readouterr()

    assert out == ""
    assert says in err
    assert len(err.splitlines()) == 1


def test_a_plan_without_choices_says_so_and_a_broken_one_is_2(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "plain.toml").write_text(text(bare()))
    (tmp_path / "broken.toml").write_text(text(bare(prices={"fuel_per_l": -1.0})))

    assert main(["compare", str(tmp_path / "plain.toml")]) == 1
    assert "has no [[choice]] to compare" in capsys.readouterr().err
    assert main(["compare", str(tmp_path / "broken.toml")]) == 2
    assert "prices.fuel_per_l = -1" in capsys.readouterr().out


def test_help_has_an_example(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["compare", "--help"])

    assert stopped.value.code == 0
    assert "seasonrisk compare my_boat.toml --choice 'More pots'" in capsys.readouterr().out


def test_one_season_is_too_few_to_compare_and_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "examples/plans/one_boat.toml", "--seasons", "1", "--seed", "7"]) == 0
    out = capsys.readouterr().out
    assert "1 season is too few to tell choices apart." in out
    assert "too few to say seasons" not in out
    assert max(map(len, out.splitlines())) <= 100


def test_a_plan_without_a_choice_is_shown_how_to_write_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "examples/plans/smallest.toml", "--seasons", "8"]) == 1
    err = capsys.readouterr().err
    example = err[err.index("\n[[choice]]") :]
    plan = sr.Plan.parse(Path("examples/plans/smallest.toml").read_text("utf-8") + "\n" + example)
    assert plan.choose("Fifty more pots")["boat.0.fishery.0.count"] == 250
