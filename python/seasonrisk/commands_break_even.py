# SPDX-License-Identifier: MIT
"""What ``seasonrisk break-even`` does."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import Any

from seasonrisk.arguments import add_run
from seasonrisk.choice.break_even import BreakEven, break_even
from seasonrisk.choice.input_names import DAYS, NAMES
from seasonrisk.json_values import estimate_json
from seasonrisk.page import wrapped
from seasonrisk.plan import Plan
from seasonrisk.words import CAUTIONS

__all__ = ["add_parser", "run"]


def add_parser(add: Any, seed: Any) -> None:
    """Its arguments; ``seed`` reads the seed as in every command."""
    ask = add.add_parser(
        "break-even", help="find the price, catch, days or other number at which a rung is just covered", formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Find the value of a number of the plan at which a rung is just covered, on average or in so many\nseasons.",
        epilog="example:\n  seasonrisk break-even my_boat.toml price --of loan\n  seasonrisk break-even my_boat.toml days --of household --chance 0.9",
    )  # fmt: skip
    ask.add_argument("plan", type=Path, metavar="PLAN", help="plan file")
    ask.add_argument("what", nargs="+", metavar="KEY", help=f"{', '.join([*NAMES, DAYS])}, or a key such as prices.fuel_per_l; several move by one factor")
    ask.add_argument("--of", default="loan", metavar="RUNG", help="running, standing, loan, household or cash_room; loan when left out")
    ask.add_argument("--target", type=float, default=0.0, metavar="MONEY", help="what the rung is to leave; 0 when left out")
    ask.add_argument("--chance", type=float, metavar="P", help="share of seasons that is to reach it, such as 0.9; left out, the average is to")
    ask.add_argument("--between", type=float, nargs=2, metavar=("LOW", "HIGH"), help="range to search, in the unit of the key, or as factors")
    add_run(ask, seasons=10_000, of_what=" for each value tried")
    ask.add_argument("--json", action="store_true", help="the numbers for machines, in place of the page")


def run(asked: argparse.Namespace) -> None:
    """Find and print."""
    found = break_even(
        Plan.read(asked.plan),
        asked.what[0] if len(asked.what) == 1 else asked.what,
        of=asked.of,
        target=asked.target,
        chance=asked.chance,
        between=None if asked.between is None else tuple(asked.between),
        histories=asked.seasons,
        rng=asked.seed,
        key=asked.key,
        threads=asked.threads,
        progress=sys.stderr.isatty(),
    )
    print(json.dumps(_as_json(found), indent=2) if asked.json else "\n".join([repr(found), "", *wrapped(" ".join(CAUTIONS))]))


def _as_json(found: BreakEven) -> dict[str, Any]:
    return {
        "what": found.moved.what,
        "unit": found.moved.unit,
        "in_plan": found.moved.in_plan,
        "of": found.of,
        "target": found.target,
        "chance": found.chance,
        "crossings": [{"value": estimate_json(c.value), "rising": c.rising} for c in found.crossings],
        "turns": found.turns,
        "tried": [{"value": value, "gives": estimate_json(estimate)} for value, estimate in found.tried],
        "run": {"key": found.key, "histories": found.histories, "plans": found.runs},
        "text": " ".join(repr(found).split()),
        "cautions": CAUTIONS,
    }
