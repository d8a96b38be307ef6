# SPDX-License-Identifier: MIT
"""Asking the engine for a run: what is checked before, shown during, and kept after."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core, progress as progress_
from seasonrisk.checks import amount, whole_number
from seasonrisk.plan import Plan
from seasonrisk.run import Column, Run, RunFacts

__all__ = ["RunCost", "cost_of_run", "key_from", "options_for", "outcomes_as_columns", "require_plan", "simulate"]

Rng: TypeAlias = "int | Sequence[int] | np.random.SeedSequence | np.random.BitGenerator | np.random.Generator | None"
MOST_THREADS = 1024
MOST_HISTORIES = 2**48  # the address of a draw has 48 bits for the history


def simulate(
    plan: Plan,
    *,
    histories: int = 10_000,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    keep: str | Sequence[str] | None = None,
    progress: progress_.Progress = None,
    on_interrupt: Literal["raise", "return"] = "raise",
    instructions: Literal["best", "baseline", "avx2", "avx512"] = "best",
    memory_limit_gb: float = 4.0,
    time_limit_s: float = 3600.0,
) -> Run:
    """Simulate many seasons of a plan.

    Parameters
    ----------
    plan : Plan
    histories : int
        How many seasons. The error of a chance is at most half a point at 10,000 and a sixth at 100,000.
    rng : int, sequence of int, SeedSequence, BitGenerator, Generator or None
        As `numpy.random.default_rng` takes it: one 64-bit key is drawn from it. An int gives the same run each time;
        a Generator moves on, so two calls with the same one differ; None is different each time.
    key : int, optional
        In place of ``rng``: the key itself, to make a run again.
    threads : int
        0 for as many as this process may use. The results do not depend on it.
    keep : str or sequence of str, optional
        Columns to keep; left out, the usual ones; ``"all"`` for every one.
    progress : None, bool or callable
        True shows a bar or a line; a callable gets the number of histories done about every 50 ms.
    on_interrupt : {"raise", "return"}
        On Ctrl-C raise KeyboardInterrupt, or return the histories completed until then.
    instructions : {"best", "baseline", "avx2", "avx512"}
        Which copy of the engine to run; all give the same bits.
    memory_limit_gb, time_limit_s : float
        A run that would need more [10^9 bytes], or take longer [seconds], is refused before it starts.

    Returns
    -------
    Run

    Raises
    ------
    ValueError
        For an argument outside its range, named with what is allowed.
    TypeError
        For an argument of a kind that cannot be meant, likewise.
    RunTooLarge
        When the run would pass a limit.
    KeyboardInterrupt
        On Ctrl-C, after all threads have stopped.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> run = sr.simulate(plan, histories=1000, rng=7)
    >>> run["household"].shape
    (1000,)
    """
    if on_interrupt not in ("raise", "return"):
        raise ValueError(f'on_interrupt={on_interrupt!r}: must be "raise" or "return"')
    options = options_for(
        plan, histories=histories, rng=rng, key=key, threads=threads, keep=keep, progress=progress,
        instructions=instructions, memory_limit_gb=memory_limit_gb, time_limit_s=time_limit_s,
    )  # fmt: skip
    with progress_.shown(progress, histories) as tell:
        outcomes = _core.simulate(plan._core, options, tell, on_interrupt == "return")
    if outcomes.histories == 0:
        raise KeyboardInterrupt("stopped before the first season was complete")
    return Run(plan, *outcomes_as_columns(outcomes, options))


def options_for(
    plan: Plan,
    *,
    histories: int,
    rng: Rng,
    key: int | None,
    threads: int,
    keep: str | Sequence[str] | None,
    progress: progress_.Progress,
    memory_limit_gb: float,
    time_limit_s: float,
    instructions: str = "best",
) -> _core.RunOptions:
    """The options of a run, each looked at; the arguments are those of `simulate`."""
    require_plan(plan)
    if not isinstance(instructions, str):  # which words it knows, the engine says itself
        raise TypeError(f'instructions={instructions!r}: must be a word, such as "best"')
    if not (progress is None or isinstance(progress, bool) or callable(progress)):
        raise TypeError(f"progress={progress!r}: must be None, True, False or a function of the seasons done")
    return _core.RunOptions(
        histories=whole_number("histories", histories, lowest=1, highest=MOST_HISTORIES),
        key=key_from(rng, key),
        threads=whole_number("threads", threads, lowest=0, highest=MOST_THREADS),
        keep=_names(keep),
        instructions=instructions,
        memory_limit_bytes=amount("memory_limit_gb", memory_limit_gb, above=0.0) * 1e9,
        time_limit_s=amount("time_limit_s", time_limit_s, above=0.0),
        luck_family=0,
    )


def outcomes_as_columns(
    outcomes: _core.Outcomes, options: _core.RunOptions
) -> tuple[dict[Column, NDArray[np.float64]], RunFacts]:
    """What the engine gives back, as a `Run` takes it: the columns, and how they were made."""
    build = _core.build_config()
    facts = RunFacts(
        options.key, outcomes.histories_asked, build["stream_version"], build["version"],
        outcomes.threads, outcomes.instructions, outcomes.seconds,
    )  # fmt: skip
    return {Column(c.name, c.unit, c.meaning): outcomes.column(c.name) for c in outcomes.columns}, facts


@dataclass(frozen=True)
class RunCost:
    """What a run would take: memory for its columns [10^9 bytes] and time [seconds]."""

    memory_gb: float
    seconds: float


def cost_of_run(plan: Plan, *, histories: int, threads: int = 0, keep: str | Sequence[str] | None = None) -> RunCost:
    """What `simulate` with the same arguments would take; time is measured on a few seasons of the plan itself.

    Parameters
    ----------
    plan : Plan
    histories, threads, keep
        As in `simulate`.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> sr.cost_of_run(plan, histories=1_000_000, keep="household").memory_gb
    0.008
    """
    require_plan(plan)
    options = _core.RunOptions(
        histories=whole_number("histories", histories, lowest=1, highest=MOST_HISTORIES),
        key=0,
        threads=whole_number("threads", threads, lowest=0, highest=MOST_THREADS),
        keep=_names(keep),
        instructions="best",
        memory_limit_bytes=math.inf,
        time_limit_s=math.inf,
        luck_family=0,
    )
    cost = _core.cost_of_run(plan._core, options)
    return RunCost(cost.memory_bytes / 1e9, cost.seconds)


def _names(keep: str | Sequence[str] | None) -> list[str]:
    if keep is None:
        return []
    # Any object may come from a caller without type checks; a text of bytes is a sequence too, of numbers.
    names: list[object] = [keep] if isinstance(keep, str) else list(keep) if isinstance(keep, Iterable) else [keep]
    words = [name for name in names if isinstance(name, str)]
    if len(words) < len(names):
        raise TypeError(f"keep={keep!r}: must be the name of a column, a list of names, or None for the usual ones")
    if not words:
        raise ValueError(f"keep={keep!r}: names no column; leave it out for the usual ones")
    return words


def require_plan(plan: object) -> None:
    """Refuse what is no plan.

    Raises
    ------
    TypeError
    """
    if not isinstance(plan, Plan):
        raise TypeError(f"plan={plan!r}: must be a Plan; Plan.read makes one of a file")


def key_from(rng: Rng, key: int | None) -> int:
    """The 64-bit key of a run, drawn from ``rng`` or given.

    Raises
    ------
    ValueError
        When both are given, or one is not what it must be.
    """
    if key is None:
        try:
            generator = np.random.default_rng(rng)
        except (TypeError, ValueError) as error:
            raise ValueError(f"rng={rng!r}: must be what numpy.random.default_rng takes ({error})") from error
        return int(generator.integers(0, 2**64, dtype=np.uint64))
    if rng is not None:
        raise ValueError("rng and key: give one of them, not both")
    return whole_number("key", key, lowest=0, highest=2**64 - 1)
