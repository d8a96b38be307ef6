# SPDX-License-Identifier: MIT
"""What ``seasonrisk end-early`` does."""

from __future__ import annotations

import argparse
import datetime as dt
import json
import sys
from pathlib import Path
from typing import Any, Literal

from seasonrisk.arguments import add_run
from seasonrisk.choice.end_early import EndEarly, LastDay, earliest_last_day, end_early
from seasonrisk.choice.end_early_page import family_sentence, sentence, whole_page
from seasonrisk.json_values import estimate_json
from seasonrisk.plan import Plan
from seasonrisk.words import CAUTIONS

__all__ = ["add_parser", "run"]


def _last_days(text: str) -> int | Literal["all"]:
    if text == "all":
        return "all"
    if text.isdecimal() and int(text) > 0:
        return int(text)
    raise argparse.ArgumentTypeError(f"must be a number of days, or all, not {text!r}")


def _date(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"must be a day such as 2027-10-23, not {text!r}") from None


def add_parser(add: Any, seed: Any) -> None:
    """Its arguments; ``seed`` reads the seed as in every command."""
    parser = add.add_parser(
        "end-early", help="what each possible last day of fishing gives up, and who is home by when",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Score every possible last day of fishing under the same luck: money given up, days gained at home,\n"
        "the chances of the loan and the household, and the chance that each date of the family is as wished.",
        epilog="example:\n  seasonrisk end-early my_boat.toml --on 2027-10-23 --seed 7",
    )  # fmt: skip
    parser.add_argument("plan", type=Path, metavar="PLAN", help="plan file")
    parser.add_argument(
        "--on", type=_date, action="append", default=[], metavar="DATE",
        help="tell this last day in full: what it costs and where that comes from; can be given again",
    )  # fmt: skip
    parser.add_argument(
        "--last-days", type=_last_days, default=60, metavar="N",
        help="how many days up to the season's end to look at, or all; 60 when left out",
    )  # fmt: skip
    add_run(parser, seasons=20_000, of_what="")
    parser.add_argument("--json", action="store_true", help="the numbers for machines, in place of the page")


def run(asked: argparse.Namespace) -> None:
    """Simulate and print."""
    plan = Plan.read(asked.plan)
    days = _days_asked(plan, asked.last_days, asked.on)
    ends = end_early(
        plan, last_days=days, histories=asked.seasons, rng=asked.seed, key=asked.key, threads=asked.threads, progress=sys.stderr.isatty()
    )  # fmt: skip
    print(json.dumps(_as_json(ends), indent=2) if asked.json else whole_page(ends, asked.on))


def _days_asked(plan: Plan, last_days: int | Literal["all"], on: list[dt.date]) -> Any:
    """The last days of the season, and those named, however early they are."""
    start, end = earliest_last_day(plan), plan.date("season.end")
    for day in on:
        if not start <= day <= end:
            gear = " and leave time to bring the gear in" if start > plan.date("season.start") else ""
            raise ValueError(f"--on {day}: must lie inside the season{gear}, {start} to {end}")
    if last_days == "all" or not on or last_days > (end - start).days + 1:
        return last_days
    return sorted({*on, *(end - dt.timedelta(days=k) for k in range(last_days))})


def _as_json(ends: EndEarly) -> dict[str, Any]:
    run = ends.runs[ends.planned]
    return {
        "plan": {"name": ends.plan.name, "source": ends.plan.source, "money": ends.money, "planned": ends.planned.isoformat()},
        "run": {"key": ends.key, "histories": ends.histories, "version": run.facts.version, "stream_version": run.facts.stream_version},
        "last_days": [_day_json(ends, day) for day in ends.days],
        "family": {name: family_sentence(ends, name) for name in ends.days[0].family},
        "cautions": CAUTIONS,
    }


def _day_json(ends: EndEarly, day: LastDay) -> dict[str, Any]:
    single = ("given_up", "given_up_low", "given_up_high", "days_gained", "per_day", "per_day_at_home")
    several = ("chances", "chance_changes", "family")
    return {
        "last_day": day.date.isoformat(),
        "gear_in_from": day.gear_in_from.isoformat(),
        "days_earlier": day.days_earlier,
        **{name: estimate_json(getattr(day, name)) for name in single},
        **{name: {key: estimate_json(value) for key, value in getattr(day, name).items()} for name in several},
        "sentence": sentence(ends, day),
    }
