# SPDX-License-Identifier: MIT
"""``seasonrisk break-even``: words, exit codes, JSON. Source: a sum by hand (100 days that leave 100 each, bills of
4,000), and the written list of exit codes (0 well, 1 cannot, 2 the plan has problems)."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
import seasonrisk as sr
from seasonrisk.cli import main
from small_plan import bare, text


@pytest.fixture
def path(tmp_path: Path) -> Path:
    plan = bare()
    plan["standing"] = [{"name": "bills", "amount": 4000.0, "month": "jul"}]
    file = tmp_path / "plan.toml"
    file.write_text(text(plan))
    return file


def test_the_answer_and_the_cautions_are_printed(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["break-even", str(path), "price", "--of", "standing", "--seasons", "64", "--seed", "1"])
    out = " ".join(capsys.readouterr().out.split())

    assert code == 0
    assert "The bills are covered on average with price, outlet.0.price.crab from 0.4 GBP a kg (exact) upwards" in out
    assert "it can fall by 60 in 100" in out
    assert all(caution in out for caution in sr.CAUTIONS)


def test_json_holds_the_same_and_what_makes_it_again(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    options = ["--of", "standing", "--between", "0.1", "2", "--seasons", "64", "--seed", "1", "--json"]
    code = main(["break-even", str(path), "price", "catch", *options])
    said = json.loads(capsys.readouterr().out)

    assert code == 0
    assert said["crossings"][0]["value"]["value"] == pytest.approx(0.4**0.5)
    assert said["run"]["plans"] == len(said["tried"])
    assert said["cautions"] == list(sr.CAUTIONS)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["prices.fuel"], "did you mean prices.fuel_per_l"),
        (["price", "--chance", "90"], "--chance 90.0: must be above 0 and below 1"),
        (["price", "--of", "lone"], "no such column"),
        (["price", "--between", "2", "1"], "the lower first"),
    ],
)
def test_what_cannot_be_done_is_told_in_a_line(
    path: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], says: str
) -> None:
    code = main(["break-even", str(path), *arguments, "--seasons", "8"])

    assert code == 1
    assert says in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["prise"], "KEY prise: is no key of the plan, nor one of price, catch, bait, fuel, crew share, draw, days; did you mean price?"),
        (["crab"], "did you mean outlet.0.price.crab?"),
        (["price", "--of", "profit"], "--of profit: no such column; running, standing, loan, household and cash_room"),
        (["outlet.0.price.crab", "--between", "-1", "2"], "must lie from 0 to"),
    ],
)
def test_what_a_skipper_types_wrong_is_named_as_he_typed_it(
    path: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], says: str
) -> None:
    assert main(["break-even", str(path), *arguments, "--seasons", "8"]) == 1
    assert says in capsys.readouterr().err


def test_prices_moved_together_are_told_one_by_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["break-even", "examples/plans/two_boats_whelk.toml", "price", "--seasons", "200", "--seed", "1"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    factor, first, second = map(float, re.findall(r"At ([\d.]+) times: whelk to Ellack Shellfish ([\d.]+) \(the plan has 1.35\), whelk to the lorry ([\d.]+)", out)[0])
    assert first == pytest.approx(1.35 * factor, abs=0.02)
    assert second == pytest.approx(1.05 * factor, abs=0.02)


def test_money_asked_for_is_told_as_money(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["break-even", str(path), "price", "--of", "standing", "--target", "1000000", "--seasons", "8"]) == 0
    assert "what is left after the bills is 1,000,000 GBP or more" in " ".join(capsys.readouterr().out.split())


def test_help_has_an_example(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["break-even", "--help"])
    assert "seasonrisk break-even my_boat.toml price --of loan" in capsys.readouterr().out
