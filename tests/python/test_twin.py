# SPDX-License-Identifier: MIT
"""The engine against the twin: the same draws at the same addresses, every column of 500 histories.

The twin (`twin/`) was written from the description of the model without sight of the engine; all expected
values here are its own.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest
import seasonrisk as sr
from twin import full_plan, plan_values
from twin.philox import fnv1a32, philox
from twin.season import simulate

ROOT = Path(__file__).resolve().parents[2]
HISTORIES = 500
KEY = 0x5EA50_0F_B0A7
DEMO = (ROOT / "examples/plans/one_boat.toml").read_text(encoding="utf-8")

PLANS = {
    "everything, pots replaced next season": (full_plan.FULL, None),
    "everything, pots replaced at once": (full_plan.AT_ONCE, None),
    "everything, over New Year": (full_plan.OVER_NEW_YEAR, None),
    "one species": (full_plan.ONE_SPECIES, None),
    "the choice of more pots": (full_plan.FULL, "More pots"),
    "events supposed for certain": (full_plan.SUPPOSED, None),
    "the demo": (DEMO, None),
}


@cache
def twin_columns(text: str, choice: str | None = None, histories: int = HISTORIES) -> dict[str, np.ndarray]:
    plan = plan_values.read(text)
    base = plan
    if choice:
        plan = plan_values.choose(plan, choice)
    rows = [simulate(plan, KEY, history, base) for history in range(histories)]
    return {name: np.array([row[name] for row in rows]) for name in rows[0]}


@pytest.mark.parametrize("name", PLANS)
def test_every_column_of_500_histories_equals_the_twin(name: str) -> None:
    text, choice = PLANS[name]
    plan = sr.Plan.parse(text)
    run = sr.simulate(plan.choose(choice) if choice else plan, histories=HISTORIES, key=KEY, keep=["all"])
    expected = twin_columns(text, choice)

    shared = set(run.columns) & set(expected)  # what a plan cannot have (no stall, no stop), the engine leaves out
    assert len(shared) > 60
    for column in sorted(shared):
        values = expected[column]
        np.testing.assert_allclose(run[column], values, rtol=1e-9, atol=1e-6, err_msg=column)


def test_the_plans_use_what_they_are_meant_to_use() -> None:
    """A feature that never happens in 500 histories would be compared in vain."""
    columns = twin_columns(full_plan.FULL)

    happens = (
        "days_broken_down",
        "days_weather",
        "days_off",
        "days_setting",
        "claims",
        "overdraft_interest",
        "tax",
    )
    happens += (
        "pots_lost",
        "total_loss",
        "owed_to_us",
        "breakdowns.major",
        "crew_pay.deckhand",
        "selling_costs",
    )
    for column in happens:
        assert np.count_nonzero(columns[column]) > HISTORIES / 50, column
    for column in ("days_fished", "lowest_cash_month", "catch.crab", "loan_payments"):
        assert len(np.unique(columns[column])) > 2, column


@pytest.mark.parametrize(
    ("counter", "key", "words"),
    [
        # Salmon, Moraes, Dror & Shaw 2011, Random123 file tests/kat_vectors (commit 9545ff64), philox4x32 10.
        ((0, 0, 0, 0), 0, "6627e8d5 e169c58d bc57ac4c 9b00dbd8"),
        ((2**32 - 1,) * 4, 2**64 - 1, "408f276d 41c83b0e a20bc7c6 6d5451fd"),
        (
            (0x243F6A88, 0x85A308D3, 0x13198A2E, 0x03707344),
            0x299F31D0_A4093822,
            "d16cfe09 94fdcceb 5001e420 24126ea1",
        ),
    ],
)
def test_the_twin_draws_the_published_words(counter: tuple[int, ...], key: int, words: str) -> None:
    assert " ".join(f"{word:08x}" for word in philox(counter, key)) == words


def test_the_twin_hashes_paths_as_published() -> None:
    """FNV-1a, 32 bits, of "foobar": test vectors of Fowler, Noll & Vo (draft-eastlake-fnv)."""
    assert fnv1a32("foobar") == 0xBF9CF968


def test_history_numbers_above_32_bits_have_draws_of_their_own() -> None:
    """word 3 of the counter carries the high bits of the history (address table of the model)."""
    plan = plan_values.read(DEMO)

    low, high = (simulate(plan, KEY, history) for history in (3, 3 + 2**32))

    assert low["household"] != high["household"]


@pytest.mark.parametrize("name", PLANS)
def test_the_books_of_the_twin_reconcile(name: str) -> None:
    """Opening cash + household rung - owed to us + owed by us - repaid early = closing cash (definitions of the rungs)."""
    text = PLANS[name][0].replace("{ low = -3000, typical = 1500, high = 5000 }", "1500")
    opening = plan_values.read(text)["business"]["opening_cash"]

    c = twin_columns(text, histories=20)

    closing = opening + c["household"] - c["owed_to_us"] + c["owed_by_us"] - c["loan_repaid_early"]
    np.testing.assert_allclose(closing, c["closing_cash"], rtol=0, atol=1e-6)
