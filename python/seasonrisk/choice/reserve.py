# SPDX-License-Identifier: MIT
"""How much to put by for breakdowns: within a season, and over three years with a yearly refill."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from seasonrisk import _core
from seasonrisk.checks import whole_number
from seasonrisk.choice.words_reserve import page, season_table, years_table
from seasonrisk.engine import Rng, simulate
from seasonrisk.estimate import Estimate
from seasonrisk.plan import Plan
from seasonrisk.progress import Progress
from seasonrisk.run import Run
from seasonrisk.table import Table
from seasonrisk.words import seasons_of

__all__ = ["LEVELS", "Reserve", "YearsRow", "reserve", "season_need"]

#: Shares of the seasons, or of the runs of years, that the money is to last.
LEVELS = (0.8, 0.9, 0.95)

#: Refills shown, as parts of what a year asks for on average; the last puts all back that was used.
REFILLS = (0.0, 0.5, 1.0, 1.5, 2.0, math.inf)

# Days of the season that were looked at after breakdowns: what a day that was not broken down might have become.
DAYS_LEFT = ("days_fished", "days_no_skipper", "days_no_crew", "days_limit", "days_weather", "days_stayed_in")
MONEY = ("running", "repairs", "claims", "pots_lost_cost")


@dataclass(frozen=True)
class YearsRow:
    """Starting reserve for one yearly refill.

    Attributes
    ----------
    refill : float
        Most that is put back each year, money; infinite: all that was used.
    start : tuple of Estimate
        To be put by at first, for each of `LEVELS`.
    """

    refill: float
    start: tuple[Estimate, ...]


@dataclass(frozen=True)
class Reserve:
    """What must be put by for breakdowns; ``print`` it for the answer in words.

    Attributes
    ----------
    plan : Plan
    season : tuple of Estimate
        For each of `LEVELS`: covers the need of one season, insurer's payments counted as money in hand.
    season_before_claims : tuple of Estimate
        The same when nothing of the insurer's has come yet: the most that is needed while claims wait.
    mean : Estimate
        What a season asks for on average.
    parts : tuple of (str, Estimate)
        The mean by part: repairs, paid by the insurer, contribution lost while broken down.
    by_years : tuple of YearsRow
        Over ``years`` years: start against yearly refill.
    start : float or None
        As asked.
    refill_for_start : Estimate or None
        Least yearly refill with which ``start`` lasts in 9 of 10 runs of years; None when not asked, or when no refill
        does, because one year alone asks for more too often.
    years, histories, key : int
    with_gear : bool
        The insurer covers gear, so pots lost are counted among the repairs.
    """

    plan: Plan
    season: tuple[Estimate, ...]
    season_before_claims: tuple[Estimate, ...]
    mean: Estimate
    parts: tuple[tuple[str, Estimate], ...]
    by_years: tuple[YearsRow, ...]
    start: float | None
    refill_for_start: Estimate | None
    years: int
    histories: int
    key: int
    with_gear: bool

    @property
    def table(self) -> Table:
        """Within a season: what covers the need, with the insurer's money and before it comes."""
        return season_table(self)

    @property
    def years_table(self) -> Table:
        """Over several years: what to put by first, for each yearly refill."""
        return years_table(self)

    def __repr__(self) -> str:
        return page(self)

    def _repr_html_(self) -> str:
        return self.table._repr_html_() + self.years_table._repr_html_()


def season_need(run: Run, season: int | None = None, *, claims_count: bool = True) -> NDArray[np.float64]:
    """What the breakdowns of a season ask for, history by history: bills less what the insurer pays, plus lost days.

    Bills are repairs, and pots lost at cost where the plan's insurer covers gear (his payments for both stand in one
    column). A day broken down costs what a day that was not broken down brought on average in that season, before
    repairs: (running + repairs - claims + pots lost) / (days fished, and days lost to weather and to whatever else is
    looked at after breakdowns).

    Parameters
    ----------
    run : Run
        With the columns kept that are usual, and ``"pots_lost_cost"``.
    season : int, optional
        Calendar year of the season, for a run of several years; left out, the run has one.
    claims_count : bool
        False: nothing of the insurer's has come yet.
    """
    suffix = "" if season is None else f".{season}"
    running, repairs, claims, pots = (run[name + suffix] for name in MONEY)
    possible = {info.name for info in _core.columns_of(run.plan._core)}
    left = sum(run[name + suffix] for name in DAYS_LEFT if name + suffix in possible)
    bills = repairs + pots if _gear_covered(run.plan) else repairs
    return _core.need_of(
        repairs=bills,
        claims=claims if claims_count else None,
        contribution=running + repairs - claims + pots,
        days_broken_down=run["days_broken_down" + suffix],
        days_left=np.ascontiguousarray(left, dtype=np.float64),
    )


def reserve(
    plan: Plan,
    *,
    years: int = 3,
    start: float | None = None,
    histories: int = 10_000,
    rng: Rng = None,
    key: int | None = None,
    threads: int = 0,
    progress: Progress = None,
) -> Reserve:
    """How much to put by for breakdowns.

    One run of ``years`` years answers both: the first season by itself, and all years in a row. The reserve takes
    each year's need, then up to a fixed amount is put back, never above what it started with; money used in one year
    is not there in the next.

    Parameters
    ----------
    plan : Plan
    years : int
        2 to 30.
    start : float, optional
        Money put by already: asks for the least yearly refill with which it lasts in 9 of 10 runs of years.
    histories, rng, key, threads, progress
        As in `simulate`.

    Returns
    -------
    Reserve

    Raises
    ------
    ValueError, TypeError
        For an argument outside its range, named with what is allowed.

    Examples
    --------
    >>> import seasonrisk as sr
    >>> plan = sr.Plan.read("examples/plans/one_boat.toml")
    >>> found = sr.reserve(plan, histories=500, rng=7)
    >>> found.season[0].value < found.season[2].value
    True
    """
    years = whole_number("years", years, lowest=2, highest=30)
    if start is not None and (isinstance(start, bool) or not isinstance(start, int | float) or not 0.0 <= start < math.inf):
        raise ValueError(f"start={start!r}: must be a number of 0 or more, or None")
    if not isinstance(plan, Plan):
        raise TypeError(f"plan={plan!r}: must be a Plan; Plan.read makes one of a file")
    long_plan = plan.replace({"business.years": years}) if plan["business.years"] != years else plan
    seasons = seasons_of(long_plan)
    possible = {info.name for info in _core.columns_of(long_plan._core)}
    wanted = [f"{name}.{season}" for season in seasons for name in (*MONEY, *DAYS_LEFT, "days_broken_down")]
    run = simulate(
        long_plan, histories=histories, rng=rng, key=key, threads=threads, keep=[name for name in wanted if name in possible], progress=progress
    )
    needs = [season_need(run, season) for season in seasons]
    before = season_need(run, seasons[0], claims_count=False)
    mean = Estimate.of(_core.mean(needs[0]), unit=plan.money)
    usual = float(f"{mean.value:.2g}")  # a round sum: what is put back is for the owner to set
    put_back = [usual * part if part else 0.0 for part in REFILLS]
    rows = []
    for refill in put_back:
        first = _core.start_needed(needs, min(refill, 1e300))
        rows.append(YearsRow(refill, tuple(_quantile(first, level, plan.money) for level in LEVELS)))
    return Reserve(
        plan,
        tuple(_quantile(needs[0], level, plan.money) for level in LEVELS),
        tuple(_quantile(before, level, plan.money) for level in LEVELS),
        mean,
        _parts(run, seasons[0], needs[0]),
        tuple(rows),
        None if start is None else float(start),
        None if start is None else _refill_for(needs, float(start), plan.money),
        years,
        run.histories,
        run.key,
        _gear_covered(plan),
    )


def _gear_covered(plan: Plan) -> bool:
    return any(e.path.startswith("boat.") and e.path.endswith(".insurance.gear_covered") and e.value for e in plan.entries)


def _quantile(values: NDArray[np.float64], level: float, money: str) -> Estimate:
    return Estimate.of(_core.quantile(values, level), unit=money)


def _refill_for(needs: list[NDArray[np.float64]], start: float, money: str) -> Estimate | None:
    """9 in 10 of the least refills; none when more than 1 in 10 are beyond any refill."""
    least = _core.refill_needed(needs, start)
    never = float(np.finfo(np.float64).max)  # a quantile is a place in order, so any figure above all others will do
    found = _quantile(np.where(np.isinf(least), never, least), 0.9, money)
    if found.value == never:
        return None
    return found if found.high < never else Estimate(found.value, math.nan, found.low, math.nan, found.n, unit=money)


def _parts(run: Run, season: int, need: NDArray[np.float64]) -> tuple[tuple[str, Estimate], ...]:
    """The mean need by part; the parts add up."""
    repairs, claims, pots = (run[f"{name}.{season}"] for name in ("repairs", "claims", "pots_lost_cost"))
    gear = _gear_covered(run.plan)
    bills = repairs + pots if gear else repairs
    named = {
        "repair bills" + (" and pots lost" if gear else ""): bills,
        "less what the insurer pays": -claims,
        "contribution lost while broken down": need - bills + claims,
    }
    return tuple((words, Estimate.of(_core.mean(values), unit=run.money)) for words, values in named.items())
