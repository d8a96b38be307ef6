# SPDX-License-Identifier: MIT
"""Showing how far a run has come: quiet unless asked, one line, gone when done."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TypeAlias

__all__ = ["Progress", "shown"]

Progress: TypeAlias = "Callable[[int], object] | bool | None"

SECONDS_BETWEEN = 0.25


@contextmanager
def shown(progress: Progress, histories: int) -> Iterator[Callable[[int], object] | None]:
    """What the engine is to call with the number of histories done, or None.

    Parameters
    ----------
    progress : None, bool or callable
        None or False: nothing is ever shown. True: a bar where tqdm is installed, else a line on standard error. A
        callable is called with the number done about every 50 ms.
    histories : int
        Histories asked for.
    """
    if progress is None or progress is False:
        yield None
    elif progress is not True:
        yield progress
    else:
        try:
            from tqdm.auto import tqdm
        except ImportError:
            yield from _line(histories)
            return
        with tqdm(total=histories, unit=" seasons", leave=False, mininterval=SECONDS_BETWEEN) as bar:
            yield lambda done: bar.update(done - bar.n)


def _line(histories: int) -> Iterator[Callable[[int], object]]:
    """On a terminal one line that changes, cleared at the end; in a log a line for each tenth."""
    on_terminal = sys.stderr.isatty()
    last_time, last_tenth = time.monotonic(), 0

    def show(done: int) -> None:
        nonlocal last_time, last_tenth
        text = f"seasonrisk: {done:,} of {histories:,} seasons"
        if on_terminal and time.monotonic() - last_time >= SECONDS_BETWEEN:
            last_time = time.monotonic()
            print(f"\r{text}", end="", file=sys.stderr, flush=True)
        elif not on_terminal and 10 * done // histories > last_tenth:
            last_tenth = 10 * done // histories
            print(text, file=sys.stderr, flush=True)

    try:
        yield show
    finally:
        if on_terminal:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)
