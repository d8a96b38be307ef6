# SPDX-License-Identifier: MIT
"""Stopping before the season's end: what each possible last day of fishing gives up, and for whom the gear is ashore.

`end_early` scores every last day asked for under the same luck, in one pass of the seasons. What a day at home is worth
is not for a program to say: the money given up stands beside the days gained and the dates met, and is never set
against them.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal

import numpy as np

from seasonrisk import _core, progress as progress_
from seasonrisk.choice.given_up import (
    STEP_COLUMNS,
    chance_of_change,
    for_each_day,
    for_each_day_at_home,
    mean_given_up,
    quantile_of,
    where_from,
)
from seasonrisk.engine import Rng, options_for, outcomes_as_columns
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.run import Run
from seasonrisk.summary import family_column, half_width, points_text
from seasonrisk.table import Table
from seasonrisk.words import RUNGS, chance_text, day_text, seasons_of, short_day

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["EndEarly", "LastDay", "end_early"]

DAY = dt.timedelta(days=1)
EPOCH = dt.date(1970, 1, 1)
#: Days before the season's end that are scored when nothing else is asked for.
LAST_DAYS = 60
NEEDED = ("running", "standing", "loan", "household", "cash_room", "days_out", "days_fished")


@dataclass(frozen=True)
class LastDay:
    """One possible last day of fishing, against the plan as it stands.

    Attributes
    ----------
    date : datetime.date
    gear_in_from : datetime.date
        The day on which bringing in the gear begins, weather allowing.
    days_earlier : int
        Calendar days before the plan's own last day; below 0 when later.
    given_up : Estimate
        Money left after everything with the plan's own last day, less what is left with this one; mean, in money. Below
        0: this one leaves more.
    given_up_low, given_up_high : Estimate
        One season in ten gives up less than the first, one in ten more than the second.
    days_gained : Estimate
        Days out that fall away, mean: days lost to weather were at home already.
    per_day, per_day_at_home : Estimate
        ``given_up`` for each calendar day earlier, of all seasons, and for each day out that falls away.
    chances : mapping of str to Estimate
        By rung, and ``"cash_room"`` for whether cash holds.
    chance_changes : mapping of str to Estimate
        The same, less what they are with the plan's own last day.
    family : mapping of str to Estimate
        By family date: chance that it is as wished.
    """

    date: dt.date
    gear_in_from: dt.date
    days_earlier: int
    given_up: Estimate
    given_up_low: Estimate
    given_up_high: Estimate
    days_gained: Estimate
    per_day: Estimate
    per_day_at_home: Estimate
    chances: Mapping[str, Estimate]
    chance_changes: Mapping[str, Estimate]
    family: Mapping[str, Estimate]


@dataclass(frozen=True)
class EndEarly:
    """Every last day that was scored, the earliest first.

    ``print(result)`` for the page; `table` and `family_table` for all of it; `on` for one day; `where_from` for what the
    difference is made of; `runs` for the histories behind it.
    """

    plan: Plan
    planned: dt.date
    runs: Mapping[dt.date, Run] = field(repr=False)
    days: Sequence[LastDay] = field(repr=False)

    @property
    def money(self) -> str:
        """Three letters of the plan's currency."""
        return self.plan.money

    @property
    def histories(self) -> int:
        """Histories behind every number."""
        return self.runs[self.planned].histories

    @property
    def key(self) -> int:
        """Key of all draws."""
        return self.runs[self.planned].key

    def on(self, date: dt.date) -> LastDay:
        """What is known of one last day.

        Raises
        ------
        KeyError
            When it was not scored.
        """
        for day in self.days:
            if day.date == date:
                return day
        raise KeyError(f"date={date}: was not scored; {self.days[0].date} to {self.days[-1].date} were asked for")

    def latest_for(self, name: str, chance: float = 0.9) -> LastDay | None:
        """The latest last day with which a family date is met in at least this share of the seasons; None when there is none.

        Its ``gear_in_from`` is the latest start of bringing the gear in.
        """
        if not 0.0 < chance <= 1.0:
            raise ValueError(f"chance={chance!r}: must be above 0 and at most 1")
        found = None
        for day in self.days:
            if name not in day.family:
                raise KeyError(f"name={name}: the plan has no family date of that name; it has {', '.join(day.family) or 'none'}")
            if day.family[name].value >= chance:
                found = day
        return found

    def table(self, *, every: int = 1) -> Table:
        """Money given up, days gained and chances, by last day; every ``every``-th of them, counted back from the last."""
        chosen = [day for n, day in enumerate(reversed(self.days)) if n % every == 0 or day.date == self.planned][::-1]
        rows, values = [], []
        for day in chosen:
            amounts = [day.given_up, day.given_up_low, day.given_up_high, day.days_gained, day.per_day, day.per_day_at_home]
            chances = [day.chances[name] for name in ("household", "cash_room")]
            here = " (as planned)" if day.date == self.planned else ""
            shown = ["-" if here or np.isnan(e.value) else e.amount_text for e in amounts]
            rows.append([
                day_text(day.date) + here, shown[0], "-" if here else day.given_up.error_text, *shown[1:],
                *(chance_text(chance, whole=False) for chance in chances), points_text(chances[0]),
            ])  # fmt: skip
            values.append([
                day.date, day.given_up.value, half_width(day.given_up), *(e.value for e in amounts[1:]),
                *(chance.value for chance in chances), half_width(chances[0]),
            ])  # fmt: skip
        return Table(
            f"Last day of fishing, and the money it gives up after everything, {self.money}",
            ["last day", "mean", "\u00b1", "1 in 10 below", "1 in 10 above", "days at home", "a day earlier", "a day at home",
             "household covered", "cash holds", "\u00b1 points"],
            rows,
            values,
        )  # fmt: skip

    def brief_table(self, *, every: int = 1) -> Table:
        """What of `table` goes on a page of a hundred letters."""
        whole = self.table(every=every)
        kept = (0, 1, 2, 3, 4, 5, 8, 10)
        dates = [row[0] for row in whole.values]
        return Table(
            whole.title,
            [whole.heads[c].replace("household covered", "covered") for c in kept],
            [[short_day(date) + (" (planned)" if date == self.planned else ""), *(row[c] for c in kept[1:])] for date, row in zip(dates, whole.rows, strict=True)],
            [[row[c] for c in kept] for row in whole.values],
        )

    def family_table(self, *, every: int = 1) -> Table:
        """Chance that each family date is as wished, by last day."""
        names = list(self.days[0].family)
        chosen = [day for n, day in enumerate(reversed(self.days)) if n % every == 0 or day.date == self.planned][::-1]
        return Table(
            "Chance that each date at home is as wished",
            ["last day", "gear in from", *(name for date in names for name in (date, "\u00b1 points"))],
            [
                [short_day(day.date), short_day(day.gear_in_from), *(text for name in names for text in (chance_cell(day.family[name]), points_text(day.family[name])))]
                for day in chosen
            ],
            [
                [day.date, day.gear_in_from, *(number for name in names for number in (day.family[name].value, half_width(day.family[name])))]
                for day in chosen
            ],
        )

    def where_from(self, date: dt.date) -> Table:
        """What the difference of one last day is made of, mean by mean; it adds up to what is left after everything."""
        self.on(date)
        title = f"Last day {day_text(date)} in place of {day_text(self.planned)}: where the difference comes from, {self.money}"
        return where_from(self.runs[self.planned], self.runs[date], title, self.money)

    def to_pandas(self) -> pd.DataFrame:
        """`table` as a DataFrame.

        Raises
        ------
        MissingExtra
            When pandas is not installed.
        """
        return self.table().to_pandas()

    def __repr__(self) -> str:
        from seasonrisk.choice.end_early_page import page

        return page(self)

    def _repr_html_(self) -> str:
        return self.table(every=7)._repr_html_() + (self.family_table(every=7)._repr_html_() if self.days[0].family else "")


def end_early(
    plan: Plan,
    *,
    last_days: int | Literal["all"] | Sequence[dt.date] = LAST_DAYS,
    histories: int = 10_000,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: progress_.Progress = None,
    memory_limit_gb: float = 4.0,
    time_limit_s: float = 3600.0,
) -> EndEarly:
    """Score possible last days of fishing against the plan as it stands, under the same luck.

    Parameters
    ----------
    plan : Plan
        Its own last day, ``season.stop_on`` or the season's end, is what every other is held against. In several seasons
        each stops on the same day of its year.
    last_days : int, "all" or sequence of date
        How many days up to the season's end, every day of the season that leaves time to bring the gear in, or these days.
    histories, rng, key, threads, progress, memory_limit_gb, time_limit_s
        As in `simulate`. A single season is simulated once: until its gear begins to come in, an early ending is the same
        season, so only the rest of each is followed. The answers are those of a simulation for each last day, to the bit.

    Returns
    -------
    EndEarly

    Raises
    ------
    PlanError
        When a last day lies outside the season.
    ValueError, TypeError, RunTooLarge, KeyboardInterrupt
        As in `simulate`.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> ends = sr.end_early(plan, last_days=30, histories=1000, rng=7)
    >>> ends.days[0].days_earlier
    29
    """
    planned, stops = _stops(plan, last_days)
    plans = {stop: plan if stop == planned else plan.choose({"season.stop_on": stop}) for stop in stops}
    keep = [*NEEDED, *STEP_COLUMNS]
    keep += [column.name for column in _core.columns_of(plan._core) if column.name.startswith("family.")]
    options = options_for(
        plan, histories=histories, rng=rng, key=key, threads=threads, keep=keep, progress=progress,
        memory_limit_gb=memory_limit_gb, time_limit_s=time_limit_s,
    )  # fmt: skip
    with progress_.shown(progress, histories) as tell:
        found = _core.simulate_endings(plan._core, [(stop - EPOCH).days for stop in stops], options, tell)
    runs = {stop: Run(plans[stop], *outcomes_as_columns(outcomes, options)) for stop, outcomes in zip(stops, found, strict=True)}
    base = runs[planned]
    return EndEarly(plan, planned, runs, tuple(_last_day(plan, runs[stop], base, stop, planned) for stop in stops))


def earliest_last_day(plan: Plan) -> dt.date:
    """The first day of the season that leaves the days it takes to bring the gear in; of a guess, the most it may take."""
    days = plan.numbers["ending.gear_in_days"]
    most = days if isinstance(days, float) else days.high
    return plan.date("season.start") + max(0, math.ceil(most) - 1) * DAY


def _stops(plan: Plan, last_days: object) -> tuple[dt.date, list[dt.date]]:
    start, end, planned = earliest_last_day(plan), plan.date("season.end"), plan.last_day
    season = [start + n * DAY for n in range((end - start).days + 1)]
    if isinstance(last_days, str):
        if last_days != "all":
            raise ValueError(f'last_days={last_days!r}: must be "all", a number of days, or the days themselves')
        stops = season
    elif isinstance(last_days, int) and not isinstance(last_days, bool):
        if not 1 <= last_days <= len(season):
            raise ValueError(f"last_days={last_days}: must be a whole number from 1 to {len(season)}, the days of the season that leave time to bring the gear in")
        stops = season[-last_days:]
    elif isinstance(last_days, Sequence) and last_days and all(isinstance(day, dt.date) and not isinstance(day, dt.datetime) for day in last_days):
        stops = list(last_days)
    else:
        raise TypeError(f'last_days={last_days!r}: must be "all", a number of days, or dates of the season')
    return planned, sorted({*stops, planned})


def _gear_in_from(plan: Plan, stop: dt.date) -> dt.date:
    """The day bringing in begins: for a guess of the days it takes, by the typical number."""
    days = plan.numbers["ending.gear_in_days"]
    typical = days if isinstance(days, float) else days.typical
    return stop - max(0, round(typical) - 1) * DAY


def _last_day(plan: Plan, run: Run, base: Run, stop: dt.date, planned: dt.date) -> LastDay:
    given_up = base["household"] - run["household"]
    gained = base["days_out"] - run["days_out"]
    earlier = (planned - stop).days
    mean = mean_given_up(base, run, "household", plan.money)
    names = [*RUNGS, "cash_room"]
    return LastDay(
        date=stop,
        gear_in_from=_gear_in_from(plan, stop),
        days_earlier=earlier,
        given_up=mean,
        given_up_low=quantile_of(given_up, 0.1, plan.money),
        given_up_high=quantile_of(given_up, 0.9, plan.money),
        days_gained=mean_given_up(base, run, "days_out", "days"),
        per_day=for_each_day(mean, earlier * len(seasons_of(plan)), plan.money),
        per_day_at_home=for_each_day_at_home(given_up, gained, plan.money),
        chances={name: run.chance(name) for name in names},
        chance_changes={name: chance_of_change(base, run, name) for name in names},
        family=family_chances(run),
    )


def chance_cell(chance: Estimate) -> str:
    """A chance in a narrow column: in 100, or that hardly any was seen."""
    if chance.value in (0.0, 1.0):
        return "none seen" if chance.value == 0.0 else "all seen"
    return chance_text(chance, whole=False)


def family_chances(run: Run) -> dict[str, Estimate]:
    """By family date; of several seasons, that of the first, which is when it is."""
    names = [str(e.value) for e in run.plan.entries if e.path.startswith("family_date.") and e.path.endswith(".name")]
    return {name: replace(run.chance(family_column(run, name), 1.0), exact=False) for name in names}
