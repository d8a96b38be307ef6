# SPDX-License-Identifier: MIT
"""What ``seasonrisk compare`` does."""

from __future__ import annotations

import argparse
import dataclasses
import json
import sys
from pathlib import Path
from typing import Any

from seasonrisk.arguments import add_run
from seasonrisk.choice.compare import compare as compare_choices
from seasonrisk.choice.compared import Compared, Comparison
from seasonrisk.estimate import Estimate
from seasonrisk.json_values import estimate_json
from seasonrisk.plan import Plan
from seasonrisk.words import CAUTIONS

__all__ = ["add_compare", "compare"]

EXAMPLE = """\
[[choice]]
name = "Fifty more pots"
set = { "boat.0.fishery.0.count" = 250 }"""


def add_compare(add: argparse._SubParsersAction[Any], seed: Any) -> None:
    """Add the command to the command line; ``seed`` reads a seed."""
    parser = add.add_parser(
        "compare", help="compare choices with the plan as it is, under the same luck", formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Compare choices with the plan as it is: each meets the same weather, catch, prices and breakdowns.",
        epilog="example:\n  seasonrisk compare my_boat.toml\n  seasonrisk compare my_boat.toml --choice 'More pots' --equal-within 500",
    )  # fmt: skip
    parser.add_argument("plan", type=Path, metavar="PLAN", help="plan file")
    parser.add_argument("--choice", action="append", metavar="NAME", help="a [[choice]] of the plan, as often as you like; left out, all of them")
    add_run(parser, seasons=100_000, of_what=" of each")
    parser.add_argument("--equal-within", type=float, metavar="AMOUNT", help="money: choices that surely differ by less are equal for you")
    parser.add_argument(
        "--largest-loss", type=float, metavar="AMOUNT",
        help="the largest loss of a season, or of all seasons together where the plan has several, that you would take at 1 chance in 20: adds what each choice is worth to so cautious an owner",
    )  # fmt: skip
    parser.add_argument("--json", action="store_true", help="the numbers for machines, in place of the page")


def compare(asked: argparse.Namespace) -> None:
    """Compare and print."""
    plan = Plan.read(asked.plan)
    if asked.choice is None and not plan.choices:
        raise ValueError(f"{asked.plan}: has no [[choice]] to compare; write one at its end, such as\n{EXAMPLE}")
    found = compare_choices(
        plan,
        asked.choice,
        histories=asked.seasons,
        rng=asked.seed,
        key=asked.key,
        indifference=asked.equal_within,
        largest_loss=asked.largest_loss,
        threads=asked.threads,
        progress=sys.stderr.isatty(),
    )
    print(json.dumps(_comparison_json(found), indent=2) if asked.json else found.page())


def _comparison_json(found: Comparison) -> dict[str, Any]:
    return {
        "plan": {"name": found.plan.name, "source": found.plan.source, "money": found.money},
        "run": {**dataclasses.asdict(found.facts), "histories": found.histories},
        "indifference": found.indifference,
        "choices": [_choice_json(choice) for choice in found],
        "boats": [_plain(boat) for boat in found.base_boats],
        "caution": _plain(found.caution),
        "cautions": CAUTIONS,
    }


def _choice_json(choice: Compared) -> dict[str, Any]:
    told = ("rungs", "end_position", "two_bad_years", "steps", "boats", "new_boat", "pots", "policies", "hours", "notes")
    return {"name": choice.name, "why": choice.why, "changes": choice.plan.changes, **{name: _plain(getattr(choice, name)) for name in told}}


def _plain(value: Any) -> Any:
    """Estimates and what holds them as plain values."""
    if isinstance(value, Estimate):
        return estimate_json(value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {name: _plain(one) for name, one in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    return value
