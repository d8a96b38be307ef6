# SPDX-License-Identifier: MIT
"""What an outcome hangs on, as bars; needs matplotlib, which only this function imports."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

import numpy as np

from seasonrisk.plot import DARK, LIGHT, new_axes
from seasonrisk.words_drivers import share_text, too_small

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.choice.drivers import Drivers

__all__ = ["drivers", "drivers_caption"]

MOST_BARS = 10


def drivers(found: Drivers, *, ax: Axes | None = None) -> Axes:
    """A bar for each guess and each kind of luck that can be seen, the longest on top, with its 95% interval.

    Parameters
    ----------
    found : Drivers
    ax : matplotlib Axes, optional

    Returns
    -------
    matplotlib Axes

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    rows = [row for row in found.rows if not too_small(row.share)][:MOST_BARS]
    ax = new_axes(ax, 7.0, 1.2 + 0.36 * max(len(rows), 2))
    at = np.arange(len(rows))[::-1]
    for kind, colour in (("guess", DARK), ("luck", LIGHT)):
        of_kind = [n for n, row in enumerate(rows) if row.kind == kind]
        share = np.array([100.0 * rows[n].share.value for n in of_kind])
        half = np.array([196.0 * rows[n].share.standard_error for n in of_kind])
        if of_kind:
            ax.barh(
                at[of_kind], share, xerr=half, height=0.7, color=colour, edgecolor=DARK, label=kind,
                error_kw={"elinewidth": 1.0, "capsize": 2.0, "ecolor": "black"},
            )  # fmt: skip
    ax.set_yticks(at, [textwrap.fill(row.words, 44) for row in rows], fontsize="small")
    ax.set_xlim(left=0.0)
    ax.set_xlabel("of the spread, in 100")
    ax.set_title(f"What {found.title} hangs on", fontsize="medium", loc="left")
    ax.spines[["top", "right"]].set_visible(False)
    if rows:
        ax.legend(frameon=False, fontsize="small", loc="lower right")
    return ax


def drivers_caption(found: Drivers) -> str:
    """What `drivers` shows, in sentences."""
    seen = [row for row in found.rows if not too_small(row.share)]
    if not seen:
        return f"No guess and no kind of luck can be seen in the spread of {found.title}."
    longest = "; ".join(f"{row.words} ({row.kind}), {share_text(row.share)}" for row in seen[:3])
    rest = len(found.rows) - min(len(seen), MOST_BARS)
    left = f" {rest} more are not shown." if rest else ""
    return f"Shares of the spread of {found.title}, in 100, the largest first: {longest}.{left} Dark bars are guesses, light ones luck."
