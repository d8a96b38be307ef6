# SPDX-License-Identifier: MIT
"""How much is left, as pictures: the chance of clearing at least an amount, and a table of years that is drawn.

Both need matplotlib, draw on the axes they are given or on new ones, and have a sentence that says what they show.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from seasonrisk.plot import DARK, MIDDLE, new_axes
from seasonrisk.words import RUNGS, chance_text, column_of, noun_of, plural, seasons_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.run import Run

__all__ = ["clearing", "clearing_caption", "years", "years_caption"]

LEVELS = (0.1, 0.5, 0.9)


def _left(name: str) -> str:
    """What the amounts of a rung are."""
    return f"left after {RUNGS[name].removeprefix('... and ')}" if name in RUNGS else name


def clearing(run: Run, name: str = "household", *, ax: Axes | None = None) -> Axes:
    """For each amount the chance that a season leaves at least as much; the bad, middling and good season are marked.

    Parameters
    ----------
    run : Run
    name : str
        A rung, or any column in money.
    ax : matplotlib Axes, optional

    Returns
    -------
    matplotlib Axes

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    ax = new_axes(ax, 7.0, 3.4)
    values = np.sort(run[name])
    chances = 100.0 * (1.0 - np.arange(len(values)) / len(values))  # the n-th lowest is reached by all but n
    ax.plot(values, chances, color=DARK, linewidth=2.0, drawstyle="steps-pre")
    for level in LEVELS:
        amount = run.quantile(name, level)
        ax.plot(amount.value, 100.0 * (1.0 - level), "o", color=DARK, markersize=6.0)
        ax.annotate(f"  {amount.amount_text}", (amount.value, 100.0 * (1.0 - level)), fontsize="small", va="bottom")
    ax.axvline(0.0, color="black", linewidth=1.0, linestyle="--")
    low, high = np.quantile(values, [0.002, 0.998])
    if low < high:  # a few wild seasons would press the rest together
        ax.set_xlim(min(low, 0.0) - 0.02 * (high - low), max(high, 0.0) + 0.08 * (high - low))
    ax.set_ylim(0.0, 103.0)
    ax.xaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    ax.set_xlabel(f"{run.money} {_left(name)}")
    ax.set_ylabel(f"{plural(noun_of(run.plan))} in 100\nthat leave at least as much")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def clearing_caption(run: Run, name: str = "household") -> str:
    """What `clearing` shows, in sentences."""
    noun = noun_of(run.plan)
    bad, middling, good = (run.quantile(name, level).amount_text for level in LEVELS)
    return (
        f"How often at least so much is {_left(name)}. At least 0: {chance_text(run.chance(name))}. A bad {noun} (1 in 10 is "
        f"worse) leaves {bad} {run.money}, a middling one {middling}, a good one (1 in 10 is better) {good}."
    )


def years(run: Run, name: str = "household", *, ax: Axes | None = None) -> Axes:
    """For each season a bar from the 1-in-10 low to the 1-in-10 high, its middle marked, and the chance of 0 or more.

    Parameters
    ----------
    run : Run
        With the column kept by season, as a rung is.
    name : str
        A rung, or any column in money.
    ax : matplotlib Axes, optional

    Returns
    -------
    matplotlib Axes

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    seasons = seasons_of(run.plan)
    ax = new_axes(ax, 7.0, 0.9 + 0.55 * len(seasons))
    for row, season in enumerate(seasons):
        column = column_of(run.plan, name, season)
        low, middle, high = (run.quantile(column, level) for level in LEVELS)
        ax.plot([low.value, high.value], [row, row], color=MIDDLE, linewidth=9.0, solid_capstyle="butt")
        ax.plot(middle.value, row, "o", color=DARK, markersize=7.0)
        for amount, place, side in ((low, -4, "right"), (high, 4, "left")):
            ax.annotate(amount.amount_text, (amount.value, row), (place, 0), textcoords="offset points", ha=side, va="center", fontsize="small")
        ax.annotate(middle.amount_text, (middle.value, row), (0, 8), textcoords="offset points", ha="center", fontsize="small")
        ax.annotate(chance_text(run.chance(column)), (1.01, row), xycoords=("axes fraction", "data"), va="center", fontsize="small")
    ax.annotate("covered in", (1.01, -0.75), xycoords=("axes fraction", "data"), va="center", fontsize="small")
    ax.axvline(0.0, color="black", linewidth=1.0, linestyle="--")
    ax.margins(x=0.15)
    ax.set_ylim(len(seasons) - 0.5, -0.9)  # the first season on top
    ax.set_yticks(range(len(seasons)), [str(season) for season in seasons])
    ax.xaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    ax.set_xlabel(f"{run.money} {_left(name)}")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def years_caption(run: Run, name: str = "household") -> str:
    """What `years` shows, in sentences."""
    said = []
    for season in seasons_of(run.plan):
        column = column_of(run.plan, name, season)
        said.append(f"{season}: {run.quantile(column, 0.5).amount_text}, covered in {chance_text(run.chance(column))}")
    return f"{run.money} {_left(name)}, by season. Each bar holds 8 in 10; the dot is the middle. {'; '.join(said)}."
