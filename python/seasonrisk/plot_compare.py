# SPDX-License-Identifier: MIT
"""Pictures of a comparison; they need matplotlib, which only these functions import.

`paired_difference` shows what one choice does season by season; `menu` sets all choices side by side. Each draws on the
axes it is given, or on new ones, and returns them; the captions say in a sentence what the picture shows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from seasonrisk.plot import DARK, LIGHT, MIDDLE, new_axes
from seasonrisk.words import noun_of, plural
from seasonrisk.words_compare import choice_sentences, difference_text, short_name, verdicts

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.choice.compared import Compared, Comparison

__all__ = ["menu", "menu_caption", "paired_difference", "paired_difference_caption"]

N_BARS = 40


def paired_difference(choice: Compared, name: str = "household", *, ax: Axes | None = None) -> Axes:
    """How many seasons in 100 the choice leaves how much more or less: bars to the left of 0 are seasons it makes worse.

    Parameters
    ----------
    choice : Compared
    name : str
        A rung.
    ax : matplotlib Axes, optional

    Returns
    -------
    matplotlib Axes

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    ax = new_axes(ax, 7.0, 3.2)
    # A season that is the same stands with those that are not better: just left of 0.
    values = np.where(choice.differences[name] > 0.0, choice.differences[name], np.minimum(choice.differences[name], -1e-9))
    # The last half in a hundred of either side is gathered in the outermost bars, or one wild season would squeeze all.
    low, high = np.quantile(values, (0.005, 0.995))
    if low == high:
        low, high = low - 1.0, high + 1.0
    edges = np.linspace(low, high, N_BARS + 1)
    if low < 0.0 < high:  # no bar may hold seasons of both sides
        edges = edges - edges[np.argmin(np.abs(edges))]
    counts, _ = np.histogram(np.clip(values, edges[0], edges[-1]), edges)
    share, middles, width = 100.0 * counts / len(values), (edges[:-1] + edges[1:]) / 2.0, edges[1] - edges[0]
    better = middles > 0.0
    noun = plural(noun_of(choice.plan))
    ax.bar(middles[better], share[better], width, color=MIDDLE, edgecolor=DARK, linewidth=0.5, label="leaves more")
    ax.bar(middles[~better], share[~better], width, color="white", edgecolor=DARK, linewidth=0.8, hatch="///", label="leaves less or the same")
    mean = choice.rungs[name].mean.value
    ax.axvline(0.0, color="black", linewidth=1.0)
    ax.axvline(mean, color=DARK, linewidth=1.5, linestyle="--", label="on average")
    ax.xaxis.set_major_formatter(lambda value, _: f"{value:+,.0f}" if value else "0")
    ax.set_xlabel(f"{choice.plan.money} more or less: {name}")
    ax.set_ylabel(f"{noun} in 100")
    ax.set_title(short_name(choice.name, 60), fontsize="medium", loc="left")
    ax.legend(frameon=False, fontsize="small")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def paired_difference_caption(choice: Compared) -> str:
    """What `paired_difference` shows of the household rung, in sentences."""
    return f"{choice.name}, {noun_of(choice.plan)} by {noun_of(choice.plan)} under the same luck. {choice_sentences(choice)}"


def menu(comparison: Comparison, *, ax: Axes | None = None) -> Axes:
    """All choices side by side: the mean difference with its interval, and that of a bad season; 0 is the plan as it is.

    Parameters
    ----------
    comparison : Comparison
    ax : matplotlib Axes, optional

    Returns
    -------
    matplotlib Axes

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    ranked = comparison.ranked()[::-1]
    ax = new_axes(ax, 7.0, 1.2 + 0.45 * len(ranked))
    at = np.arange(len(ranked))
    means = [choice.rungs["household"].mean for choice in ranked]
    bad = [choice.rungs["household"].bad.value for choice in ranked]
    value = np.array([mean.value for mean in means])
    reach = np.nan_to_num(np.array([[mean.value - mean.low, mean.high - mean.value] for mean in means]).T)
    if comparison.indifference is not None:
        ax.axvspan(-comparison.indifference, comparison.indifference, color=LIGHT, label="equal for you")
    ax.axvline(0.0, color="black", linewidth=1.0)
    ax.errorbar(value, at, xerr=reach, fmt="o", color=DARK, capsize=3.0, label="on average, with its interval")
    ax.scatter(bad, at, marker="D", facecolors="white", edgecolors=DARK, zorder=3, label=f"a bad {noun_of(comparison.plan)}")
    ax.set_yticks(at, [short_name(choice.name) for choice in ranked])
    ax.set_ylim(-0.6, len(ranked) - 0.4)
    ax.xaxis.set_major_formatter(lambda value, _: f"{value:+,.0f}" if value else "0")
    ax.set_xlabel(f"{comparison.money} more or less than as it is, after everything")
    ax.legend(frameon=False, fontsize="small", loc="best")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def menu_caption(comparison: Comparison) -> str:
    """What `menu` shows, in sentences."""
    each = "; ".join(f"{choice.name}: {difference_text(choice.mean)}" for choice in comparison.ranked())
    return " ".join([f"What is left after everything against the plan as it is, on average. {each}.", *verdicts(comparison)])
