# SPDX-License-Identifier: MIT
"""Seconds that the figures of a lender's note take: one run, what is read off it, and nine stresses.

    python tests/bench/lender_speed.py [--histories 20000] [--threads 2] [--plan plan.toml]
"""

from __future__ import annotations

import argparse
import time
from itertools import pairwise
from pathlib import Path

import seasonrisk as sr

THREE_BOATS = Path(__file__).resolve().parents[2] / "examples/plans/three_boats_five_years.toml"


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--histories", type=int, default=20_000)
    arguments.add_argument("--threads", type=int, default=2)
    arguments.add_argument("--plan", type=Path, default=THREE_BOATS)
    asked = arguments.parse_args()
    plan = sr.Plan.read(asked.plan)

    marks = [("", time.perf_counter(), time.process_time())]

    def mark(what: str) -> None:
        marks.append((what, time.perf_counter(), time.process_time()))

    run = sr.simulate(plan, histories=asked.histories, key=7, threads=asked.threads, keep=sr.lender_columns(plan))
    mark(f"one run of {asked.histories:,}")
    sr.loans(plan), sr.coverage(run), sr.working_capital(run), sr.past_years(plan, run)
    mark("loans, coverage, working capital, past years")
    found = sr.stresses(run, threads=asked.threads)
    mark(f"{len(found)} stresses of {found.histories:,} each")
    for (_, wall_before, work_before), (what, wall, work) in pairwise(marks):
        print(f"{what:<46}{wall - wall_before:7.1f} s{work - work_before:7.1f} s of processor time")
    print(f"{'all':<46}{marks[-1][1] - marks[0][1]:7.1f} s{marks[-1][2] - marks[0][2]:7.1f} s of processor time")


if __name__ == "__main__":
    main()
