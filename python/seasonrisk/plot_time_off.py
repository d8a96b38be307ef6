# SPDX-License-Identifier: MIT
"""The picture of time off: what as many days off give up, by their first day. It needs matplotlib."""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.choice.time_off import TimeOff
from seasonrisk.choice.time_off_page import cheapest_sentence, sentence
from seasonrisk.plot import DARK, LIGHT, finish, new_axes

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["time_off", "time_off_caption"]


def time_off(found: TimeOff, *, ax: Axes | None = None) -> Axes:
    """Money that the days off give up by their first day: the mean, and the band that holds 8 seasons in 10.

    Parameters
    ----------
    found : TimeOff
        Whose days were moved.
    ax : matplotlib Axes, optional

    Raises
    ------
    ValueError
        When the days were not moved.
    MissingExtra
        When matplotlib is not installed.
    """
    if not found.starts:
        raise ValueError("starts: the days off were not moved; leave out move=False")
    ax = new_axes(ax, 7.0, 3.6)
    dates = [days.first_day for days in found.starts]
    low, high = [days.low.value for days in found.starts], [days.high.value for days in found.starts]
    mean = [days.given_up["household"].value for days in found.starts]
    ax.fill_between(dates, low, high, color=LIGHT, label="8 seasons in 10")  # type: ignore[arg-type]
    ax.plot(dates, mean, color=DARK, linewidth=2.0, marker="o", markersize=3.5, label="on average")  # type: ignore[arg-type]
    ax.axhline(0.0, color="black", linewidth=0.6)
    ax.axvline(found.asked.first_day, color="black", linewidth=1.0, linestyle="--", label="asked for")  # type: ignore[arg-type]
    ax.set_xlabel(f"first of {found.n_days} days off" if found.n_days > 1 else "the day off")
    ax.set_ylabel(f"{found.money} given up")
    return finish(ax)


def time_off_caption(found: TimeOff) -> str:
    """What `time_off` shows, in sentences."""
    return (
        f"Money left after everything that days off give up, by their first day. {sentence(found)} {cheapest_sentence(found)} "
        "The band holds 8 seasons in 10; below 0 the days off leave more."
    )
