# SPDX-License-Identifier: MIT
"""What ``seasonrisk lender-note`` does."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import Any

from seasonrisk.arguments import add_run
from seasonrisk.commands_files import require_files
from seasonrisk.credit.lender_note import LenderNote, lender_note
from seasonrisk.credit.loans import over_loan_life
from seasonrisk.json_values import plain
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.words import CAUTIONS

__all__ = ["add_parser", "run"]


def add_parser(add: argparse._SubParsersAction[Any]) -> None:
    """Its arguments."""
    parser = add.add_parser(
        "lender-note", help="what a lender can be shown: coverage, hard cases, cash, security", formatter_class=argparse.RawDescriptionHelpFormatter,
        description="What a lender can be shown of a plan, on a terminal or as a page to hand over: loans and security, coverage of the "
        "payments by year, hard cases under the same luck, cash, past years beside the model, and every number that went in.",
        epilog="example:\n  seasonrisk lender-note my_boat.toml --seed 7 --write note.html --write note.pdf",
    )  # fmt: skip
    parser.add_argument("plan", type=Path, metavar="PLAN", help="plan file; its [note], [sources], [[past_year]] and [[stress]] are shown")
    parser.add_argument("--write", type=Path, action="append", default=[], metavar="FILE", help="write the page, as .html or .pdf; as often as you like")
    parser.add_argument("--loan-life", action="store_true", help="as many years as the longest loan runs, 30 at most, in place of the plan's: chances over its life")
    parser.add_argument("--shown", type=Path, metavar="RUN", help="a run kept from before the season by `season --save`: the page sets it beside what happened, which the plan's [[past_year]] tells")
    parser.add_argument("--paper", choices=["A4", "letter"], default="A4", help="what the page is laid out for; A4 when left out")
    parser.add_argument("--overwrite", action="store_true", help="write over a page that is there")
    add_run(parser, seasons=20_000, of_what=" of the plan and of each hard case")
    parser.add_argument("--json", action="store_true", help="the numbers for machines, in place of the page")


def run(asked: argparse.Namespace) -> None:
    """Simulate, print, and write the pages; all that could keep them from being written is looked at before."""
    plan = Plan.read(asked.plan)
    require_files(asked.plan, [], pages=[("--write", path) for path in asked.write], overwrite=asked.overwrite)
    if asked.loan_life:
        plan = over_loan_life(plan)
    shown = None if asked.shown is None else Run.load(asked.shown)
    note = lender_note(plan, histories=asked.seasons, rng=asked.seed, key=asked.key, threads=asked.threads, progress=sys.stderr.isatty(), shown=shown)
    closed = None
    try:
        print(json.dumps(_note_json(note), indent=2) if asked.json else note.page(), flush=True)
    except BrokenPipeError as error:  # the page was read as far as it was wanted; the files are wanted still
        closed = error
    for path in asked.write:
        note.write(path, paper=asked.paper, overwrite=asked.overwrite)
        print(f"\nWrote {path}", file=sys.stderr)
    if closed is not None:
        raise closed


def _note_json(note: LenderNote) -> dict[str, Any]:
    return {
        "plan": {"name": note.plan.name, "source": note.plan.source, "money": note.plan.money},
        "run": {**plain(note.run.facts), "histories": note.run.histories},
        "loans": plain(note.loans.loans),
        "coverage": plain(note.coverage.years),
        "missed": plain(note.coverage.missed),
        "two_bad_years": plain(note.coverage.two_bad_years),
        "gives_first": plain(note.coverage.gives_first),
        "cash": plain(note.working_capital.calendar),
        "facility": plain(note.working_capital.facility),
        "stresses": [plain(stress) for stress in (note.stresses.as_it_is, *note.stresses)],
        "do_not_apply": plain(note.stresses.do_not_apply),
        "past": None if note.past is None else plain(note.past.years),
        "shown": None if note.shown is None else plain(note.shown.years),
        "cautions": CAUTIONS,
    }
