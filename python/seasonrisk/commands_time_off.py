# SPDX-License-Identifier: MIT
"""What ``seasonrisk time-off`` does."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import Any

from seasonrisk.arguments import add_run
from seasonrisk.choice.time_off import DaysOff, TimeOff, time_off
from seasonrisk.choice.time_off_page import cheapest_sentence, sentence, whole_page
from seasonrisk.commands_end_early import date_argument
from seasonrisk.json_values import estimate_json
from seasonrisk.plan import Plan
from seasonrisk.words import CAUTIONS

__all__ = ["add_parser", "run"]


def add_parser(add: Any) -> None:
    """Its arguments."""
    parser = add.add_parser(
        "time-off", help="what some days off in mid-season give up, and from when they give up least",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Score days off in mid-season under the same luck: money given up, days gained at home, the chance of each "
        "rung with and without, and the same number of days from every other week of the season.",
        epilog="example:\n  seasonrisk time-off my_boat.toml --from 2027-07-10 --days 14 --seed 7",
    )  # fmt: skip
    parser.add_argument("plan", type=Path, metavar="PLAN", help="plan file")
    parser.add_argument("--from", type=date_argument, required=True, dest="first_day", metavar="DATE", help="first day off")
    until = parser.add_mutually_exclusive_group(required=True)
    until.add_argument("--days", type=int, metavar="N", help="how many days on the calendar, the first included")
    until.add_argument("--to", type=date_argument, dest="last_day", metavar="DATE", help="last day off, in place of --days")
    parser.add_argument("--why", default="time off", metavar="WORDS", help="what it is for")
    parser.add_argument("--only", action="store_true", help="these days alone, not as many from other weeks")
    add_run(parser, seasons=20_000, of_what=", for each week tried")
    parser.add_argument("--json", action="store_true", help="the numbers for machines, in place of the page")


def run(asked: argparse.Namespace) -> None:
    """Simulate and print."""
    found = time_off(
        Plan.read(asked.plan), asked.first_day, asked.last_day, days=asked.days, why=asked.why, move=not asked.only,
        histories=asked.seasons, rng=asked.seed, key=asked.key, threads=asked.threads, progress=sys.stderr.isatty(),
    )  # fmt: skip
    print(json.dumps(_as_json(found), indent=2) if asked.json else whole_page(found))


def _as_json(found: TimeOff) -> dict[str, Any]:
    facts = found.facts
    return {
        "plan": {"name": found.plan.name, "source": found.plan.source, "money": found.money},
        "run": {"key": facts.key, "histories": found.histories, "version": facts.version, "stream_version": facts.stream_version},
        "why": found.why,
        "as_it_is": {
            "chances": {name: estimate_json(chance) for name, chance in found.chances.items()},
            "family": {name: estimate_json(chance) for name, chance in found.family.items()},
        },
        "asked": _days_json(found.asked) | {"sentence": sentence(found)},
        "became": {words: estimate_json(mean) for words, mean in found.days()},
        "starts": [_days_json(days) for days in found.starts],
        "least": {"first_days": [days.first_day.isoformat() for days in found.cheapest()], "sentence": cheapest_sentence(found)} if found.starts else None,
        "runs_made": found.runs_made,
        "cautions": CAUTIONS,
    }


def _days_json(days: DaysOff) -> dict[str, Any]:
    single = ("low", "high", "days_gained", "per_day", "per_day_at_home")
    several = ("given_up", "chances", "chance_changes", "family")
    return {
        "first_day": days.first_day.isoformat(),
        "last_day": days.last_day.isoformat(),
        **{name: estimate_json(getattr(days, name)) for name in single},
        **{name: {key: estimate_json(value) for key, value in getattr(days, name).items()} for name in several},
    }
