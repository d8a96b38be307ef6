# SPDX-License-Identifier: MIT
"""Pictures of ending early: what each last day gives up, and for whom the gear is ashore. They need matplotlib."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import numpy as np

from seasonrisk.choice.end_early import EndEarly
from seasonrisk.choice.end_early_page import family_sentence, sentence
from seasonrisk.plot import DARK, LIGHT, MIDDLE, finish, name_days, new_axes
from seasonrisk.words import day_text

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = [
    "family_dates", "family_dates_caption", "last_days", "last_days_caption", "one_last_day", "one_last_day_caption",
]  # fmt: skip

#: Seasons at either end that are drawn into the outermost bar: one freak season must not squeeze all others.
OUTERMOST = 0.002

LINES = ("-", "--", ":", "-.")


def last_days(ends: EndEarly, *, ax: Axes | None = None) -> Axes:
    """Money each last day of fishing gives up: the mean, and the band that holds 8 seasons in 10.

    Parameters
    ----------
    ends : EndEarly
    ax : matplotlib Axes, optional

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    ax = new_axes(ax, 7.0, 3.6)
    dates = [day.date for day in ends.days]
    low = [day.given_up_low.value for day in ends.days]
    high = [day.given_up_high.value for day in ends.days]
    ax.fill_between(dates, low, high, color=LIGHT, label="8 seasons in 10")  # type: ignore[arg-type]
    ax.plot(dates, [day.given_up.value for day in ends.days], color=DARK, linewidth=2.0, label="on average")  # type: ignore[arg-type]
    ax.axhline(0.0, color="black", linewidth=0.6)
    ax.axvline(ends.planned, color="black", linewidth=1.0, linestyle="--", label="as planned")  # type: ignore[arg-type]
    name_days(ax)
    ax.set_ylabel(f"{ends.money} given up")
    return finish(ax)


def last_days_caption(ends: EndEarly) -> str:
    """What `last_days` shows, in sentences."""
    return (
        f"Money left after everything that is given up by stopping early, by last day of fishing. {sentence(ends, ends.days[0])} "
        "The band holds 8 seasons in 10; below 0 the early end leaves more."
    )


def family_dates(ends: EndEarly, *, ax: Axes | None = None) -> Axes:
    """Chance that each date at home is as wished, by last day of fishing.

    Parameters
    ----------
    ends : EndEarly
        Of a plan with family dates.
    ax : matplotlib Axes, optional

    Raises
    ------
    ValueError
        When the plan has no family dates.
    MissingExtra
        When matplotlib is not installed.
    """
    if not ends.days[0].family:
        raise ValueError("the plan has no [[family_date]] to show")
    ax = new_axes(ax, 7.0, 3.0)
    dates = [day.date for day in ends.days]
    for n, name in enumerate(ends.days[0].family):
        chances = [100.0 * day.family[name].value for day in ends.days]
        ax.plot(dates, chances, color=DARK, linewidth=2.0, linestyle=LINES[n % len(LINES)], label=name)  # type: ignore[arg-type]
    ax.set_ylim(-3.0, 103.0)
    name_days(ax)
    ax.set_ylabel("in 100 seasons, as wished")
    return finish(ax)


def family_dates_caption(ends: EndEarly) -> str:
    """What `family_dates` shows, in sentences."""
    found = " ".join(family_sentence(ends, name) for name in ends.days[0].family)
    return f"Chance that each date at home is as wished, by last day of fishing from {day_text(ends.days[0].date)} on. {found}"


def one_last_day(ends: EndEarly, date: dt.date, *, ax: Axes | None = None) -> Axes:
    """What one last day gives up, season by season: how many seasons of a hundred give up how much.

    Drawn from the seasons `ends` already has, so it can follow a slider.

    Parameters
    ----------
    ends : EndEarly
    date : datetime.date
        One of the last days scored.
    ax : matplotlib Axes, optional

    Raises
    ------
    KeyError
        When that day was not scored.
    MissingExtra
        When matplotlib is not installed.
    """
    day = ends.on(date)
    ax = new_axes(ax, 7.0, 3.2)
    ax.set_xlabel(f"{ends.money} given up by fishing until {day_text(date)} in place of {day_text(ends.planned)}")
    if date == ends.planned:
        ax.text(0.5, 0.5, "the plan's own last day", ha="center", transform=ax.transAxes)
        ax.set_axis_off()
        return ax
    given_up = ends.runs[ends.planned]["household"] - ends.runs[date]["household"]
    counts, edges = np.histogram(np.clip(given_up, *np.quantile(given_up, (OUTERMOST, 1.0 - OUTERMOST))), bins=40)
    ax.bar(edges[:-1], 100.0 * counts / len(given_up), width=np.diff(edges), align="edge", color=MIDDLE, edgecolor="white", linewidth=0.4)
    ax.axvline(day.given_up.value, color=DARK, linewidth=2.0, label=f"on average {day.given_up.amount_text}")
    ax.axvline(0.0, color="black", linewidth=0.6)
    ax.set_ylabel("seasons in 100")
    ax.xaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    return finish(ax)


def one_last_day_caption(ends: EndEarly, date: dt.date) -> str:
    """What `one_last_day` shows, in sentences."""
    better = float(np.mean(ends.runs[ends.planned]["household"] < ends.runs[date]["household"]))
    return f"{sentence(ends, ends.on(date))} In {round(100 * better)} of 100 seasons the early end leaves more. Each bar counts seasons, the outermost all beyond them."
