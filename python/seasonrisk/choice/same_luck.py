# SPDX-License-Identifier: MIT
"""Runs under the same luck, and the normals they were made of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core, progress as progress_
from seasonrisk.engine import Rng, key_from, simulate
from seasonrisk.plan import Plan
from seasonrisk.run import Run

__all__ = ["LUCK_AGAIN", "Sources", "outcome", "runs_of", "same_guesses_other_luck", "sources_of"]

DEFAULT_HISTORIES = 10_000
LUCK_AGAIN = 2  # the family of luck drawn again, in the engine's table of addresses


def runs_of(
    plans: Sequence[Run | Plan],
    keep: Sequence[Sequence[str]],
    *,
    histories: int | None,
    rng: Rng,
    key: int | None,
    threads: int,
    progress: progress_.Progress,
) -> list[Run]:
    """Runs of one key: those handed in, and plans simulated as they were.

    Raises
    ------
    TypeError
        For what is neither a run nor a plan.
    ValueError
        When runs differ in key or number of histories, or ``rng``, ``key`` or ``histories`` would change a run.
    """
    for plan in plans:
        if not isinstance(plan, Run | Plan):
            raise TypeError(f"{plan!r:.60}: must be a Run or a Plan")
    made = [run for run in plans if isinstance(run, Run)]
    if made:
        for name, given in (("histories", histories), ("rng", rng), ("key", key)):
            if given is not None:
                raise ValueError(f"{name}={given!r}: a run has its own; leave it out, or give the plan instead")
        key, histories = made[0].key, made[0].histories
        for run in made:
            if (run.key, run.histories) != (key, histories):
                raise ValueError(
                    f"runs: differ in key or number of histories ({run.key}, {run.histories:,} and {key}, {histories:,}); "
                    "simulate them with the same key and as many histories"
                )
            if run.facts.stream_version != _core.stream_version:
                raise ValueError(
                    f"stream_version={run.facts.stream_version}: this run's draws were made by version {run.facts.version}; "
                    f"this version ({_core.stream_version}) would draw others"
                )
    else:
        key = key_from(rng, key)
    return [
        plan if isinstance(plan, Run) else simulate(
            plan, histories=DEFAULT_HISTORIES if histories is None else histories, key=key, threads=threads,
            keep=list(columns), progress=progress,
        )
        for plan, columns in zip(plans, keep, strict=True)
    ]  # fmt: skip


def outcome(runs: Sequence[Run], of: str) -> NDArray[np.float64]:
    """The column of one run, or that of the second less that of the first."""
    return runs[0][of] if len(runs) == 1 else np.ascontiguousarray(runs[1][of] - runs[0][of])


@dataclass(frozen=True)
class Sources:
    """The normals behind some runs, each once: a guess that two plans share is one."""

    parts: tuple[str, ...]
    guesses: tuple[bool, ...]
    normals: tuple[NDArray[np.float64], ...]


def sources_of(runs: Sequence[Run]) -> Sources:
    """Drawn again from their addresses; nothing is simulated."""
    found: list[tuple[str, bool, NDArray[np.float64]]] = []
    for run in runs:
        for part, is_guess, normals in _core.spread_sources(run.plan._core, run.key, run.histories):
            if not any(part == known and np.array_equal(normals, others) for known, _, others in found):
                found.append((part, is_guess, normals))
    found.sort(key=lambda source: not source[1])  # guesses first, each in its order
    parts, guesses, columns = zip(*found, strict=True) if found else ((), (), ())
    return Sources(parts, guesses, columns)


def same_guesses_other_luck(
    run: Run, of: str, histories: int, *, threads: int, progress: progress_.Progress
) -> NDArray[np.float64]:
    """The column in the run's first histories, met by other luck."""
    options = _core.RunOptions(
        histories=histories, key=run.key, threads=threads, keep=[of], instructions="best", memory_limit_bytes=4e9,
        time_limit_s=3600.0, luck_family=LUCK_AGAIN,
    )  # fmt: skip
    with progress_.shown(progress, histories) as tell:
        return _core.simulate(run.plan._core, options, tell, False).column(of)
