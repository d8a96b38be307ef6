# SPDX-License-Identifier: MIT
"""The stresses that every plan is put under: the same nine for everybody, so that none can be left out."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from typing import NamedTuple, TypeAlias

from seasonrisk.choice.input_names import NAMES
from seasonrisk.choice.inputs import Together
from seasonrisk.credit.peak import PeakWeeks, peak_weeks
from seasonrisk.credit.years import text_at
from seasonrisk.plan import Plan
from seasonrisk.values import EventSize, Guess, Value
from seasonrisk.words import boats_of, day_text, seasons_of

__all__ = ["FIXED", "DoesNotApply", "Made", "StressMaker"]

LOWER, DEARER, POINTS = 0.8, 1.5, 0.03


class DoesNotApply(Exception):
    """This plan has nothing that the stress could touch; says what."""


class Made(NamedTuple):
    """What a stress sets in the plan, in words what that is, and what it supposes to happen for certain."""

    changes: Mapping[str, Value | None]
    how: str
    events: tuple[Mapping[str, Value], ...] = ()

    def plan_of(self, plan: Plan) -> Plan:
        """The plan under this stress; events come behind those that it supposes itself."""
        if self.changes:
            plan = plan.choose(self.changes)
        for event in self.events:
            plan = plan.choose({"suppose.+": event})
        return plan


class PlanAndPeak:
    """A plan, and its peak weeks when they are asked for."""

    def __init__(self, plan: Plan, key: int) -> None:
        self.plan, self._key = plan, key
        self._peak: PeakWeeks | None = None

    @property
    def peak(self) -> PeakWeeks:
        """Looked up once."""
        if self._peak is None:
            self._peak = peak_weeks(self.plan, key=self._key)
        return self._peak

    @property
    def found_peak(self) -> PeakWeeks | None:
        """None where no stress asked for them."""
        return self._peak


StressMaker: TypeAlias = "Callable[[PlanAndPeak], Made]"


def _scaled(plan: Plan, what: str, pattern: str, factor: float) -> dict[str, Value]:
    paths = tuple(path for path in plan.numbers if re.fullmatch(pattern, path))
    if not paths:
        raise DoesNotApply(f"the plan has no {what}")
    return Together(plan, what, "", 1.0, (), 0.0, paths).changes(factor)


def _prices(at: PlanAndPeak) -> Made:
    pattern = rf"{NAMES['price']}|order\.\d+\.price"
    return Made(_scaled(at.plan, "price", pattern, LOWER), "all outlets and orders, in every year")


def _catch(at: PlanAndPeak) -> Made:
    return Made(_scaled(at.plan, "catch", NAMES["catch"], LOWER), "all species, in every year")


def _both(at: PlanAndPeak) -> Made:
    return Made({**_prices(at).changes, **_catch(at).changes}, "all species, outlets and orders, in every year")


def _fuel(at: PlanAndPeak) -> Made:
    return Made(_scaled(at.plan, "fuel price", NAMES["fuel"], DEARER), "in every year")


def _rates(at: PlanAndPeak) -> Made:
    plan = at.plan
    paths = [path for path in plan.numbers if re.fullmatch(r"loan\.\d+\.rate_fraction", path)]
    told = ["all loans"] if paths else []
    limit, rate = (plan.numbers[f"business.overdraft_{key}"] for key in ("limit", "rate_fraction"))
    if limit != 0.0 or rate != 0.0:
        paths.append("business.overdraft_rate_fraction")
        told.append("the overdraft")
    if not paths:
        raise DoesNotApply("the plan has no loan and no overdraft")
    return Made({path: _raised(plan.numbers[path]) for path in paths}, f"{' and '.join(told)}, from the first day on; level payments rise with them")


def _raised(rate: float | Guess | EventSize) -> Value:
    if isinstance(rate, Guess | EventSize):
        return type(rate)(rate.low + POINTS, rate.typical + POINTS, rate.high + POINTS)
    return rate + POINTS


def _peak_lost(at: PlanAndPeak) -> Made:
    peak = at.peak
    return Made({}, f"closed {peak}", ({"what": "closure", "from": peak.first, "days": peak.days},))


def _two_bad_years(at: PlanAndPeak) -> Made:
    if len(seasons_of(at.plan)) < 2:
        raise DoesNotApply("the plan has one year; give business.years")
    events: tuple[Mapping[str, Value], ...] = tuple({"what": "bad catch", "year": year} for year in (1, 2))
    return Made({}, "a 1-in-10 year of catch in the first and again in the second", events)


def _breakdown(at: PlanAndPeak) -> Made:
    plan = at.plan
    kinds = [n for n in range(_n_breakdowns(plan)) if f"boat.0.breakdown.{n}.repair" in plan.numbers]
    if not kinds:
        raise DoesNotApply("the plan names no breakdown of the first boat")
    dearest = max(kinds, key=lambda n: _bad_size(plan, f"boat.0.breakdown.{n}.repair"))
    cost = _bad_size(plan, f"boat.0.breakdown.{dearest}.repair")
    days = math.ceil(_bad_size(plan, f"boat.0.breakdown.{dearest}.days_lost"))
    boat = boats_of(plan)[0]
    event: dict[str, Value] = {"what": "breakdown", "boat": boat, "from": at.peak.first, "days": days, "cost": cost}
    kind = text_at(plan, f"boat.0.breakdown.{dearest}.kind")
    return Made(
        {},
        f"{kind}, {boat}, {day_text(at.peak.first)}, the first day of the peak weeks: {cost:,.0f} {plan.money} and {days} days, what 1 such event in 10 is worse than; nothing claimed",
        (event,),
    )


def _n_breakdowns(plan: Plan) -> int:
    return len([e for e in plan.entries if re.fullmatch(r"boat\.0\.breakdown\.\d+\.kind", e.path)])


def _bad_size(plan: Plan, path: str) -> float:
    """What 1 event in 10 is above; of a size that is known, that."""
    size = plan.numbers.get(path, 0.0)
    return size.high if isinstance(size, Guess | EventSize) else size


def _unmanned(at: PlanAndPeak) -> Made:
    plan = at.plan
    if len(boats_of(plan)) < 2:
        raise DoesNotApply("the plan has one boat")
    end, year = plan.date("season.end"), 1
    if "boat.1.fish_from" in plan:
        while end.replace(year=end.year + year - 1, day=min(end.day, 28)) < plan.date("boat.1.fish_from") and year < 31:
            year += 1  # her first season is the first that has not ended when she begins
    if year > len(seasons_of(plan)):
        raise DoesNotApply("the second boat does not fish in these years")
    boat = boats_of(plan)[1]
    return Made({}, f"{boat}, the whole season of {seasons_of(plan)[year - 1]}", ({"what": "no skipper", "boat": boat, "year": year},))


#: Name of each, and what makes it of a plan.
FIXED: Mapping[str, StressMaker] = {
    "Prices 20 in 100 lower": _prices,
    "Catch 20 in 100 lower": _catch,
    "Both 20 in 100 lower": _both,
    "Fuel 50 in 100 dearer": _fuel,
    "Rates 3 points higher": _rates,
    "Three peak weeks lost": _peak_lost,
    "Two bad years running": _two_bad_years,
    "Major breakdown in year 1": _breakdown,
    "Second boat without a skipper": _unmanned,
}
