# SPDX-License-Identifier: MIT
"""What a plan says to a lender: past years, the note, sources and stresses. Source of every expected value: the plan's
own text (tests/data/plans/every_key.toml, invented) and the written rules of the plan format."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import seasonrisk as sr
from small_plan import bare, text

EVERY_KEY = Path(__file__).resolve().parents[1] / "data/plans/every_key.toml"
NOT_COLUMNS = {"year"}


@pytest.fixture(scope="module")
def every_key() -> sr.Plan:
    return sr.Plan.read(EVERY_KEY)


def stressed(**stress: Any) -> dict[str, Any]:
    return bare() | {"stress": [{"name": "dear fuel", "set": {"prices.fuel_per_l": 2.0}} | stress]}


def test_each_key_of_a_past_year_is_a_column_of_results(every_key: sr.Plan) -> None:
    told = {path.split(".")[2] for path in every_key.numbers if path.startswith("past_year.")}
    names = {column.name for column in sr._core.columns_of(every_key._core)}

    assert len(told) == 16
    assert told - NOT_COLUMNS <= names


def test_past_years_and_the_note_do_not_touch_the_simulation(every_key: sr.Plan) -> None:
    toml = every_key.text
    without = sr.Plan.parse(toml[: toml.index("[[stress]]")] + toml[toml.index("[[suppose]]") :])
    keep = ["household", "closing_cash", "days_fished"]
    run, plain = (sr.simulate(plan, histories=64, key=5, keep=keep) for plan in (every_key, without))

    assert all((run[name] == plain[name]).all() for name in keep)


def test_the_owners_words_keep_their_lines(every_key: sr.Plan) -> None:
    assert str(every_key["note.in_a_bad_year"]).splitlines() == [
        "Cedar stays ashore and her gear is sold;",
        "the owner works at the net loft through the winter.",
    ]


def test_a_source_stands_for_its_number_or_for_its_section(every_key: sr.Plan) -> None:
    assert every_key.source_of("species.0.per_haul") == sr.Source("own record", "logbook 2022 to 2026")
    assert every_key.source_of("loan.0.rate_fraction") == sr.Source("published")
    assert every_key.source_of("weather.unfishable_fraction.aug") == sr.Source("owner's estimate")
    assert every_key.source_of("boat.0.breakdown.1.repair") == sr.Source("default")
    assert every_key.source_of("loan.1.rate_fraction") is None
    assert set(every_key.sources) == {"species.0.per_haul", "loan.0", "weather", "boat.0.breakdown.1.repair"}


def test_a_source_of_what_a_choice_takes_out_does_no_harm() -> None:
    plan = bare() | {
        "loan": [{"name": "boat", "balance": 9000.0, "rate_fraction": 0.08, "years_left": 3}],
        "sources": {"loan.0.balance": "own record"},
        "choice": [{"name": "paid off", "remove": ["loan.0"]}],
    }

    chosen = sr.Plan.parse(text(plan)).choose("paid off")

    assert "loan.0.balance" not in chosen
    assert chosen.source_of("loan.0.balance") == sr.Source("own record")


def test_a_stress_is_a_change_under_the_same_luck_and_no_choice() -> None:
    plan = sr.Plan.parse(text(stressed()))

    assert plan.stresses == ("dear fuel",)
    assert plan.choices == ()
    assert plan.under("dear fuel") == plan.choose({"prices.fuel_per_l": 2.0})
    assert plan.under("dear fuel")["prices.fuel_per_l"] == 2.0


def test_a_stress_may_suppose_an_event() -> None:
    event = {"what": "closure", "from": bare()["season"]["start"], "days": 21}
    plan = sr.Plan.parse(text(stressed(set={"suppose.+": event})))

    assert plan.under("dear fuel")["suppose.0.days"] == 21
    assert "suppose.0.days" not in plan


def test_a_stress_that_is_not_there_is_refused_with_those_that_are() -> None:
    plan = sr.Plan.parse(text(stressed()))

    with pytest.raises(KeyError, match="stress=dear bait: the plan has no such stress; it has dear fuel"):
        plan.under("dear bait")


def test_a_plan_with_a_lenders_keys_is_written_and_read_back(tmp_path: Path, every_key: sr.Plan) -> None:
    every_key.replace({"note.ask": 26000, "past_year.1.sales": 162000}).write(tmp_path / "out.toml")
    read = sr.Plan.read(tmp_path / "out.toml")

    assert (read["note.ask"], read["past_year.1.sales"]) == (26000.0, 162000.0)
    assert read.sources == every_key.sources


@pytest.mark.parametrize(
    "sentence",
    [
        "Cedar: 24,000 GBP at 8 in 100 a year, paid off in",
        "interest alone for the first 12 months, then level payments over what is left; with each new money year the rate "
        "moves, up or down, by 6 points (standard deviation), never below 0, and the payment is worked out anew",
        "Winter: 3,000 GBP at 0 in 100 a year, paid off in 2 years; repaid early",
        "GBP at the end of June 2027, 250 GBP at the end of March 2028 and 9,000 GBP at the end of October 2028, no more "
        "than is owed; the payments stay as large and end the sooner.",
        "Stresses of your own, beside those that are always the same: The pier closes.",
        "Past year 2026: sales 161,000 GBP; nothing simulated rests on it.",
        "Past year 2025: sales 182,000 GBP, days fished 301, fuel 21,500 GBP",
        "Note for the lender: 24,000 GBP asked for of Harbour Credit, invented and 9,000 GBP put by outside the account",
        "Sources told of numbers or of whole sections:",
    ],
)
def test_what_a_lender_is_told_is_said_in_a_sentence(
    every_key: sr.Plan, sentence: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("seasonrisk.describe.bill_lines", lambda plan: [])

    assert sentence in every_key.describe()
