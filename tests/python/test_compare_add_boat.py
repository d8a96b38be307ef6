# SPDX-License-Identifier: MIT
"""A choice that adds a whole boat, with her loan, her worth and what is spent at once, in Python and on the command line.

Source: the same business written the other way round, with the boat in the plan from the start and a choice that takes
her out. The shipped whelk plan is invented.
"""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import seasonrisk as sr
from seasonrisk.cli import main
from small_plan import value_text

WHELK = Path(__file__).resolve().parents[2] / "examples/plans/two_boats_whelk.toml"
BUY, SELL, HER = "Buy the Grey Plover", "Never buy her", "Grey Plover"
SPENT_NOW = 1800
KEY, HISTORIES = 20270601, 3_000
STEPS = {f"{HER}: sales less her own costs and bills", "loan payments", "tax"}


def document(**sections: Any) -> str:
    return "\n".join(f"{name} = {value_text(value)}" for name, value in sections.items()) + "\n"


def both() -> tuple[str, str]:
    """One boat with a choice that buys the second, and two boats with a choice that takes the second out."""
    whelk = tomllib.loads(WHELK.read_text("utf-8"))
    del whelk["choice"]
    hers = {name: [entry for entry in whelk[name] if HER in entry["name"]] for name in ("boat", "loan", "asset")}
    assert [len(entries) for entries in hers.values()] == [1, 1, 1]
    alone = {**whelk, **{name: [entry for entry in whelk[name] if entry not in hers[name]] for name in hers}}
    buy = {"name": BUY, "add_boat": hers["boat"][0], "add_loan": hers["loan"], "add_asset": hers["asset"][0], "spend_now": SPENT_NOW}
    sell = {"name": SELL, "remove": ["boat.1", "loan.1", "asset.1"], "set": {"business.spend_now": 0}}
    spent = {**whelk, "business": {**whelk["business"], "spend_now": SPENT_NOW}}
    return document(**alone, choice=[buy]), document(**spent, choice=[sell])


@pytest.fixture(scope="module")
def found() -> tuple[sr.Comparison, sr.Comparison]:
    return tuple(sr.compare(sr.Plan.parse(one), histories=HISTORIES, key=KEY) for one in both())  # type: ignore[return-value]


def test_buying_her_is_the_other_way_round_of_never_having_her(found: tuple[sr.Comparison, sr.Comparison]) -> None:
    """History by history, at every rung: sales, hired skipper, shared ground, limits of the buyer, loan, tax and all."""
    bought, sold = found[0][BUY], found[1][SELL]
    for name in bought.rungs:
        np.testing.assert_allclose(bought.differences[name], -sold.differences[name], rtol=0.0, atol=1e-9, err_msg=name)
        assert bought.rungs[name].mean.value == pytest.approx(-sold.rungs[name].mean.value, abs=1e-9)
        assert bought.rungs[name].chance.value == pytest.approx(-sold.rungs[name].chance.value, abs=1e-12)
        assert bought.rungs[name].gained.value == sold.rungs[name].lost.value
    assert bought.end_position.value == pytest.approx(-sold.end_position.value, abs=1e-9)
    assert bought.mean.value != 0.0


def test_where_it_comes_from_turns_round_too(found: tuple[sr.Comparison, sr.Comparison]) -> None:
    bought, sold = found[0][BUY], found[1][SELL]
    into, out = dict(bought.steps), dict(sold.steps)
    assert into.keys() == out.keys()
    for name in into:
        assert into[name].value == pytest.approx(-out[name].value, abs=1e-9), name
    assert bought.new_boat is not None
    assert sold.new_boat is not None
    assert (bought.new_boat.names, bought.new_boat.gone) == ((HER,), False)
    assert (sold.new_boat.names, sold.new_boat.gone) == ((HER,), True)
    assert {words for words, _ in bought.new_boat.steps} >= STEPS
    for (_, comes), (_, goes) in zip(bought.new_boat.steps, sold.new_boat.steps, strict=True):
        assert comes.value == pytest.approx(-goes.value, abs=1e-9)
    assert sum(step.value for _, step in bought.new_boat.steps) == pytest.approx(bought.mean.value, abs=1e-6)


def test_does_she_pay_her_own_loan_is_one_answer_both_ways(found: tuple[sr.Comparison, sr.Comparison]) -> None:
    (with_choice,) = (boat for boat in found[0][BUY].boats if boat.name == HER)
    (in_plan,) = (boat for boat in found[1].base_boats if boat.name == HER)
    assert with_choice == in_plan
    assert with_choice.pays_own_loan is not None
    assert 0.05 < with_choice.pays_own_loan.value < 0.95
    assert with_choice.after_own_loan.value < with_choice.contribution.value


def test_what_is_spent_at_once_is_a_cost_of_the_first_year(found: tuple[sr.Comparison, sr.Comparison]) -> None:
    """By hand: without it the standing rung is 1,800 higher in every season."""
    plan = sr.Plan.parse(both()[0])
    spared = plan.choose(BUY).choose({"business.spend_now": 0})
    bought = sr.simulate(plan.choose(BUY), histories=200, key=KEY, keep=["standing"])
    np.testing.assert_allclose(sr.simulate(spared, histories=200, key=KEY, keep=["standing"])["standing"], bought["standing"] + SPENT_NOW, rtol=0, atol=1e-9)


def test_both_questions_stand_on_both_pages(found: tuple[sr.Comparison, sr.Comparison]) -> None:
    pages = [" ".join(comparison.page().split()) for comparison in found]
    for page in pages:
        assert f"{HER} pays her own loan in" in page
    assert f"The business is better off with {HER} in" in pages[0]
    assert f"The business is better off without {HER} in" in pages[1]


def test_the_command_line_says_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "one.toml").write_text(both()[0], "utf-8")
    asked = ["compare", str(tmp_path / "one.toml"), "--seasons", "500", "--seed", "7"]
    assert main(asked) == 0
    page = capsys.readouterr().out
    assert f"{HER} pays her own loan in" in " ".join(page.split())
    assert f"The business is better off with {HER} in" in " ".join(page.split())
    assert max(map(len, page.splitlines())) <= 100
    assert main([*asked, "--json"]) == 0
    (told,) = json.loads(capsys.readouterr().out)["choices"]
    expected = sr.compare(sr.Plan.read(tmp_path / "one.toml"), BUY, histories=500, rng=7)[BUY]
    assert told["rungs"]["household"]["mean"]["value"] == expected.mean.value
    assert told["new_boat"]["names"] == [HER]
