# SPDX-License-Identifier: MIT
"""The command line: ``seasonrisk new``, ``check``, ``season``, ``compare``, ``end-early``, ``break-even``.

Exit codes: 0 all is well; 1 it cannot be done (a file, an argument); 2 the plan has problems; 130 stopped by Ctrl-C;
141 whoever read the output closed it, as ``| head`` does.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from seasonrisk import __version__, commands, commands_break_even, commands_compare, commands_end_early
from seasonrisk.arguments import add_run, as_typed, seed
from seasonrisk.errors import Error, PlanError
from seasonrisk.questions import QUESTIONS

__all__ = ["main"]

OK, CANNOT, PROBLEMS, STOPPED, CLOSED = 0, 1, 2, 130, 141


class _Parser(argparse.ArgumentParser):
    """A wrong argument is something that cannot be done: 1, for 2 says that the plan has problems."""

    def error(self, message: str) -> None:  # type: ignore[override]
        self.print_usage(sys.stderr)
        self.exit(CANNOT, f"{self.prog}: {message}\n")


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="seasonrisk",
        description="Chances, money and plain words for the season of a small pot boat.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"seasonrisk {__version__}")
    add = parser.add_subparsers(
        dest="command", required=True, metavar="new | check | season | compare | end-early | break-even", parser_class=_Parser
    )

    new = add.add_parser(
        "new", help=f"ask up to {len(QUESTIONS)} questions and write a plan", formatter_class=argparse.RawDescriptionHelpFormatter,
        description=f"Ask up to {len(QUESTIONS)} questions that an owner can answer in half an hour, and write a plan with comments.",
        epilog="example:\n  seasonrisk new my_boat.toml\n  seasonrisk new my_boat.toml --defaults --answer 'pots=300 150' --answer 'crew=day wage 110'",
    )  # fmt: skip
    new.add_argument(
        "path",
        nargs="?",
        type=Path,
        default=Path("plan.toml"),
        metavar="PATH",
        help="file to write, plan.toml when left out; never over one that is there",
    )
    new.add_argument(
        "--answer",
        action="append",
        default=[],
        metavar="NAME=VALUE",
        help="answer a question beforehand; --questions lists them",
    )
    new.add_argument("--defaults", action="store_true", help="take the default for every question not answered")
    new.add_argument(
        "--questions", action="store_true", help="list the questions with their names, defaults and ranges"
    )

    check = add.add_parser(
        "check", help="tell every problem of a plan, or say it back in sentences", formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Tell every problem of a plan with its line; of a sound plan, say what it means.",
        epilog="example:\n  seasonrisk check my_boat.toml",
    )  # fmt: skip
    check.add_argument("plan", type=Path, metavar="PLAN", help="plan file")
    check.add_argument("--json", action="store_true", help="findings for machines")

    season = add.add_parser(
        "season", help="simulate many seasons and print the page", formatter_class=argparse.RawDescriptionHelpFormatter,
        description="Simulate many seasons of a plan: chances, good and bad seasons, cash by month.",
        epilog="example:\n  seasonrisk season my_boat.toml --seasons 100000 --seed 7 --report my_season.html",
    )  # fmt: skip
    season.add_argument("plan", type=Path, metavar="PLAN", help="plan file")
    add_run(season, seasons=100_000, of_what="")
    season.add_argument("--choice", metavar="NAME", help="a [[choice]] of the plan to make first")
    season.add_argument("--report", type=Path, metavar="FILE", help="write a page with pictures, as .html or .pdf")
    season.add_argument("--save", type=Path, metavar="FILE", help="keep the run, to load it in Python")
    season.add_argument("--overwrite", action="store_true", help="write over a report or a saved run that is there")
    season.add_argument("--json", action="store_true", help="the numbers for machines, in place of the page")

    commands_compare.add_compare(add, seed)
    commands_end_early.add_parser(add, seed)
    commands_break_even.add_parser(add, seed)
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    arguments : sequence of str, optional
        As typed after ``seasonrisk``; left out, those of this process.

    Returns
    -------
    int
        The exit code.
    """
    try:
        try:
            return _answer(arguments)
        finally:
            sys.stdout.flush()  # here, where a closed pipe can still be met quietly
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # for what Python flushes at its end
        return CLOSED


def _answer(arguments: Sequence[str] | None) -> int:
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a name the terminal cannot show must not stop the answer
    asked = _parser().parse_args(arguments)
    run = {
        "new": commands.new, "check": commands.check, "season": commands.season,
        "compare": commands_compare.compare, "end-early": commands_end_early.run,
        "break-even": commands_break_even.run,
    }[asked.command]  # fmt: skip
    try:
        run(asked)
    except PlanError as error:
        if getattr(asked, "json", False):
            print(json.dumps({"sound": False, "findings": commands.findings_json(error.findings)}, indent=2))
        else:
            print(error)
        return PROBLEMS
    except BrokenPipeError:
        raise
    except MemoryError:
        print("seasonrisk: there is not enough memory for this: ask for fewer --seasons", file=sys.stderr)
        return CANNOT
    except (Error, ValueError, OSError, LookupError, ImportError) as error:
        print(f"seasonrisk: {as_typed(commands.reason(error))}", file=sys.stderr)
        return CANNOT
    except KeyboardInterrupt:
        print("seasonrisk: stopped", file=sys.stderr)
        return STOPPED
    return OK
