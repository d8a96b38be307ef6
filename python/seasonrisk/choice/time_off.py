# SPDX-License-Identifier: MIT
"""Time off in mid-season: what some days at home give up, and from which day the same number gives up least.

What the time is for, and what it is worth, is not for a program to say: the money given up stands beside the days gained
and is never set against them.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core, progress as progress_
from seasonrisk.checks import whole_number
from seasonrisk.choice.blocks_of_days import asked_days, moved, with_days_off
from seasonrisk.choice.end_early import family_chances
from seasonrisk.choice.given_up import (
    STEP_COLUMNS,
    chance_of_change,
    for_each_day,
    for_each_day_at_home,
    mean_given_up,
    quantile_of,
    where_from,
)
from seasonrisk.engine import MOST_HISTORIES, Rng, key_from, require_plan, simulate
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run, RunFacts
from seasonrisk.summary import DAYS
from seasonrisk.table import Table
from seasonrisk.words import RUNGS, seasons_of

__all__ = ["DaysOff", "TimeOff", "time_off"]

Tell: TypeAlias = "Callable[[int], object] | None"

NEEDED = (*RUNGS, "cash_room", "days_out")


@dataclass(frozen=True)
class DaysOff:
    """Some days off in a row, against the plan as it stands.

    Attributes
    ----------
    first_day, last_day : datetime.date
        Both at home.
    given_up : mapping of str to Estimate
        By rung, and ``"cash_room"``: mean of what the plan leaves and these days off do not, in money. Below 0: they
        leave more.
    low, high : Estimate
        Of what is left after everything, one season in ten gives up less than the first, one in ten more than the second.
    days_gained : Estimate
        Days out that fall away, mean, of all boats together: on the others she was in already.
    per_day, per_day_at_home : Estimate
        What is left after everything that is given up for each calendar day off, and for each day out that falls away.
    chances, chance_changes : mapping of str to Estimate
        By rung and ``"cash_room"``: with these days off, and the same less what they are in the plan.
    family : mapping of str to Estimate
        By family date: chance that it is as wished.
    """

    first_day: dt.date
    last_day: dt.date
    given_up: Mapping[str, Estimate]
    low: Estimate
    high: Estimate
    days_gained: Estimate
    per_day: Estimate
    per_day_at_home: Estimate
    chances: Mapping[str, Estimate]
    chance_changes: Mapping[str, Estimate]
    family: Mapping[str, Estimate]


@dataclass(frozen=True)
class TimeOff:
    """Days off that were asked for, and the same number from other days of the season, all under the same luck.

    ``print(result)`` for the page; `rungs`, `days`, `where_from` and `starts_table` for its tables; `cheapest` for the
    starting days that give up least.

    Attributes
    ----------
    plan : Plan
        Without these days off.
    why : str
    asked : DaysOff
    starts : sequence of DaysOff
        As many days from other starting days, a week apart, the first one first; the days asked for are among them.
        Empty when they were not to be moved.
    chances, family : mapping of str to Estimate
        As the plan stands.
    base, run : Run
        Without, and with, the days asked for.
    """

    plan: Plan
    why: str
    asked: DaysOff
    starts: Sequence[DaysOff] = field(repr=False)
    chances: Mapping[str, Estimate] = field(repr=False)
    family: Mapping[str, Estimate] = field(repr=False)
    base: Run = field(repr=False)
    run: Run = field(repr=False)
    _given_up: Mapping[dt.date, NDArray[np.float64]] = field(repr=False)

    @property
    def money(self) -> str:
        """Three letters of the plan's currency."""
        return self.plan.money

    @property
    def n_days(self) -> int:
        """Calendar days off, in one season."""
        return (self.asked.last_day - self.asked.first_day).days + 1

    @property
    def facts(self) -> RunFacts:
        """How the plan's run was made; its key makes all the others."""
        return self.base.facts

    @property
    def histories(self) -> int:
        """Histories behind every number."""
        return self.base.histories

    @property
    def runs_made(self) -> int:
        """Runs that were simulated: the plan, the days asked for, and each other starting day."""
        return 1 + len({self.asked.first_day, *(days.first_day for days in self.starts)})

    def cheapest(self) -> tuple[DaysOff, ...]:
        """The starting day that gives up least on average, and after it those that cannot be told from it.

        Told apart is a paired difference of two standard errors or more.

        Raises
        ------
        ValueError
            When the days were not moved.
        """
        if not self.starts:
            raise ValueError("starts: the days off were not moved; leave out move=False")
        ordered = sorted(self.starts, key=lambda days: days.given_up["household"].value)
        least = self._given_up[ordered[0].first_day]
        more = [_core.mean_difference(least, self._given_up[days.first_day]) for days in ordered[1:]]
        return (ordered[0], *(days for days, d in zip(ordered[1:], more, strict=True) if d.value <= 2.0 * d.standard_error))

    def days(self) -> list[tuple[str, Estimate]]:
        """What became of these days in the plan, mean by mean: at sea, or in for weather, rest or a breakdown.

        They add up to the days off, times boats and seasons. Days elsewhere in the season that shift because of them,
        such as a breakdown met later, are counted in.
        """
        base, ours = self.base, self.run
        found = [("at sea", mean_given_up(base, ours, "days_out", "days"))]
        after = (base["days_fished"] - base["days_out"]) - (ours["days_fished"] - ours["days_out"])
        if after.any():
            found.append(("at sea after the season instead", _mean(after)))
        for column, words in DAYS.items():
            if column in base and column not in ("days_fished", "days_rest", "days_off"):
                shift = base[column] - ours[column]
                if shift.any():
                    found.append((words, _mean(shift)))
        already = self.n_days * self._boat_seasons() - (ours["days_off"] - base["days_off"])
        if already.any():
            found.append(("rest days, and days off already", _mean(already)))
        return found

    def _boat_seasons(self) -> float:
        """Seasons of a boat in one history: each of its days has one cause."""
        days = (self.plan.date("season.end") - self.plan.date("season.start")).days + 1
        return float(np.rint(sum(float(self.base[column].mean()) for column in DAYS if column in self.base) / days))

    def where_from(self) -> Table:
        """What the difference is made of, mean by mean; it adds up to what is left after everything."""
        return where_from(self.base, self.run, f"Where the difference comes from, {self.money}", self.money)

    def rungs(self) -> Table:
        """Money given up and chances, rung by rung."""
        from seasonrisk.choice.time_off_tables import rungs

        return rungs(self)

    def starts_table(self) -> Table:
        """The same number of days off by starting day."""
        from seasonrisk.choice.time_off_tables import starts

        return starts(self)

    def __repr__(self) -> str:
        from seasonrisk.choice.time_off_page import page

        return page(self)

    def _repr_html_(self) -> str:
        return self.rungs()._repr_html_() + (self.starts_table()._repr_html_() if self.starts else "")


def time_off(
    plan: Plan,
    first_day: dt.date,
    last_day: dt.date | None = None,
    *,
    days: int | None = None,
    why: str = "time off",
    move: bool = True,
    histories: int = 10_000,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: progress_.Progress = None,
) -> TimeOff:
    """Score some days off in mid-season against the plan as it stands, and the same number from other days.

    Parameters
    ----------
    plan : Plan
        Of several seasons, the days are off in each.
    first_day, last_day : date
        The first and the last day at home.
    days : int
        In place of ``last_day``: how many calendar days, the first included.
    why : str
        What it is for, as it would stand in the plan.
    move : bool
        Whether to try as many days from other starting days too, a week apart, as far as they end by the plan's last
        day of fishing. Each costs one run more: some 25 in a season of half a year.
    histories, rng, key, threads, progress
        As in `simulate`; every run meets the same luck.

    Returns
    -------
    TimeOff

    Raises
    ------
    ValueError, TypeError
        For days outside the season, or an argument of a kind that cannot be meant, named with what is allowed.
    PlanError
        When no day to fish would be left.

    Examples
    --------
    >>> import datetime as dt
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> fortnight = sr.time_off(plan, dt.date(2027, 7, 10), days=14, histories=500, rng=7)
    >>> fortnight.asked.last_day, fortnight.runs_made
    (datetime.date(2027, 7, 23), 25)
    """
    require_plan(plan)
    first, last = asked_days(plan, first_day, last_day, days)
    histories = whole_number("histories", histories, lowest=1, highest=MOST_HISTORIES)
    drawn = key_from(rng, key)
    asked_plan = with_days_off(plan, first, last, why)
    others = moved(plan, first, last, why) if move else {}

    n_runs = 2 + len(others)
    family = [column.name for column in _core.columns_of(plan._core) if column.name.startswith("family.")]
    causes = [column.name for column in _core.columns_of(plan._core) if column.name in DAYS]
    all_of_it = list(dict.fromkeys([*NEEDED, *STEP_COLUMNS, *causes, *family]))
    with progress_.shown(progress, histories * n_runs) as tell:
        def run_of(chosen: Plan, keep: Sequence[str], n: int) -> Run:
            onward = None if tell is None else lambda done: tell(n * histories + done)
            return simulate(chosen, histories=histories, key=drawn, threads=threads, keep=keep, progress=onward)

        base = run_of(plan, all_of_it, 0)
        run = run_of(asked_plan, all_of_it, 1)
        asked = _days_off(base, run, first, last)
        given_up = {first: base["household"] - run["household"]}
        starts = [asked] if move else []
        for n, (start, other) in enumerate(others.items(), start=2):
            elsewhere = run_of(other, [*NEEDED, *family], n)
            starts.append(_days_off(base, elsewhere, start, start + (last - first)))
            given_up[start] = base["household"] - elsewhere["household"]
    starts.sort(key=lambda block: block.first_day)
    chances = {name: base.chance(name) for name in (*RUNGS, "cash_room")}
    return TimeOff(plan, why, asked, tuple(starts), chances, family_chances(base), base, run, given_up)


def _days_off(base: Run, run: Run, first: dt.date, last: dt.date) -> DaysOff:
    money, names = base.money, (*RUNGS, "cash_room")
    given_up = base["household"] - run["household"]
    mean = {name: mean_given_up(base, run, name, money) for name in names}
    calendar_days = ((last - first).days + 1) * len(seasons_of(base.plan))
    return DaysOff(
        first_day=first,
        last_day=last,
        given_up=mean,
        low=quantile_of(given_up, 0.1, money),
        high=quantile_of(given_up, 0.9, money),
        days_gained=mean_given_up(base, run, "days_out", "days"),
        per_day=for_each_day(mean["household"], calendar_days, money),
        per_day_at_home=for_each_day_at_home(given_up, base["days_out"] - run["days_out"], money),
        chances={name: run.chance(name) for name in names},
        chance_changes={name: chance_of_change(base, run, name) for name in names},
        family=family_chances(run),
    )


def _mean(values: NDArray[np.float64]) -> Estimate:
    return Estimate.of(_core.mean(np.ascontiguousarray(values)), unit="days")
