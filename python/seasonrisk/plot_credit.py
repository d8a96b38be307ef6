# SPDX-License-Identifier: MIT
"""What a lender looks at first, as pictures: coverage by year, and under each hard case.

Both need matplotlib, draw on the axes they are given or on new ones, and have a sentence that says what they show.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from seasonrisk.credit.coverage import FLOORS
from seasonrisk.credit.words_stresses import case_name
from seasonrisk.plot import DARK, LIGHT, MIDDLE, new_axes
from seasonrisk.words import chance_text

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from seasonrisk.credit.coverage import Coverage, Ratio
    from seasonrisk.credit.stresses import Stressed, Stresses

__all__ = ["coverage", "coverage_caption", "hard_cases", "hard_cases_caption"]

FORMS = {"before_household": "before the owner's living and tax", "after_household": "after them"}


def coverage(found: Coverage, *, ax: Axes | None = None) -> Axes:
    """By year, how many times the loan payments are covered: the middle year, and down to the 1-in-10 year.

    Parameters
    ----------
    found : Coverage
        With a payment in one of its years.
    ax : matplotlib Axes, optional

    Raises
    ------
    ValueError
        When no payment falls due in these years.
    MissingExtra
        When matplotlib is not installed.
    """
    if found.worst_year is None:
        raise ValueError("coverage: no loan payment falls due in these years, so there is nothing to show")
    ax = new_axes(ax, 7.0, 3.4)
    for n, (form, label) in enumerate(FORMS.items()):
        colour, mark = ((MIDDLE, "s"), (DARK, "o"))[n]
        for at, year in enumerate(found.years):
            ratio: Ratio | None = getattr(year, form)
            if ratio is None:
                continue
            place = at + (n - 0.5) * 0.3
            ax.plot([place, place], [ratio.bad.value, ratio.median.value], color=colour, linewidth=4.0, solid_capstyle="butt")
            ax.plot(place, ratio.median.value, mark, color=colour, markersize=7.0, label=label if at == 0 else None)
            ax.annotate(f" {ratio.median.amount_text}", (place, ratio.median.value), fontsize="small", va="bottom")
    for floor, line in zip(FLOORS, ("-", "--"), strict=True):
        ax.axhline(floor, color="black", linewidth=0.8, linestyle=line)
    ax.set_xticks(range(len(found.years)), [str(year.season) for year in found.years])
    ax.set_ylabel("times the year's loan payments")
    ax.margins(x=0.12)
    ax.legend(frameon=False, fontsize="small")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def coverage_caption(found: Coverage) -> str:
    """What `coverage` shows, in sentences."""
    worst = found.worst_year
    if worst is None or worst.after_household is None:
        return "No loan payment falls due in these years, so there is no coverage to show."
    return (
        "How many times each year's money covers its loan payments: the mark is the middling year, the bar goes down to the 1-in-10 year; the "
        f"lines are at 1.0 and, dashed, 1.25. Lowest after living and tax is {worst.season}: {worst.after_household.median.amount_text} in the "
        f"middle, {worst.after_household.bad.amount_text} in the 1-in-10 year, below 1.0 in {chance_text(worst.after_household.below_1)}."
    )


def hard_cases(found: Stresses, *, ax: Axes | None = None) -> Axes:
    """Under each hard case, the lowest month end: the middle, and down to the 1-in-10 low; the plan as it is on top.

    Parameters
    ----------
    found : Stresses
    ax : matplotlib Axes, optional

    Raises
    ------
    MissingExtra
        When matplotlib is not installed.
    """
    cases: list[Stressed] = [found.as_it_is, *found]
    ax = new_axes(ax, 7.0, 0.9 + 0.36 * len(cases))
    for row, case in enumerate(cases):
        colour = DARK if row == 0 else MIDDLE
        ax.plot([case.lowest_bad.value, case.lowest.value], [row, row], color=LIGHT, linewidth=8.0, solid_capstyle="butt")
        ax.plot(case.lowest.value, row, "o", color=colour, markersize=6.0)
        ax.plot(case.lowest_bad.value, row, "|", color=DARK, markersize=11.0, markeredgewidth=2.0)
        ax.annotate(f"{case.lowest_bad.amount_text}  ", (case.lowest_bad.value, row), ha="right", va="center", fontsize="small")
    limit = found.plan.numbers["business.overdraft_limit"]
    if isinstance(limit, float):
        ax.axvline(-limit, color="black", linewidth=1.0, linestyle="--")
    ax.axvline(0.0, color="black", linewidth=0.6)
    ax.set_yticks(range(len(cases)), [case_name(case, 40) for case in cases], fontsize="small")
    ax.invert_yaxis()
    ax.margins(x=0.15)
    ax.xaxis.set_major_formatter(lambda value, _: f"{value:,.0f}")
    ax.set_xlabel(f"{found.plan.money} at the lowest month end")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def hard_cases_caption(found: Stresses) -> str:
    """What `hard_cases` shows, in sentences."""
    worst = min(found, key=lambda case: case.lowest_bad.value, default=found.as_it_is)
    return (
        "The lowest month end under each hard case: the dot is the middle, the bar goes down to the 1-in-10 low, the dashed line is the end of "
        f"the overdraft. As it is the 1-in-10 low is {found.as_it_is.lowest_bad.amount_text} {found.plan.money}; lowest of all it is "
        f"{worst.lowest_bad.amount_text}: {worst.name[0].lower()}{worst.name[1:]}."
    )
