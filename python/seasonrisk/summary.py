# SPDX-License-Identifier: MIT
"""The numbers a skipper asks for, taken from a run and laid out as tables; every one with its error."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from seasonrisk import _core
from seasonrisk.estimate import Estimate, rounded_up
from seasonrisk.table import Table
from seasonrisk.words import (
    CASH_HOLDS,
    RUNGS,
    TOTAL_LOSS,
    boats_of,
    chance_cell,
    chance_text,
    column_of,
    counted,
    day_text,
    has_total_loss,
    in_100,
    month_text,
    noun_of,
    plural,
    seasons_of,
)

if TYPE_CHECKING:
    from seasonrisk.run import Run

__all__ = [
    "FAN",
    "SEASONS",
    "LowestMonth",
    "MonthCash",
    "costs",
    "days",
    "family",
    "good_and_bad",
    "lowest_month",
    "month_cash",
    "rungs",
    "selling",
    "summary",
    "total_loss",
    "years",
]

#: Shares shown of month-end cash: 1 in 10, 1 in 4, the middle, and the same upwards.
FAN = (0.1, 0.25, 0.5, 0.75, 0.9)

#: A season so good or so bad, by the share of histories that do not pass it.
SEASONS = {
    "a good season (1 in 10 is better)": 0.9,
    "a middling season": 0.5,
    "a bad season (1 in 10 is worse)": 0.1,
}

DAYS = {
    "days_fished": "days fished",
    "days_weather": "days lost to weather",
    "days_broken_down": "days broken down",
    "days_laid_up": "days the owner was laid up",
    "days_no_skipper": "days without a skipper",
    "days_no_crew": "days without a crew",
    "days_limit": "days kept in by a limit or closure",
    "days_stayed_in": "days it was not worth going",
    "days_ashore": "days with the gear ashore",
    "days_rest": "rest days",
    "days_off": "days off",
}

# What is taken from (-1) or added to (+1) an average season on the way to each rung: column, words, sign.
STEPS = {
    "running": [
        ("sales", "sales", 1), ("fuel", "fuel", -1), ("bait", "bait", -1), ("day_costs", "day costs", -1),
        ("crew_pay", "crew", -1), ("selling_costs", "levy and selling", -1), ("repairs", "repairs", -1),
        ("claims", "paid by the insurer", 1), ("pots_lost_cost", "pots lost", -1),
        ("order_shortfalls", "orders that were short", -1), ("quota_lease", "quota leased", -1),
        ("switch_costs", "changing over", -1), ("missed_settlements", "never paid by a buyer", -1), ("rehire", "new crew", -1),
    ],
    "standing": [("standing_costs", "bills and premium", -1), ("inputs", "bought ahead of the season", -1)],
    "loan": [("loan_payments", "loan payments", -1), ("overdraft_interest", "overdraft interest", -1)],
    "household": [("tax", "tax", -1), ("draw", "household draw", -1), ("other_income", "other income", 1)],
}  # fmt: skip


class LowestMonth(NamedTuple):
    """The month whose end most often has the least cash, as ``"2027-06"``, and how often that is."""

    month: str
    chance: Estimate


@dataclass(frozen=True)
class MonthCash(Table):
    """Month-end cash by month (rows) and share of histories that do not pass it (columns)."""

    months: Sequence[str] = ()
    levels: Sequence[float] = ()
    estimates: Sequence[Sequence[Estimate]] = ()

    __repr__ = Table.__str__


def level_text(level: float) -> str:
    """A share of the histories, in words.

    Examples
    --------
    >>> level_text(0.1), level_text(0.5), level_text(0.75), level_text(0.35)
    ('1 in 10 below', 'middle', '1 in 4 above', '35 in 100 below')
    """
    names = {
        0.1: "1 in 10 below",
        0.25: "1 in 4 below",
        0.5: "middle",
        0.75: "1 in 4 above",
        0.9: "1 in 10 above",
    }
    return names.get(level, f"{100.0 * level:g} in 100 below")


def half_width(estimate: Estimate) -> float:
    """Half the 95% interval."""
    return (estimate.high - estimate.low) / 2.0


def points_text(chance: Estimate) -> str:
    """Half the interval of a chance, in points of a hundred."""
    return "exact" if chance.exact else rounded_up(100.0 * half_width(chance))


def month_cash(run: Run, levels: Sequence[float] = FAN) -> MonthCash:
    """See `Run.month_cash`."""
    months, levels = run.months, tuple(levels)
    estimates = [[run.quantile(f"cash.{month}", level) for level in levels] for month in months]
    return MonthCash(
        f"Cash at the end of each month, {run.money}",
        ["", *map(level_text, levels)],
        [[month_text(month), *(e.amount_text for e in row)] for month, row in zip(months, estimates, strict=True)],
        [[month, *(e.value for e in row)] for month, row in zip(months, estimates, strict=True)],
        months,
        levels,
        estimates,
    )


def lowest_month(run: Run) -> LowestMonth:
    """See `Run.lowest_month`."""
    which = run["lowest_cash_month"]
    most = int(np.bincount(which.astype(np.int64)).argmax())
    is_it = (which == most).astype(np.float64)
    return LowestMonth(run.months[most], Estimate.of(_core.chance(is_it, 1.0), "chance"))


def rungs(run: Run) -> Table:
    """Chance that each level of costs is covered, what is left on average, and the shortfall when it is missed."""
    rows, values = [], []
    for name, words in {**RUNGS, "cash_room": CASH_HOLDS}.items():
        if name not in run:
            continue
        chance, left, short = run.chance(name), run.mean(name), run.shortfall_when_missed(name)
        missed = "-" if np.isnan(short.value) else short.amount_text
        rows.append(
            [
                words,
                chance_cell(chance),
                points_text(chance),
                left.amount_text,
                left.error_text,
                missed,
            ]
        )
        values.append([words, chance.value, half_width(chance), left.value, half_width(left), short.value])
    several = len(seasons_of(run.plan)) > 1
    heads = ["all years together pay their" if several else "the season pays its", "chance", "\u00b1 points", "left, mean", "\u00b1", "short by"]
    question = "Do the seasons cover their costs?" if several else "Does the season cover its costs?"
    return Table(f"{question} Money in {run.money}", heads, rows, values)


def good_and_bad(run: Run) -> Table:
    """A good, a middling and a bad season: what is left after everything, and sales."""
    heads = {"household": "left after all", "sales": "sales"}
    names = [name for name in heads if name in run]
    found = {words: [run.quantile(name, level) for name in names] for words, level in SEASONS.items()}
    noun = noun_of(run.plan)
    return Table(
        f"Good, middling and bad {plural(noun_of(run.plan))}, {run.money}",
        ["", *(head for name in names for head in (heads[name], "\u00b1"))],
        [[words.replace("season", noun), *(text for e in row for text in (e.amount_text, e.error_text))] for words, row in found.items()],
        [[words, *(number for e in row for number in (e.value, half_width(e)))] for words, row in found.items()],
    )


def years(run: Run) -> Table:
    """Year by year: the chance at each rung, what is left, and how low the account gets."""
    rows, values = [], []
    every = [name for name in RUNGS if f"{name}.{seasons_of(run.plan)[0]}" in run]
    for n, season in enumerate(seasons_of(run.plan)):
        chances = [run.chance(f"{name}.{season}") for name in every]
        left = [run.quantile(f"household.{season}", level) for level in (0.1, 0.5)] if "household" in every else []
        ends = np.min([run[f"cash.{month}"] for month in run.months[12 * n : 12 * n + 12]], axis=0)
        lowest = Estimate.of(_core.quantile(np.ascontiguousarray(ends), 0.1))
        rows.append([str(season), *map(in_100, chances), *(e.amount_text for e in left), lowest.amount_text])
        values.append([season, *(e.value for e in chances), *(e.value for e in left), lowest.value])
    heads = ["season", *every, "left, bad year", "left, middling", "lowest, bad year"]
    return Table(f"Year by year: chance in 100 that each is covered; {run.money}", heads, rows, values)


def days(run: Run) -> Table:
    """Days of the season by what became of them; a cause that never comes is left out."""
    always = ("days_fished", "days_weather", "days_broken_down", "days_rest", "days_off")
    found = {
        words: [run.mean(name), run.quantile(name, 0.1), run.quantile(name, 0.9)]
        for name, words in DAYS.items()
        if name in run and (name in always or run[name].any())
    }
    boats, seasons = len(boats_of(run.plan)), len(seasons_of(run.plan))
    of_all = f", {boats} boats together" if boats > 1 else ""
    return Table(
        ("Days of the season" if seasons == 1 else f"Days of all {seasons} seasons") + of_all,
        ["", "mean", "\u00b1", "1 in 10 below", "1 in 10 above"],
        [
            [words, mean.amount_text, mean.error_text, low.amount_text, high.amount_text]
            for words, (mean, low, high) in found.items()
        ],
        [[words, mean.value, half_width(mean), low.value, high.value] for words, (mean, low, high) in found.items()],
    )


#: Columns of what became of the catch, by the first part of their names, in words.
SELLING = {
    "sold": "sold: ",
    "delivered": "delivered to ",
    "short": "short of the orders of ",
    "forced": "sold off in a hurry: ",
    "died": "died in store: ",
    "unsold": "no outlet took it: ",
}


def selling(run: Run) -> Table:
    """Where the catch went, on average; empty when all of it goes to one outlet."""
    found: list[tuple[str, Estimate]] = []
    outlets = [e for e in run.plan.entries if e.path.startswith("outlet.") and e.path.endswith(".name")]
    one_way = len(outlets) == 1 and not any(e.path.startswith(("order.", "holding.")) for e in run.plan.entries)
    for first, words in () if one_way else SELLING.items():
        for name in run.columns:
            by_year = name.rsplit(".", 1)[-1].isdigit()
            if name.startswith(first + ".") and not by_year and run[name].any():
                found.append((words + name.removeprefix(first + ".").replace(".", ", "), run.mean(name)))
    return Table(
        "Where the catch went",
        ["", "mean", "\u00b1", ""],
        [[words, mean.amount_text, mean.error_text, mean.unit] for words, mean in found],
        [[words, mean.value, half_width(mean), mean.unit] for words, mean in found],
    )


def family(run: Run) -> Table:
    """Dates that matter at home, and the chance that they can be kept. Reported, never priced.

    Over several seasons a date is that of the first: it repeats in the columns, but a wedding does not.
    """
    rows, values = [], []
    for path in (e.path for e in run.plan.entries if e.path.startswith("family_date.") and e.path.endswith(".name")):
        name, at = str(run.plan[path]), path.removesuffix("name")
        column = family_column(run, name)
        if column not in run:
            continue
        what = "all gear ashore when the day begins" if run.plan[at + "gear_ashore"] else "nobody at sea that day"
        # The same answer in every season simulated is luck or the calendar; a count does not tell which.
        chance = replace(run.chance(column, 1.0), exact=False)
        day = day_text(run.plan[at + "date"])  # type: ignore[arg-type]
        rows.append([name, day, what, chance_cell(chance), points_text(chance)])
        values.append([name, day, what, chance.value, half_width(chance)])
    return Table("Dates at home", ["", "", "", "chance", "\u00b1 points"], rows, values)


def family_column(run: Run, name: str) -> str:
    """Column of a family date, in the first season."""
    return column_of(run.plan, f"family.{name}", seasons_of(run.plan)[0])


def costs(run: Run) -> Table:
    """Where the money goes in an average season: sales, and what is taken from them rung by rung.

    What a run did not keep is shown in one sum, so the column always adds up.
    """
    rows, values = [], []
    so_far = np.zeros(run.histories)
    for rung, steps in STEPS.items():
        parts = [(words, sign * run[name]) for name, words, sign in steps if name in run and run[name].any()]
        so_far = sum((part for _, part in parts), start=so_far)
        if any(name not in run for name, _, _ in steps):
            parts.append(("all else (not kept in this run)", run[rung] - so_far))
        so_far = run[rung]
        for words, part in [*parts, (f"= left: {rung}", so_far)]:
            mean = Estimate.of(_core.mean(part))
            rows.append([words, mean.amount_text, mean.error_text])
            values.append([words, mean.value, half_width(mean)])
    return Table(f"An average season, {run.money}", ["", "mean", "\u00b1"], rows, values)


def total_loss(run: Run) -> Estimate | None:
    """How often the boat is lost; None when the plan gives that no odds, or the run did not keep it."""
    if not has_total_loss(run.plan) or "total_loss" not in run:
        return None
    found = run.chance("total_loss", 1.0)
    # None seen in a few seasons is luck and not certainty: the plan says it can happen.
    return replace(found, exact=False) if found.value == 0.0 else found


def summary(run: Run) -> Table:
    """See `Run.summary`: one number to a row."""
    found: list[tuple[str, Estimate]] = []
    for name in RUNGS:
        if name in run:
            found += [
                (f"chance: {name} covered", run.chance(name)),
                (f"short when {name} is missed", run.shortfall_when_missed(name)),
            ]
    if "cash_room" in run:
        found.append((f"chance: {CASH_HOLDS}", run.chance("cash_room")))
    for name in ("household", "sales"):
        if name in run:
            found += [(f"{name}, {words}", run.quantile(name, level)) for words, level in SEASONS.items()]
    if "lowest_cash" in run:
        found += [
            (f"lowest month-end cash, {words}", run.quantile("lowest_cash", level)) for words, level in SEASONS.items()
        ]
    if "lowest_cash_month" in run and run.months:
        month, chance = run.lowest_month()
        found.append((f"chance: cash is lowest at the end of {month_text(month)}", chance))
    found += [(words, run.mean(name)) for name, words in DAYS.items() if name in run]
    found += [(f"chance: {row[0]}, {row[2]}", run.chance(family_column(run, row[0]), 1.0)) for row in family(run).rows]
    lost = total_loss(run)
    if lost is not None:
        found.append((f"chance: {TOTAL_LOSS} (all else goes on as if afloat)", lost))
    return Table(
        f"{counted(run.histories, f'simulated {noun_of(run.plan)}')} of {run.plan.name}",
        ["", "value", "\u00b1 (95%)"],
        [[words, *_shown(estimate)] for words, estimate in found],
        [[words, estimate.value, half_width(estimate)] for words, estimate in found],
    )


def _shown(estimate: Estimate) -> tuple[str, str]:
    if estimate.kind == "chance":
        return chance_text(estimate, whole=False), f"{points_text(estimate)} points".replace("exact points", "exact")
    return f"{estimate.amount_text} {estimate.unit}", estimate.error_text
