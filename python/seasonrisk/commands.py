# SPDX-License-Identifier: MIT
"""What each command of the command line does; `seasonrisk.cli` parses and turns errors into exit codes."""

from __future__ import annotations

import argparse
import dataclasses
import json
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from seasonrisk import questions, summary
from seasonrisk.engine import simulate
from seasonrisk.errors import Finding, PlanError
from seasonrisk.files import require_writable, same_file, write_file
from seasonrisk.json_values import estimate_json
from seasonrisk.page import page, wrapped
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.words import CAUTIONS, RUNGS

__all__ = ["check", "findings_json", "new", "reason", "season"]


def new(asked: argparse.Namespace) -> None:
    """Ask the questions and write a plan."""
    from seasonrisk.misfits import by_question
    from seasonrisk.new_plan import plan_text

    if asked.questions:
        print("\n".join(question.line() for question in questions.QUESTIONS))
        return
    if asked.path.exists():
        raise FileExistsError(f"{asked.path} is there already, and a plan is never written over: give another name")
    require_writable(asked.path, overwrite=False)
    answers = questions.ask(_given(asked.answer), take_defaults=asked.defaults)
    text = plan_text(answers)
    try:
        plan = Plan.parse(text, str(asked.path))
    except PlanError as error:
        errors = (finding for finding in error.findings if finding.severity == "error")
        raise ValueError("no plan was written\n" + "\n".join(by_question(errors))) from error
    write_file(asked.path, text.encode("utf-8"))
    print(*plan.findings, sep="\n", end="\n" if plan.findings else "")
    print(f"Wrote {asked.path}. Read it, put in what you know better, then: seasonrisk check {asked.path}")


def _given(pairs: Iterable[str]) -> dict[str, str]:
    given = {}
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not equals:
            raise ValueError(f"--answer {pair}: must be NAME=VALUE, such as draw=1500")
        given[name.strip()] = value.strip()
    return given


def check(asked: argparse.Namespace) -> None:
    """Tell what the rule book says, then what the plan means."""
    plan = Plan.read(asked.plan)
    if asked.json:
        print(json.dumps({"sound": True, "findings": findings_json(plan.findings)}, indent=2))
        return
    print(*plan.findings, sep="\n", end="\n\n" if plan.findings else "")
    for line in plan.describe().splitlines():
        print("\n".join(wrapped(line)) if not line.startswith(" ") else line)


def season(asked: argparse.Namespace) -> None:
    """Simulate and print; all that could keep a file from being written is looked at before."""
    plan = Plan.read(asked.plan)
    if asked.choice is not None:
        plan = plan.choose(asked.choice)
    _require_files_apart(asked)
    for path in (asked.report, asked.save):
        if path is not None:
            _require_writable(path, overwrite=asked.overwrite)
    if asked.report is not None:
        from seasonrisk.report import require_page

        require_page(asked.report, overwrite=asked.overwrite)
    run = simulate(
        plan,
        histories=asked.seasons,
        rng=asked.seed,
        key=asked.key,
        threads=asked.threads,
        keep="all",
        progress=sys.stderr.isatty(),
    )
    closed = None
    try:
        print(json.dumps(_run_json(run), indent=2) if asked.json else page(run), flush=True)
    except BrokenPipeError as error:  # the page was read as far as it was wanted; the files are wanted still
        closed = error
    if asked.report is not None:
        run.report(asked.report, overwrite=asked.overwrite)
        print(f"\nWrote {asked.report}", file=sys.stderr)
    if asked.save is not None:
        run.save(asked.save, overwrite=asked.overwrite)
        print(f"\nWrote {asked.save}", file=sys.stderr)
    if closed is not None:
        raise closed


def _require_files_apart(asked: argparse.Namespace) -> None:
    """The plan, which is the owner's work, is never written over, not even with --overwrite."""
    problems = [
        f"{option} {path}: is the plan itself, which is never written over; name another file"
        for option, path in (("--report", asked.report), ("--save", asked.save))
        if path is not None and same_file(path, asked.plan)
    ]
    if None not in (asked.report, asked.save) and same_file(asked.report, asked.save):
        problems.append(f"--report and --save: are both {asked.save}; name two files")
    if problems:
        raise ValueError("\n".join(problems))


def _require_writable(path: Path, *, overwrite: bool) -> None:
    try:
        require_writable(path, overwrite=overwrite)
    except FileExistsError:
        raise FileExistsError(f"{path} is there already: name another file, or add --overwrite") from None


def reason(error: BaseException) -> str:
    """One line for what cannot be done."""
    if isinstance(error, OSError) and error.strerror and error.filename is not None:
        return f"{error.filename}: {error.strerror}"
    return str(error.args[0]) if isinstance(error, KeyError) and error.args else str(error)


def findings_json(findings: Iterable[Finding]) -> list[dict[str, Any]]:
    """Findings as plain values."""
    return [dataclasses.asdict(finding) for finding in findings]


def _run_json(run: Run) -> dict[str, Any]:
    names = [*RUNGS, "cash_room"]
    month, month_chance = run.lowest_month()
    return {
        "plan": {
            "name": run.plan.name,
            "source": run.plan.source,
            "money": run.money,
            "changes": run.plan.changes,
        },
        "run": {**dataclasses.asdict(run.facts), "histories": run.histories},
        "chance": {name: estimate_json(run.chance(name)) for name in names},
        "short_when_missed": {name: estimate_json(run.shortfall_when_missed(name)) for name in names},
        "mean": {name: estimate_json(run.mean(name)) for name in run.columns if not name.startswith("cash.")},
        "seasons": {
            name: {words: estimate_json(run.quantile(name, level)) for words, level in summary.SEASONS.items()}
            for name in ("household", "sales", "lowest_cash")
        },
        "month_cash": {
            m: {f"{level:g}": estimate_json(run.quantile(f"cash.{m}", level)) for level in summary.FAN}
            for m in run.months
        },
        "lowest_month": {"month": month, "chance": estimate_json(month_chance)},
        "cautions": CAUTIONS,
    }
