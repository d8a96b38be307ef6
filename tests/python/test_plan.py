# SPDX-License-Identifier: MIT
"""Plans: read, look at, change, write. Sources: the written rules of the plan format (DEVELOPERS.md), and arithmetic
beside each test; the figures of the plans are invented."""

from __future__ import annotations

import datetime as dt
import math
import pickle
import sys
from pathlib import Path
from typing import Any

import pytest
import seasonrisk as sr
from small_plan import bare, text

POTS = "boat.0.fishery.0.count"
GUESSED = "species.0.per_haul"


def with_choice() -> sr.Plan:
    plan = bare()
    plan["boat"][0]["fishery"][0]["elasticity"] = 0.5
    plan["choice"] = [
        {"name": "More pots", "set": {POTS: 400}},
        {"name": "Dear fuel", "set": {"prices.fuel_per_l": 2.0}},
    ]
    return sr.Plan.parse(text(plan))


def test_a_plan_that_is_not_changed_is_written_byte_for_byte(tmp_path: Path, demo_path: Path) -> None:
    data = demo_path.read_bytes().replace(b"\n", b"\r\n") + b"# last line without an end"
    (tmp_path / "in.toml").write_bytes(data)

    sr.Plan.read(tmp_path / "in.toml").write(tmp_path / "out.toml")

    assert (tmp_path / "out.toml").read_bytes() == data


def test_a_changed_plan_is_written_with_its_comments_and_reads_back_equal(tmp_path: Path, plan: sr.Plan) -> None:
    changed = plan.replace(
        {
            POTS: 500,
            GUESSED: sr.Guess(0.1, 0.12, 0.15),
            "season.end": dt.date(2027, 11, 20),
            "household.draw_per_month": 1234.5,
        }
    )

    changed.write(tmp_path / "out.toml")
    written = (tmp_path / "out.toml").read_text("utf-8")

    assert sr.Plan.read(tmp_path / "out.toml") == changed
    assert changed != plan
    assert [line for line in written.splitlines() if line.startswith("#")] == [
        line for line in plan.text.splitlines() if line.startswith("#")
    ]
    assert "count = 500                      # pots in the water" in written


@pytest.mark.parametrize(
    "change", [{"prices.fuel_year_carry": 0.5}, {"boat.0.day_costs.0.amount": 13}, {"loan.0.years_left": 4}]
)
def test_a_key_left_out_or_inside_a_list_can_be_changed_and_written(
    tmp_path: Path, plan: sr.Plan, change: dict[str, float]
) -> None:
    plan.replace(change).write(tmp_path / "out.toml")

    assert {path: sr.Plan.read(tmp_path / "out.toml")[path] for path in change} == change


def test_writing_never_replaces_a_file_unless_told(tmp_path: Path, plan: sr.Plan) -> None:
    there = tmp_path / "mine.toml"
    there.write_text("my own")

    with pytest.raises(FileExistsError, match=r"mine\.toml is there already"):
        plan.write(there)
    assert there.read_text() == "my own"

    plan.write(there, overwrite=True)
    assert there.read_text("utf-8") == plan.text
    assert [path.name for path in tmp_path.iterdir()] == ["mine.toml"]


def test_writing_a_changed_plan_without_the_editor_tells_what_to_install(
    tmp_path: Path, plan: sr.Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "tomlkit", None)

    with pytest.raises(sr.MissingExtra, match=r'pip install "seasonrisk\[edit\]"'):
        plan.replace({POTS: 500}).write(tmp_path / "out.toml")
    assert list(tmp_path.iterdir()) == []


def test_numbers_are_floats_guesses_and_sizes_by_path(plan: sr.Plan) -> None:
    assert plan[POTS] == 420.0
    assert plan.numbers[GUESSED] == sr.Guess(0.115, 0.13, 0.145)
    assert plan.numbers["boat.0.breakdown.0.repair"] == sr.EventSize(80.0, 350.0, 1200.0)
    assert plan["season.start"] == dt.date(2027, 6, 1)
    assert plan["season.rest_days"] == ["Sunday"]
    assert plan["boat.0.crew.0.pay"] == "share after bait and fuel"
    assert plan.numbers["boat.0.catching_power"] == 1.0  # a default, not in the file


def test_a_plan_cannot_be_changed_in_place(plan: sr.Plan) -> None:
    with pytest.raises(TypeError):
        plan.numbers[POTS] = 1.0  # type: ignore[index]
    with pytest.raises(AttributeError):
        plan.text = ""  # type: ignore[misc]


def test_a_wrong_path_names_the_nearest(plan: sr.Plan) -> None:
    with pytest.raises(KeyError, match=r"did you mean boat\.0\.fishery\.0\.count"):
        plan["boat.0.fishery.0.counts"]


def test_a_choice_keeps_the_pots_of_the_plan_before_for_crowding_and_a_replaced_plan_does_not() -> None:
    """Catch per pot of a choice is (400 / 100)^(0.5 - 1) = 1/2 of the plan's: the written rule of crowding."""
    plan = with_choice()
    catch_per_haul = {}
    for name, one in {"plan": plan, "choice": plan.choose("More pots"), "own": plan.replace({POTS: 400})}.items():
        run = sr.simulate(one, histories=1, key=1, keep=["catch.crab", "hauls"])
        catch_per_haul[name] = run["catch.crab"][0] / run["hauls"][0]

    assert catch_per_haul["plan"] == pytest.approx(1.0, rel=1e-12)
    assert catch_per_haul["choice"] == pytest.approx(0.5, rel=1e-12)
    assert catch_per_haul["own"] == pytest.approx(1.0, rel=1e-12)


def test_choices_add_up_and_take_values_too() -> None:
    plan = with_choice()
    both = plan.choose("More pots").choose("Dear fuel")

    assert plan.choices == ("More pots", "Dear fuel")
    assert both == plan.choose({POTS: 400, "prices.fuel_per_l": 2.0})
    assert both != plan.replace({POTS: 400, "prices.fuel_per_l": 2.0})  # the base differs
    assert both.changes == ((POTS, "400"), ("prices.fuel_per_l", "2.0"))
    with pytest.raises(KeyError, match="it has More pots, Dear fuel"):
        plan.choose("Less pots")


def test_a_choice_made_from_a_replaced_plan_crowds_against_that_plan() -> None:
    """(400 / 200)^(0.5 - 1) of the plan with 200 pots: the written rule of crowding."""
    run = sr.simulate(
        with_choice().replace({POTS: 200}).choose("More pots"), histories=1, key=1, keep=["catch.crab", "hauls"]
    )

    assert run["catch.crab"][0] / run["hauls"][0] == pytest.approx(0.5**0.5, rel=1e-12)


def test_problems_come_all_at_once_with_their_lines() -> None:
    broken = text(
        bare(season={"end": dt.date(2026, 1, 1)}, weather={"unfishable_fraction": 15.0}, prices={"fuel_per_1": 2})
    )

    with pytest.raises(sr.PlanError) as caught:
        sr.Plan.parse(broken, "mine.toml")

    found = caught.value.findings
    assert {finding.path for finding in found} >= {"season.end", "weather.unfishable_fraction", "prices.fuel_per_1"}
    assert all(finding.file == "mine.toml" and finding.line > 0 for finding in found)
    assert str(caught.value).count("mine.toml:") == len(found)
    assert isinstance(caught.value, ValueError)


@pytest.mark.parametrize(
    ("data", "says"),
    [(b"", "the plan is empty"), (b"\xff\xfeplan", "is not UTF-8 text"), (b"a = = 1", "cannot be read as TOML")],
)
def test_what_is_no_plan_is_a_finding_not_a_crash(tmp_path: Path, data: bytes, says: str) -> None:
    (tmp_path / "broken.toml").write_bytes(data)

    with pytest.raises(sr.PlanError, match=says):
        sr.Plan.read(tmp_path / "broken.toml")


def test_a_name_cut_in_the_middle_of_a_letter_is_told_not_a_crash() -> None:
    with pytest.raises(sr.PlanError, match="no longer than 80 letters"):
        sr.Plan.parse(text(bare(business={"name": "x" + "é" * 100})))


def test_names_of_any_script_come_back_as_they_were() -> None:
    plan = sr.Plan.parse(text(bare(business={"name": "Ägir - 海 🦀"})))

    assert plan.name == "Ägir - 海 🦀"
    assert "Ägir - 海 🦀" in repr(sr.simulate(plan, histories=10, key=1))


def test_errors_and_plans_survive_a_pickle(plan: sr.Plan) -> None:
    with pytest.raises(sr.PlanError) as caught:
        sr.Plan.parse("")
    choice = plan.choose({POTS: 520})

    assert pickle.loads(pickle.dumps(caught.value)).findings == caught.value.findings
    assert pickle.loads(pickle.dumps(choice)) == choice


def test_describe_says_days_costs_and_the_tie_of_price_and_catch(plan: sr.Plan) -> None:
    """183 days, 26 Sundays, 2 other days off; exp(-0.3 x 0.20 x 0.12) - 1 = -0.72 in 100 (the larger of two species);
    yearly loan payment 8,927: level payment of 60,000 at 8.5 in 100 over 120 months, 743.92 a month."""
    said = plan.describe()

    assert "a season of 183 days, 1 June 2027 to 30 November 2027; rest days Sunday; 155 days are left" in said
    assert "mean sales are 0.7 in 100 below mean catch times mean price" in said
    assert "8,927 GBP of loan payments" in said
    assert "Deckhand gets 20 in 100 of the week's sales after its bait and fuel are taken off" in said
    assert "18,000 GBP for the household" in said


def test_describe_prints_the_mean_of_a_guess_as_the_formula_has_it(plan: sr.Plan) -> None:
    """Two half-normals on the log scale: typical x [exp(a^2/2) Phi(-a) + exp(b^2/2) Phi(b)], a and b the slopes down
    and up (written rule of guesses); 1 in 1,000 at z = 3.0902."""
    a, b = (abs(math.log(end / 0.95)) / 1.281551565545 for end in (0.80, 1.25))

    def phi(x: float) -> float:
        return 0.5 * math.erfc(-x / math.sqrt(2.0))

    mean = 0.95 * (math.exp(a * a / 2.0) * phi(-a) + math.exp(b * b / 2.0) * phi(b))
    line = next(line for line in plan.describe().splitlines() if "prices.fuel_per_l" in line)

    assert line.split()[1:4] == ["0.95", f"{mean:.4g}", f"{0.95 * math.exp(3.0902323 * b):.4g}"]


@pytest.mark.parametrize(
    ("sections", "says"),
    [
        ({"household": {"tax_fraction": 0.0375, "tax_months": ["jan"]}}, "tax takes 3.75 in 100"),
        ({"household": {"tax_fraction": 0.07, "tax_months": ["jan"]}}, "tax takes 7 in 100"),
        ({"household": {"tax_fraction": 0.1, "wear_allowance": 12000.5, "tax_months": ["jan"]}}, "loan interest and 12,000.50 GBP for wear"),
        ({"weather": {"persistence": 0.123456}}, "(tie to the day before 0.123456)"),
        ({"species": {"per_haul": 0.123456}}, "0.123456 kg a pot"),
        ({"outlet": {"price": {"crab": 2.125}}}, "usual price 2.125 GBP a kg"),
        ({"business": {"opening_cash": 12345.67}}, "Cash: 12,345.67 GBP"),
        ({"boat": {"insurance": {"hull_value": 1, "premium": 1234.5, "pay_month": "may", "deductible": 250, "total_loss_odds_per_year": 0.0012345}}},
         "1,234.50 GBP a year; your own part of each claim 250 GBP; odds of losing the boat 0.0012345 a year"),
        ({"boat": {"crew": [{"name": "Jo", "pay": "share of sales", "share_fraction": 0.123456}]}}, "Jo gets 12.3456 in 100"),
        ({"boat": {"crew": [{"name": "Jo", "pay": "day wage", "per_day": 110.25}]}}, "Jo gets 110.25 GBP for each"),
    ],
    ids=str,
)  # fmt: skip
def test_describe_says_the_plans_own_numbers_as_they_were_typed(sections: dict[str, Any], says: str) -> None:
    """The expected words hold the very digits of the plan."""
    assert says in sr.Plan.parse(text(bare(**sections))).describe()


@pytest.mark.parametrize(
    ("count", "hauls", "says"),
    [
        (80, 200, "Pots: 80, all of them hauled on each day out, none of them twice; 200 could be hauled"),
        (100, 100, "Pots: 100, all of them hauled on each day out."),
        (300, 200, "Pots: 300, of which 200 are hauled a day, so each about every 1.5 days out."),
    ],
)
def test_describe_says_how_often_a_pot_is_hauled(count: int, hauls: int, says: str) -> None:
    """The engine hauls no more pots in a day than there are (design: hauls = min(H, pots in the water)): 80 pots at
    1 kg and 1 GBP are 80 GBP a day, and 80 baits of 0.50 are 40 GBP."""
    fishery = [{"gear": "pots", "count": count, "hauls_per_day": hauls, "species": ["crab"]}]
    said = sr.Plan.parse(text(bare(boat={"fishery": fishery}, prices={"bait_per_haul": 0.5}))).describe()

    full = min(count, hauls)
    assert says in said
    assert f"{full} kg from {full} hauls" in said
    assert f"{full / 2:.0f} GBP of bait" in said


@pytest.mark.parametrize(
    ("string", "says"), [({}, "steadily, a few at a time"), ({"pots_per_string": 20}, "by the string of 20")]
)
def test_describe_says_whether_pots_go_steadily_or_by_the_string(string: dict[str, Any], says: str) -> None:
    """The plan's own key; 12 in 100 of 100 pots at 75 GBP are 12 pots and 900 GBP."""
    loss = {"season_fraction": 0.12, "pot_cost": 75, "replace": "at once", **string}
    said = sr.Plan.parse(text(bare(boat={"gear_loss": loss}))).describe()

    assert f"Pots lost: about 12 a season, 900 GBP, {says}; replaced at once." in said


def test_describe_leaves_the_letters_of_names_as_they_are() -> None:
    crew = [
        {"name": "Jo McLeod", "pay": "day wage", "per_day": 100},
        {"name": "second hand", "pay": "day wage", "per_day": 9},
    ]
    said = sr.Plan.parse(text(bare(boat={"crew": crew}))).describe()

    assert "Jo McLeod gets" in said
    assert "Second hand gets" in said


def test_warnings_of_a_sound_plan_are_kept() -> None:
    plan = sr.Plan.parse(text(bare(prices={"fuel_per_l": {"low": 0.1, "typical": 0.2, "high": 5.0}})))

    assert [(f.severity, f.path) for f in plan.findings] == [("warning", "prices.fuel_per_l")]


def test_a_value_that_no_plan_holds_is_refused_by_its_type(plan: sr.Plan) -> None:
    with pytest.raises(TypeError, match="a plan holds numbers"):
        plan.replace({POTS: object()})  # type: ignore[dict-item]


def test_repr_is_short(plan: sr.Plan) -> None:
    assert repr(plan.replace({POTS: 500})).startswith("<Plan 'Marigold Anne' from ")
    assert len(repr(plan).splitlines()) == 1
