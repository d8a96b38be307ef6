# SPDX-License-Identifier: MIT
"""Pictures of a run; they need matplotlib, which only these functions import.

`month_cash` shows when cash is lowest and how low; `dots` shows a chance as 20 seasons. Each draws on the axes it is
given, or on new ones, returns them, and changes nothing else. ``month_cash_caption`` and ``dots_caption`` say in a
sentence what the picture shows, for a caption or for those who cannot see it. Both read in black and white.
"""

from __future__ import annotations

import datetime as dt
import math
from typing import TYPE_CHECKING

import numpy as np

from seasonrisk.errors import missing_extra
from seasonrisk.page import cash_sentence
from seasonrisk.words import CASH_HOLDS, MONTHS, RUNGS, chance_text, month_text, noun_of, plural

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.run import Run

__all__ = ["dots", "dots_caption", "month_cash", "month_cash_caption", "new_axes"]

N_DOTS = 20
DARK, MIDDLE, LIGHT = "#1f3a4d", "#7f9fb3", "#cddbe4"  # apart in grey, too


def new_axes(ax: Axes | None, width_inch: float, height_inch: float) -> Axes:
    """The axes given, or new ones on a figure of that size that no window shows.

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    if ax is not None:
        return ax
    try:
        from matplotlib.backends.backend_agg import FigureCanvasAgg
        from matplotlib.figure import Figure
    except ImportError as error:
        missing_extra("matplotlib", "plot", "A picture", error)
    figure = Figure(figsize=(width_inch, height_inch), layout="constrained")
    FigureCanvasAgg(figure)
    return figure.add_subplot()


def finish(ax: Axes) -> Axes:
    """What all pictures by day or month have alike: thousands set apart, a legend, no frame at the top and right."""
    ax.yaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    ax.legend(frameon=False, fontsize="small")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def name_days(ax: Axes) -> None:
    """Days along the bottom as they are spoken, ``"1 Oct"``, few enough to be read side by side."""
    from matplotlib.dates import AutoDateLocator

    def spoken(at: float, _: object) -> str:
        day = dt.date(1970, 1, 1) + dt.timedelta(days=at)  # what matplotlib counts days from
        return f"{day.day} {MONTHS[day.month - 1][:3]}"

    ax.xaxis.set_major_locator(AutoDateLocator(minticks=3, maxticks=6))  # type: ignore[no-untyped-call]
    ax.xaxis.set_major_formatter(spoken)


def month_cash(run: Run, *, ax: Axes | None = None) -> Axes:
    """Cash at the end of each month: the middle season, and the bands that hold half and eight tenths of them.

    Parameters
    ----------
    run : Run
        With its month-end columns kept, as is usual.
    ax : matplotlib Axes, optional

    Returns
    -------
    matplotlib Axes

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    ax = new_axes(ax, 7.0, 3.6)
    table = run.month_cash()
    low, quarter, middle, three_quarters, high = np.array([[e.value for e in row] for row in table.estimates]).T
    at = np.arange(len(table.months))
    ax.fill_between(at, low, high, color=LIGHT, label=f"8 {plural(noun_of(run.plan))} in 10")
    ax.fill_between(at, quarter, three_quarters, color=MIDDLE, label=f"5 {plural(noun_of(run.plan))} in 10")
    ax.plot(at, middle, color=DARK, linewidth=2.0, marker="o", markersize=4.0, label=f"middle {noun_of(run.plan)}")
    limit = run.plan.numbers["business.overdraft_limit"]
    if isinstance(limit, float):
        ax.axhline(-limit, color="black", linewidth=1.0, linestyle="--", label="end of the overdraft")
    ax.axhline(0.0, color="black", linewidth=0.6)
    every = 1 if len(at) <= 12 else 6 * math.ceil(len(at) / 36)  # over several years six labels at most, half years apart or whole ones
    ax.set_xticks(
        at[::every],
        [
            month_text(month).replace(" ", "\n") if n == 0 or every > 1 or month.endswith("-01") else month_text(month)[:3]
            for n, month in enumerate(table.months)
            if n % every == 0
        ],
    )
    ax.yaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    ax.set_ylabel(f"{run.money} at the end of the month")
    ax.legend(frameon=False, fontsize="small", loc="upper left")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def month_cash_caption(run: Run) -> str:
    """What `month_cash` shows, in sentences."""
    return f"Cash at the end of each month. {cash_sentence(run)} The dark band holds 5 {plural(noun_of(run.plan))} in 10, the light one 8 in 10."


def dots(run: Run, name: str = "household", *, ax: Axes | None = None) -> Axes:
    """Twenty dots, each one season in 20: filled where the rung is cleared, hollow where it is missed.

    Parameters
    ----------
    run : Run
    name : str
        A rung, or any column of which 0 or more is good.
    ax : matplotlib Axes, optional

    Returns
    -------
    matplotlib Axes

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    ax = new_axes(ax, 7.0, 2.2)
    good = n_filled(run, name)
    values = [run.quantile(name, (n + 0.5) / N_DOTS) for n in range(N_DOTS)]  # the middle of each twentieth
    at = np.arange(N_DOTS)
    missed = N_DOTS - good
    ax.scatter(
        at[:missed],
        np.zeros(missed),
        s=190.0,
        facecolors="white",
        edgecolors=DARK,
        linewidths=1.6,
        label="short",
    )
    ax.scatter(
        at[missed:],
        np.zeros(good),
        s=190.0,
        facecolors=DARK,
        edgecolors=DARK,
        linewidths=1.6,
        label="covered",
    )
    for place in (0, N_DOTS // 4, N_DOTS // 2, 3 * N_DOTS // 4, N_DOTS - 1):
        ax.annotate(values[place].amount_text, (at[place], -0.55), ha="center", fontsize="small")
    ax.set_ylim(-1.0, 1.0)
    ax.set_xlim(-0.8, N_DOTS - 0.2)
    ax.set_axis_off()
    ax.set_title(f"20 {plural(noun_of(run.plan))} like these, worst to best; {run.money} left: {name}", fontsize="medium", loc="left")
    ax.legend(frameon=False, ncols=2, loc="upper right", fontsize="small", markerscale=0.6)
    return ax


def n_filled(run: Run, name: str) -> int:
    """Dots that are filled; when some seasons clear the rung and some do not, neither all nor none of them."""
    chance = run.chance(name).value
    nearest = int(np.floor(N_DOTS * chance + 0.5))
    return nearest if chance in (0.0, 1.0) else min(max(nearest, 1), N_DOTS - 1)


def dots_caption(run: Run, name: str = "household") -> str:
    """What `dots` shows, in sentences."""
    words = {**RUNGS, "cash_room": CASH_HOLDS}.get(name, name).removeprefix("... and ")
    good = n_filled(run, name)
    return (
        f"Each dot is one {noun_of(run.plan)} in 20, worst to best. {good} are filled: it covers {words}. {N_DOTS - good} are hollow: it is short. "
        f"Counted over all {run.histories:,} {plural(noun_of(run.plan))}: {chance_text(run.chance(name))}."
    )
