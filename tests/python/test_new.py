# SPDX-License-Identifier: MIT
"""``seasonrisk new``: from answers to a sound plan. Sources: arithmetic beside each test; the least spread of 0.15
with few years is the project's written rule, after surveyed catch rates (year-to-year SD 0.14 to 0.26)."""

from __future__ import annotations

import datetime as dt
import math
from pathlib import Path

import pytest
import seasonrisk as sr
from seasonrisk import questions
from seasonrisk.cli import main
from seasonrisk.misfits import by_question
from seasonrisk.new_plan import plan_text

SEASON = "2027-06-01 to 2027-11-30"  # 183 days, 26 Sundays


def made(**given: str) -> sr.Plan:
    answers = questions.ask({"season": SEASON, **given}, take_defaults=True)
    return sr.Plan.parse(plan_text(answers))


def test_the_defaults_make_a_plan_without_a_finding() -> None:
    assert made().findings == ()


@pytest.mark.parametrize(
    "given",
    [
        {"crew": "alone"}, {"crew": "day wage 110"}, {"crew": "share of sales 0.17"}, {"loan": "0 0 1"}, {"insurance": "0 0"},
        {"breakdowns": "0 0 0 0"}, {"breakdowns": "1 0 0 0"}, {"breakdowns": "3 30 400 400"}, {"species": "whelk"}, {"pots_lost": "0 0"},
        {"weather": "0"}, {"weather": "jun 3, jul 3, aug 4, sep 6, oct 9, nov 12"}, {"days_a_week": "7"}, {"days_a_week": "2"},
        {"pots": "80 200"}, {"boat": 'Ann # "1" é'}, {"species": "brown crab, velvet-crab"}, {"cash": "1234567 0"}, {"records": "30"},
    ],
    ids=str,
)  # fmt: skip
def test_other_answers_make_a_sound_plan_too(given: dict[str, str]) -> None:
    plan = made(**given)

    assert [finding for finding in plan.findings if finding.severity == "error"] == []
    assert sr.simulate(plan, histories=50, key=1).histories == 50


def test_answers_stand_in_the_plan_as_given() -> None:
    plan = made(boat='Ann # "1" é', cash="1234567 4321", pots="300 150", money="eur", crew="day wage 110", draw="1,450")

    assert plan.name == 'Ann # "1" é'
    assert plan.money == "EUR"
    assert plan["business.opening_cash"] == 1234567.0
    assert plan["business.overdraft_limit"] == 4321.0
    assert (plan["boat.0.fishery.0.count"], plan["boat.0.fishery.0.hauls_per_day"]) == (300.0, 150.0)
    assert plan["boat.0.crew.0.per_day"] == 110.0
    assert plan["household.draw_per_month"] == 1450.0
    assert plan["season.end"] == dt.date(2027, 11, 30)


def test_the_usual_catch_comes_back_from_the_simulated_seasons() -> None:
    """A usual year's catch was asked for; with its spreads the mean of the seasons must be near it: every effect has
    mean one, and days out were counted with weather and breakdowns taken off (5 in 100 for crowded breakdown days)."""
    run = sr.simulate(made(catch="2500 3200 4000", catch2="11000 14500 18500"), histories=20_000, key=1, keep="all")

    assert run.mean("catch.lobster").value == pytest.approx(3200.0, rel=0.05)
    assert run.mean("catch.crab").value == pytest.approx(14500.0, rel=0.05)
    assert run.mean("days_weather").value == pytest.approx(37.0, rel=0.05)


def test_days_lost_by_month_become_fractions_of_the_days_meant() -> None:
    """June 2027 has 26 days that are no Sunday, November 26."""
    plan = made(weather="jun 3, jul 3, aug 4, sep 6, oct 9, nov 13")

    assert plan["weather.unfishable_fraction.jun"] == pytest.approx(3 / 26, abs=0.001)
    assert plan["weather.unfishable_fraction.nov"] == pytest.approx(13 / 26, abs=0.001)


def test_the_spread_is_that_of_1_in_10_years_and_few_years_widen_it() -> None:
    """ln(4000 / 2500) / (2 x 1.28155) = 0.183; ln(3300 / 3000) / (2 x 1.28155) = 0.037."""
    wide, narrow, long = (
        made(catch="2500 3200 4000"),
        made(catch="3000 3200 3300"),
        made(catch="3000 3200 3300", records="20"),
    )

    assert wide["species.0.year_sd"] == 0.18
    assert narrow["species.0.year_sd"] == 0.15
    assert "widened from 0.04: 5 years are too few to have seen a bad one" in narrow.text
    assert long["species.0.year_sd"] == 0.04
    assert math.isclose(math.log(4000 / 2500) / (2 * 1.28155), 0.183, abs_tol=5e-4)


def test_breakdowns_come_back_at_the_rate_remembered() -> None:
    """12 in five seasons is 2.4 a season; the mean of a guess lies above its middle, here by up to a tenth."""
    run = sr.simulate(made(breakdowns="12 20 700 4500"), histories=20_000, key=1, keep="all")

    assert 2.3 < run.mean("breakdowns.any").value < 2.7


@pytest.mark.parametrize(
    ("name", "answer", "says"),
    [
        ("pots", "420", "2 numbers are needed"), ("pots", "0 220", "pots must be from 1 to 5000"), ("catch", "4000 3200 2500", "must rise"),
        ("money", "pounds", "not three letters"), ("season", "June", "two days are needed"), ("season", "2027-06-01 2027-05-01", "6 to 270 days"),
        ("season", "2027-06-31 2027-11-30", "day"), ("species", "a, b, c", "one name, or two"), ("crew", "half", "alone, or one of"),
        ("crew", "share of sales 20", "must be from 0 to 0.6"), ("weather", "june 3", "is not a month"), ("bills", "-5", "is no number of 0 or more"),
        ("weather", "jun 3, jun 4", "jun is there twice"), ("catch", "9", "3 numbers are needed"), ("draw", "", "1 number is needed"),
        ("bills", "nan", "is no number"), ("boat", "", "1 to 60 letters"), ("engine", "big", "there is no such question"),
    ],
)  # fmt: skip
def test_a_wrong_answer_is_told_with_its_reason(name: str, answer: str, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        questions.ask({name: answer}, take_defaults=True)


@pytest.mark.parametrize(
    ("answer", "taken"),
    [("1,234", 1234.0), ("12,345,678", 12345678.0), ("1,234.5", 1234.5), ("0.30", 0.3), (".5", 0.5), ("007", 7.0)],
)
def test_a_comma_is_read_as_thousands_where_it_can_be_nothing_else(answer: str, taken: float) -> None:
    """Common practice in English: groups of three digits after the first one to three."""
    assert questions.number(answer) == taken


@pytest.mark.parametrize("answer", ["0,30", "1,5", "12,34", "0,300", "1234,567", "1,23,456", "1,234,5", "1.234,5", ","])
def test_a_comma_that_can_be_read_in_two_ways_is_refused(answer: str) -> None:
    """Common practice over much of Europe: 0,30 is three tenths, never thirty."""
    with pytest.raises(ValueError, match="use a point"):
        questions.number(answer)


def test_a_comma_in_an_answer_of_the_command_is_refused_with_a_hint(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Common practice: bait at 0,30 a pot is three tenths of a pound."""
    assert main(["new", str(tmp_path / "mine.toml"), "--defaults", "--answer", "bait=0,30"]) == 1

    said = capsys.readouterr().err
    assert "--answer bait=0,30: '0,30' can be read in two ways: use a point" in said
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("name", "answer", "says"),
    [
        ("days_a_week", "5.7", "days must be a whole number from 1 to 7, not 5.7"),
        ("records", "2.5", "years must be a whole number from 1 to 60, not 2.5"),
    ],
)
def test_part_of_a_day_or_year_is_never_cut_off(name: str, answer: str, says: str) -> None:
    """Source: the project's rule that nothing is clamped or guessed in silence."""
    with pytest.raises(ValueError, match=says):
        questions.ask({name: answer}, take_defaults=True)


def test_all_that_is_wrong_with_one_answer_is_told_at_once() -> None:
    """Source: the project's rule that bad input gets every problem at once."""
    with pytest.raises(ValueError, match=r"usual bill.*worst bill") as told:
        questions.ask({"breakdowns": "9 9 99999999 88888888"}, take_defaults=True)
    assert "not 99999999" in str(told.value)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"weather": "150"}, "only 157 days to go"), ({"weather": "jun 3"}, "say how many days are lost in jul, aug"),
        ({"weather": "jun 3, jul 3, aug 4, sep 6, oct 9, nov 12, jan 3"}, "weather=jan 3: the season has no day to go in jan"),
        ({"weather": "jan 0"}, "no day to go in jan; leave it out"), ({"breakdowns": "0 9 0 0"}, "cannot have lost 9 days"),
        ({"breakdowns": "4 9 700 400"}, "do not go together"), ({"breakdowns": "4 9 0 400"}, "do not go together"),
        ({"pots_lost": "420 75"}, "fewer than the 420 pots"), ({"breakdowns": "5 800 1 2"}, "more days are lost"),
    ],
    ids=str,
)  # fmt: skip
def test_answers_that_do_not_go_together_are_told(given: dict[str, str], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        made(**given)


def test_all_answers_that_do_not_go_together_are_told_at_once() -> None:
    """Source: the project's rule that bad input gets every problem at once."""
    with pytest.raises(ValueError, match="days to go") as told:
        made(weather="jan 0, jun 30", pots_lost="420 75", breakdowns="0 9 0 0")

    assert [line.split(":")[0] for line in str(told.value).splitlines()] == [
        "weather=jan 0", "weather=jun 30", "weather", "breakdowns", "pots_lost=420",
    ]  # fmt: skip


def test_all_wrong_options_are_told_at_once_before_anything_is_asked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Source: the project's rule that bad input gets every problem at once."""
    monkeypatch.setattr("builtins.input", lambda _: pytest.fail("asked although an option was known to be wrong"))

    assert main(["new", str(tmp_path / "a"), "--answer", "draw=x", "--answer", "engine=big", "--answer", "pots=9"]) == 1

    lines = capsys.readouterr().err.splitlines()
    assert lines[0].startswith("seasonrisk: --answer draw=x: ")
    assert lines[1].startswith("--answer engine: there is no such question")
    assert lines[2].startswith("--answer pots=9: 2 numbers are needed")


def test_an_answer_about_a_second_species_is_not_dropped_in_silence() -> None:
    """Source: the project's rule that nothing is guessed in silence."""
    with pytest.raises(ValueError, match="catch2=1 2 3: is not asked of one species"):
        made(species="whelk", catch2="1 2 3")


def test_what_the_rule_book_refuses_is_told_by_question_and_not_by_a_line_of_no_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Source: the rule book, which allows 30 days between two hauls of a pot; 5000 pots at 1 a day are 5000 days."""
    path = tmp_path / "mine.toml"

    assert main(["new", str(path), "--defaults", "--answer", "pots=5000 1"]) == 1

    out, err = capsys.readouterr()
    assert out == ""
    assert "pots (Pots in the water, and pots hauled in a day): boat.0.fishery.0.count = 5000: must be" in err
    assert str(path) not in err
    assert not path.exists()


def test_every_number_asked_for_is_traced_to_its_question() -> None:
    """Each key written without "not asked" is named by a question; the commentary of the plan itself is the source."""
    text = plan_text(questions.ask({"season": SEASON, "crew": "day wage 110"}, take_defaults=True))
    plan = sr.Plan.parse(text)
    asked = {path for path in plan.numbers if (key := path.split(".")[-1]) and any(
        line.startswith(f"{key} =") and "not asked" not in line for line in text.splitlines()
    )}  # fmt: skip

    assert len(asked) > 20
    for path in asked:
        finding = sr.Finding("error", path, "1", "must be less", "", "plan", 1, 1, "")
        (line,) = by_question([finding])
        assert line.split(" (")[0] in {question.name for question in questions.QUESTIONS}, path


def test_more_hauls_than_pots_are_written_as_answered_and_remarked(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Source: the project's rule that nothing is clamped in silence."""
    assert (
        main(
            ["new", str(tmp_path / "mine.toml"), "--defaults", "--answer", "pots=80 200", "--answer", "pots_lost=8 75"]
        )
        == 0
    )

    assert "warning: boat.0.fishery.0.hauls_per_day = 200" in capsys.readouterr().out
    assert sr.Plan.read(tmp_path / "mine.toml")["boat.0.fishery.0.hauls_per_day"] == 200.0


def test_the_number_of_questions_is_said_alike_everywhere(capsys: pytest.CaptureFixture[str]) -> None:
    """The source is the list of questions itself."""
    said = f"up to {len(questions.QUESTIONS)} questions"
    readme = Path(__file__).resolve().parents[2] / "README.md"
    for arguments in (["--help"], ["new", "--help"]):
        with pytest.raises(SystemExit):
            main(arguments)
        assert said in " ".join(capsys.readouterr().out.split())

    assert f"asks {said}" in readme.read_text("utf-8")
    assert len(questions.ask({}, take_defaults=True)) == len(questions.QUESTIONS)


def test_the_command_works_from_options_alone_and_writes_a_plan_that_passes_check(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"

    assert main(["new", str(path), "--defaults", "--answer", "pots=300 150", "--answer", "boat=Ægir"]) == 0
    assert main(["check", str(path)]) == 0
    assert "Ægir: a season of" in capsys.readouterr().out
    assert path.read_text("utf-8").count("not asked") >= 10


def test_it_never_writes_over_a_file_and_tells_before_asking(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("my own")

    assert main(["new", str(path)]) == 1
    assert "is there already" in capsys.readouterr().err
    assert path.read_text() == "my own"


def test_typed_answers_are_asked_again_until_they_can_be_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed = iter(["", "pounds", "EUR", *[""] * 40])
    prompts: list[str] = []

    def answer(prompt: str) -> str:
        prompts.append(prompt)
        return next(typed)

    monkeypatch.setattr("builtins.input", answer)
    assert main(["new", str(tmp_path / "mine.toml")]) == 0

    assert sr.Plan.read(tmp_path / "mine.toml").money == "EUR"
    assert "Not taken: 'pounds' is not three letters" in capsys.readouterr().out
    assert len(prompts) == len(questions.QUESTIONS) + 1
    assert all("[" in prompt and "(" in prompt for prompt in prompts)  # default and range are shown


def test_without_a_terminal_the_missing_answer_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def no_more(_: str) -> str:
        raise EOFError

    monkeypatch.setattr("builtins.input", no_more)

    assert main(["new", str(tmp_path / "mine.toml"), "--answer", "boat=Ann"]) == 1
    assert "no answer to 'money': give --answer money=..., or --defaults" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_the_questions_are_listed_with_default_and_range(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "--questions"]) == 0
    lines = capsys.readouterr().out.splitlines()

    assert [line.split(":")[0] for line in lines] == [question.name for question in questions.QUESTIONS]
    assert len(lines) <= 25
