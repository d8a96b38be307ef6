# SPDX-License-Identifier: MIT
"""How long the slider of the family notebook takes to redraw, from the one pass that was simulated before.

    python tests/bench/redraw_speed.py [--histories 20000] [--every 6]

A redraw is what the notebook does for each last day: picture, PNG and sentence. Its peer in the same run is
matplotlib's own histogram of as many random numbers, drawn and made a PNG in the same way: no redraw can be faster.
Shown is processor time, which what else the machine does lengthens less; the aim is 150 ms.
"""

from __future__ import annotations

import argparse
import datetime as dt
import io
import statistics
import time
from pathlib import Path

import numpy as np
import seasonrisk as sr
from matplotlib.axes import Axes
from seasonrisk import plot_end_early
from seasonrisk.plot import new_axes

DEMO = Path(__file__).resolve().parents[2] / "examples/plans/one_boat.toml"
AIM_MS = 150.0


def to_png(ax: Axes) -> None:
    """As a notebook shows a figure."""
    ax.figure.savefig(io.BytesIO(), format="png", bbox_inches="tight")


def redraw(ends: sr.EndEarly, date: dt.date, ax: Axes) -> None:
    ax.clear()
    to_png(plot_end_early.one_last_day(ends, date, ax=ax))
    plot_end_early.one_last_day_caption(ends, date)


def peer(values: np.ndarray, ax: Axes) -> None:
    ax.clear()
    ax.hist(values, bins=40)
    to_png(ax)


def axes_laid_out() -> Axes:
    """Axes whose place is found once and then kept, as in the notebook: a third of a redraw would go into finding it."""
    ax = new_axes(None, 7.0, 3.2)
    to_png(ax)
    ax.figure.set_layout_engine("none")
    return ax


def milliseconds(start: float) -> float:
    return (time.process_time() - start) * 1e3


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--histories", type=int, default=20_000)
    parser.add_argument("--every", type=int, default=6, help="so many days from one last day tried to the next")
    wanted = parser.parse_args()

    start = time.process_time()
    ends = sr.end_early(sr.Plan.read(DEMO), last_days=60, histories=wanted.histories, rng=7)
    once = milliseconds(start)
    values = np.random.default_rng(7).normal(size=wanted.histories)
    ax, other = axes_laid_out(), axes_laid_out()
    redraw(ends, ends.days[0].date, ax)  # warm up
    peer(values, other)

    ours, theirs = [], []
    for day in ends.days[:: wanted.every]:  # in turns, so a busy minute of the machine hits both
        start = time.process_time()
        redraw(ends, day.date, ax)
        ours.append(milliseconds(start))
        start = time.process_time()
        peer(values, other)
        theirs.append(milliseconds(start))

    print(f"{DEMO.name}, {wanted.histories:,} seasons, {len(ours)} of {len(ends.days)} last days")
    print(f"  the one pass before                {once:8.0f} ms")
    print(f"  redraw, median                     {statistics.median(ours):8.1f} ms   least {min(ours):.1f}   most {max(ours):.1f}   aim {AIM_MS:.0f}")
    print(f"  peer, median                       {statistics.median(theirs):8.1f} ms   least {min(theirs):.1f}   most {max(theirs):.1f}")
    print(f"  redraw over peer, median           {statistics.median(a / b for a, b in zip(ours, theirs, strict=True)):8.2f}")


if __name__ == "__main__":
    main()
