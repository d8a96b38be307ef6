# SPDX-License-Identifier: MIT
"""The picture of a break-even; it needs matplotlib, which only this function imports."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from seasonrisk.choice.inputs import LastDay, Together
from seasonrisk.choice.words_break_even import sentence, what_is_asked
from seasonrisk.plot import DARK, LIGHT, new_axes

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.choice.break_even import BreakEven

__all__ = ["break_even", "break_even_caption"]


def break_even(found: BreakEven, *, ax: Axes | None = None) -> Axes:
    """The mean or the chance against the number moved, the target, the values found with their intervals, the plan.

    Parameters
    ----------
    found : BreakEven
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
    at = [value for value, _ in found.tried]
    scale = 1.0 if found.chance is None else 100.0
    ax.plot(at, [scale * e.value for _, e in found.tried], color=DARK, linewidth=2.0, marker="o", markersize=3.5, label="simulated")
    ax.axhline(scale * (found.target if found.chance is None else found.chance), color="black", linewidth=1.0, linestyle="--", label="to be reached")
    ax.axvline(found.moved.in_plan, color="black", linewidth=1.0, linestyle=":", label="in the plan")
    for n, crossing in enumerate(found.crossings):
        value = crossing.value
        low, high = (edge if math.isnan(end) else end for end, edge in ((value.low, at[0]), (value.high, at[-1])))
        ax.axvspan(low, high, color=LIGHT, label="could be, 19 times in 20" if n == 0 and high > low else None)
        to_left = value.value > (at[0] + at[-1]) / 2.0
        ax.annotate(
            found.moved.number(value.value, value.standard_error), (value.value, 0.03), xycoords=("data", "axes fraction"),
            xytext=(-5.0 if to_left else 5.0, 0.0), textcoords="offset points", ha="right" if to_left else "left", fontsize="small",
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.0},
        )  # fmt: skip
        ax.axvline(value.value, color=DARK, linewidth=1.0)
    ax.xaxis.set_major_formatter(lambda value, _: found.moved.number(value))
    ax.tick_params(axis="x", labelrotation=30.0 if isinstance(found.moved, LastDay) else 0.0)
    ax.yaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    unit = found.moved.unit or ("times what the plan has" if isinstance(found.moved, Together) else "")
    ax.set_xlabel(f"{found.moved.what}, {unit}" if unit and not isinstance(found.moved, LastDay) else found.moved.what)
    ax.set_ylabel(f"{found.of}, mean" if found.chance is None else f"{found.of}: seasons in 100")
    ax.legend(frameon=False, fontsize="small")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def break_even_caption(found: BreakEven) -> str:
    """What `break_even` shows, in sentences."""
    return f"Where {what_is_asked(found)}. {sentence(found)} The shaded bands hold the values found 19 times in 20."
