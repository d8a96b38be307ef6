# SPDX-License-Identifier: MIT
"""Seconds a season of the engine and of the NumPy season, taken in turns in one run.

    python tests/bench/compare_speed.py [--histories 100000] [--rounds 5] [--plan plan.toml]

Each round times every way once, in an order that changes from round to round, so a busy minute of the machine
hits all of them. Shown are medians over the rounds, and medians of the ratios within a round.
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import numpy_plan
import numpy_season
import seasonrisk as sr

DEMO = Path(__file__).resolve().parents[2] / "examples/plans/one_boat.toml"
PEER, ONE, BASELINE, TWO = (
    "NumPy, one thread",
    "engine, one thread",
    "engine, one thread, baseline",
    "engine, two threads",
)


def ways(text: str, histories: int) -> dict[str, Callable[[int], object]]:
    plan, peer_plan = sr.Plan.parse(text), numpy_plan.read(text)

    def engine(threads: int, instructions: str) -> Callable[[int], object]:
        return lambda seed: sr.simulate(
            plan, histories=histories, key=seed, threads=threads, instructions=instructions
        )

    return {
        PEER: lambda seed: numpy_season.simulate(peer_plan, histories, np.random.default_rng(seed)),
        ONE: engine(1, "best"),
        BASELINE: engine(1, "baseline"),
        TWO: engine(2, "best"),
    }


def timed(call: Callable[[int], object], seed: int) -> float:
    start = time.perf_counter()
    call(seed)
    return time.perf_counter() - start


def compare(text: str, histories: int, rounds: int) -> dict[str, list[float]]:
    """Seconds of each round by way."""
    calls = ways(text, histories)
    for call in ways(text, min(histories, 5000)).values():  # warm up
        call(0)
    seconds: dict[str, list[float]] = {name: [] for name in calls}
    names = list(calls)
    for i in range(rounds):
        turn = i % len(names)
        for name in names[turn:] + names[:turn]:
            seconds[name].append(timed(calls[name], i))
    return seconds


def ratio(seconds: dict[str, list[float]], slow: str, fast: str) -> float:
    return statistics.median(a / b for a, b in zip(seconds[slow], seconds[fast], strict=True))


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--histories", type=int, default=100_000)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--plan", type=Path, default=DEMO)
    wanted = parser.parse_args()

    seconds = compare(wanted.plan.read_text(encoding="utf-8"), wanted.histories, wanted.rounds)

    print(f"{wanted.plan.name}, {wanted.histories} seasons, {wanted.rounds} rounds")
    for name, taken in seconds.items():
        each = statistics.median(taken) / wanted.histories * 1e6
        print(f"  {name:<30} {statistics.median(taken):8.3f} s   {each:7.2f} microseconds a season")
    print(f"  one thread against NumPy            {ratio(seconds, PEER, ONE):5.2f} times as fast")
    print(f"  baseline against NumPy              {ratio(seconds, PEER, BASELINE):5.2f}")
    print(f"  two threads against one             {ratio(seconds, ONE, TWO):5.2f}")


if __name__ == "__main__":
    main()
