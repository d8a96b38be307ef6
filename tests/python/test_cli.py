# SPDX-License-Identifier: MIT
"""The command line: words, exit codes, files. Source: the written list of exit codes (0 well, 1 cannot, 2 the plan
has problems, 130 stopped)."""

from __future__ import annotations

import json
import os
import re
import shlex
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import seasonrisk as sr
from seasonrisk import commands
from seasonrisk.cli import main
from small_plan import bare, text

Call = Callable[..., tuple[int, str, str]]


@pytest.fixture
def call(capsys: pytest.CaptureFixture[str]) -> Call:
    def run(*arguments: object) -> tuple[int, str, str]:
        try:
            code = main([str(argument) for argument in arguments])
        except SystemExit as stopped:
            code = int(stopped.code or 0)
        return code, *capsys.readouterr()

    return run


@pytest.fixture
def broken(tmp_path: Path) -> Path:
    path = tmp_path / "broken.toml"
    path.write_text(text(bare(weather={"unfishable_fraction": 15.0}, prices={"fuel_per_l": -1.0})))
    return path


def forbid_simulating(monkeypatch: pytest.MonkeyPatch) -> None:
    def simulate(*_: Any, **__: Any) -> None:
        raise AssertionError("simulated although it could have been known that the file cannot be written")

    monkeypatch.setattr(commands, "simulate", simulate)


# ---------------------------------------------------------------------------------------------------------- check


def test_check_of_a_sound_plan_says_it_back_in_sentences(call: Call, demo_path: Path) -> None:
    code, out, err = call("check", demo_path)

    assert (code, err) == (0, "")
    assert "a season of 183 days" in out
    assert max(map(len, out.splitlines())) <= 100


def test_check_tells_every_problem_with_its_line_and_a_hint(call: Call, broken: Path) -> None:
    code, out, _ = call("check", broken)

    assert code == 2
    assert len(out.splitlines()) == 2
    assert re.search(rf"{re.escape(str(broken))}:\d+: weather\.unfishable_fraction = 15.*did you mean 0\.15\?", out)
    assert "prices.fuel_per_l = -1" in out


def test_check_shows_warnings_and_is_content(call: Call, tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(text(bare(prices={"fuel_per_l": {"low": 0.1, "typical": 0.2, "high": 5.0}})))
    code, out, _ = call("check", path)

    assert code == 0
    assert "warning: prices.fuel_per_l: is lopsided" in out


def test_check_gives_json(call: Call, demo_path: Path, broken: Path) -> None:
    _, sound, _ = call("check", demo_path, "--json")
    code, unsound, _ = call("check", broken, "--json")

    assert json.loads(sound) == {"sound": True, "findings": []}
    assert code == 2
    found = json.loads(unsound)
    assert found["sound"] is False
    assert {finding["path"] for finding in found["findings"]} == {"weather.unfishable_fraction", "prices.fuel_per_l"}


@pytest.mark.parametrize("command", ["check", "season"])
def test_a_file_that_is_not_there_is_one_line_and_1(call: Call, command: str, tmp_path: Path) -> None:
    code, out, err = call(command, tmp_path / "nothing.toml")

    assert (code, out) == (1, "")
    assert err == f"seasonrisk: {tmp_path / 'nothing.toml'}: No such file or directory\n"


def test_an_empty_plan_is_a_plan_with_a_problem(call: Call, tmp_path: Path) -> None:
    (tmp_path / "empty.toml").touch()
    code, out, _ = call("season", tmp_path / "empty.toml")

    assert code == 2
    assert "the plan is empty" in out


# --------------------------------------------------------------------------------------------------------- season


def test_season_prints_one_page(call: Call, demo_path: Path) -> None:
    code, out, err = call("season", demo_path, "--seasons", 2000, "--seed", 7)
    lines = out.splitlines()

    assert (code, err) == (0, "")
    assert len(lines) < 60
    assert max(map(len, lines)) <= 100
    assert " ".join(lines[-6:]).endswith(" ".join(sr.CAUTIONS))
    assert "Does the season cover its costs?" in out


def test_season_says_the_same_again_for_the_same_seed(call: Call, demo_path: Path) -> None:
    first = call("season", demo_path, "--seasons", 500, "--seed", 7, "--threads", 1)

    assert call("season", demo_path, "--seasons", 500, "--seed", 7, "--threads", 2) == first
    assert call("season", demo_path, "--seasons", 500, "--seed", 8) != first


def test_season_gives_json_without_the_page(call: Call, demo_path: Path) -> None:
    code, out, _ = call("season", demo_path, "--seasons", 500, "--seed", 7, "--json")
    said = json.loads(out)
    run = sr.simulate(sr.Plan.read(demo_path), histories=500, rng=7)

    assert code == 0
    assert said["run"]["key"] == run.key
    assert said["chance"]["household"]["value"] == run.chance("household").value
    assert said["month_cash"]["2027-06"]["0.5"]["value"] == run.quantile("cash.2027-06", 0.5).value
    assert said["cautions"] == list(sr.CAUTIONS)


def test_json_of_one_season_has_no_value_that_json_does_not_know(call: Call, demo_path: Path) -> None:
    def refuse(name: str) -> None:
        raise AssertionError(name)

    _, out, _ = call("season", demo_path, "--seasons", 1, "--seed", 7, "--json")

    assert json.loads(out, parse_constant=refuse)["mean"]["sales"]["standard_error"] is None


def test_season_makes_a_choice_of_the_plan(call: Call, tmp_path: Path) -> None:
    plan = bare()
    plan["choice"] = [{"name": "More pots", "set": {"boat.0.fishery.0.count": 200}}]
    path = tmp_path / "plan.toml"
    path.write_text(text(plan))

    code, out, _ = call("season", path, "--seasons", 50, "--choice", "More pots")
    assert code == 0
    assert "with 1 change;" in " ".join(out.split())
    code, _, err = call("season", path, "--seasons", 50, "--choice", "Less")
    assert code == 1
    assert "it has More pots" in err


@pytest.mark.parametrize("option", ["--report", "--save"])
def test_season_writes_its_files_and_never_over_one_unless_told(
    call: Call, demo_path: Path, tmp_path: Path, option: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "out.html"
    assert call("season", demo_path, "--seasons", 200, option, file)[0] == 0
    assert file.stat().st_size > 1000

    file.write_text("my own")
    with monkeypatch.context() as patch:
        forbid_simulating(patch)
        code, out, err = call("season", demo_path, "--seasons", 200, option, file)
    assert (code, out, file.read_text()) == (1, "", "my own")
    assert err == f"seasonrisk: {file} is there already: name another file, or add --overwrite\n"

    assert call("season", demo_path, "--seasons", 200, option, file, "--overwrite")[0] == 0
    assert file.stat().st_size > 1000


@pytest.mark.parametrize("option", ["--report", "--save"])
@pytest.mark.parametrize("way", ["itself", "by a link", "by another spelling"])
def test_the_plan_is_never_written_over(
    call: Call, demo_path: Path, tmp_path: Path, option: str, way: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Source: the project's rule that nothing of the user's is lost."""
    plan = tmp_path / "mine.toml"
    plan.write_bytes(demo_path.read_bytes())
    (tmp_path / "link.toml").symlink_to(plan)
    (tmp_path / "sub").mkdir()
    names = {"itself": plan, "by a link": tmp_path / "link.toml", "by another spelling": tmp_path / "sub/../mine.toml"}
    forbid_simulating(monkeypatch)

    code, out, err = call("season", plan, option, names[way], "--overwrite")

    assert (code, out) == (1, "")
    assert f"{option} {names[way]}: is the plan itself" in err
    assert plan.read_bytes() == demo_path.read_bytes()


@pytest.mark.parametrize("there", [False, True])
def test_the_report_and_the_saved_run_must_be_two_files(
    call: Call, demo_path: Path, tmp_path: Path, there: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Source: the project's rule that nothing of the user's is lost."""
    file = tmp_path / "out"
    if there:
        file.write_text("my own")
    (tmp_path / "sub").mkdir()
    forbid_simulating(monkeypatch)

    code, _, err = call("season", demo_path, "--report", tmp_path / "sub/../out", "--save", file, "--overwrite")

    assert code == 1
    assert err == f"seasonrisk: --report and --save: are both {file}; name two files\n"


def test_a_closed_folder_is_one_line_before_anything_is_simulated(
    call: Call, demo_path: Path, closed_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    forbid_simulating(monkeypatch)
    code, out, err = call("season", demo_path, "--report", closed_folder / "out.html")

    assert (code, out) == (1, "")
    assert len(err.splitlines()) == 1
    assert "cannot be written to" in err


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["--seasons", "0"], "--seasons 0: must be a whole number from 1"),
        (["--seasons", "-5"], "--seasons -5"),
        (["--seasons", str(2**31)], "ask for fewer histories"),
        (["--seasons", "many"], "argument --seasons: must be a whole number such as 20000, not 'many'"),
        (["--threads", "-1"], "--threads -1"),
        (["--seed", "-1"], "argument --seed: must be a whole number of 0 or more, not '-1'"),
        (["--sneed", "1"], "unrecognized arguments: --sneed"),
    ],
)
def test_a_wrong_argument_is_told_and_1(call: Call, demo_path: Path, arguments: list[str], says: str) -> None:
    code, out, err = call("season", demo_path, *arguments)

    assert (code, out) == (1, "")
    assert says in err


def test_no_command_is_told_and_1(call: Call) -> None:
    assert call()[0] == 1


@pytest.mark.parametrize("command", ["new", "check", "season"])
def test_the_example_in_the_help_of_each_command_is_one_that_works(
    call: Call, command: str, tmp_path: Path, demo_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    code, out, _ = call(command, "--help")
    examples = [shlex.split(line)[1:] for line in out.split("example:\n")[1].splitlines() if line.strip()]
    if command != "new":
        Path("my_boat.toml").write_bytes(demo_path.read_bytes())

    assert code == 0
    assert call(*examples[-1])[0] == 0


def test_a_name_the_terminal_cannot_show_does_not_stop_the_answer(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(text(bare(business={"name": "Ægir 海"})), encoding="utf-8")
    said = subprocess.run(
        [sys.executable, "-m", "seasonrisk", "season", path, "--seasons", "50"],
        capture_output=True,
        env={"PYTHONIOENCODING": "ascii", **_environment()},
    )

    assert said.returncode == 0
    assert said.stdout.startswith(b"?gir ?, ")


@pytest.mark.parametrize(
    "arguments",
    [
        ["new", "--questions"],
        ["check", "{plan}"],
        ["check", "{broken}"],
        ["season", "{plan}", "--seasons", "50", "--save", "{saved}"],
    ],
)
def test_a_closed_pipe_ends_quietly_with_the_usual_code(
    arguments: list[str], demo_path: Path, broken: Path, tmp_path: Path
) -> None:
    """Common practice: 128 + 13, the number of SIGPIPE. A file that was asked for is written all the same."""
    saved = tmp_path / "run.npz"
    words = [word.format(plan=demo_path, broken=broken, saved=saved) for word in arguments]
    read_end, write_end = os.pipe()
    os.close(read_end)  # nobody reads
    done = subprocess.run(
        [sys.executable, "-m", "seasonrisk", *words], stdout=write_end, stderr=subprocess.PIPE, text=True
    )
    os.close(write_end)

    assert done.returncode == 141
    assert done.stderr == (f"\nWrote {saved}\n" if saved.name in " ".join(words) else "")
    assert saved.exists() == (saved.name in " ".join(words))


def test_too_little_memory_is_one_line_and_1(call: Call, demo_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def simulate(*_: Any, **__: Any) -> None:
        raise MemoryError

    monkeypatch.setattr(commands, "simulate", simulate)
    code, out, err = call("season", demo_path)

    assert (code, out) == (1, "")
    assert err == "seasonrisk: there is not enough memory for this: ask for fewer --seasons\n"


@pytest.mark.usefixtures("ctrl_c_is_heard")
def test_ctrl_c_is_one_clean_line_and_130(demo_path: Path) -> None:
    program = "import sys, seasonrisk.cli as cli; print('ready', flush=True); sys.exit(cli.main(sys.argv[1:]))"
    process = subprocess.Popen(
        [sys.executable, "-c", program, "season", demo_path, "--seasons", "5000000"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    time.sleep(1.5)  # well into the minute that so many seasons take

    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=300)

    assert (process.returncode, out, err) == (130, "", "seasonrisk: stopped\n")


def _environment() -> dict[str, str]:
    return dict(os.environ)


def test_the_key_of_a_page_makes_it_again(demo_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["season", str(demo_path), "--seasons", "1,000", "--seed", "7"]) == 0
    first = capsys.readouterr().out
    key = re.findall(r"key (\d+)", first)[0]
    assert main(["season", str(demo_path), "--seasons", "1000", "--key", key]) == 0
    assert capsys.readouterr().out == first
    with pytest.raises(SystemExit):
        main(["season", str(demo_path), "--key", key, "--seed", "7"])
    assert "not allowed with" in capsys.readouterr().err
