# SPDX-License-Identifier: MIT
"""Whole seasons with known answers: which column of a run answers which figure of the outside checks.

The checks (`season.json`) were worked out apart from this project, by recursion, closed form or enumeration;
each entry there names its source. They are kept beside the repository, not in it.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import seasonrisk as sr
from seasonrisk.choice.policies import policy_changes

RUNGS = ("running", "standing", "loan", "household")

# What a later part of the work will answer: a whole entry, (entry, choice), or (entry, quantity).
LATER: dict[Any, str] = {
}


@dataclass(frozen=True)
class Figure:
    """One expected number of one entry."""

    entry: str
    choice: str | None
    year: int | None
    arm: str  # "plan", "choice" or "difference" (choice less plan, history by history)
    quantity: str
    measure: str
    value: Any
    tolerance: float | None  # for `histories` of the entry; None: the same text
    random: bool

    def __str__(self) -> str:
        when = "" if self.year is None else f" year {self.year}"
        return f"{self.entry}: [{self.choice or 'plan'}] {self.arm}{when}: {self.quantity}: {self.measure}"

    @property
    def later(self) -> str | None:
        keys = (self.entry, (self.entry, self.choice), (self.entry, self.quantity))
        return next((LATER[k] for k in keys if k in LATER), None)


def checks_file() -> Path | None:
    """The file beside the repository, if it is there."""
    repository = Path(__file__).resolve().parents[2]
    path = repository.parent / "shared" / "checks" / "season.json"
    return path if path.is_file() else None


@cache
def entries() -> dict[str, dict[str, Any]]:
    path = checks_file()
    return {e["id"]: e for e in json.loads(path.read_text(encoding="utf-8"))} if path else {}


def figures() -> list[Figure]:
    return [
        Figure(
            e["id"],
            *(f[k] for k in ("choice", "year", "arm", "quantity", "measure", "value", "tolerance")),
            f["kind"] == "random",
        )
        for e in entries().values()
        for f in e["expected"]
    ]


DIRECT = {
    "days lost to rest days": "days_rest",
    "days lost to days off": "days_off",
    "days lost to weather": "days_weather",
    "days lost to broken down": "days_broken_down",
    "bad-weather days": "bad_weather_days",
    "cash at the end of the money year": "closing_cash",
    "lowest month-end cash": "lowest_cash",
    "owed to us at the end": "owed_to_us",
    "loan balance at the end": "loan_balance",
    "catch in kg": "catch.lobster",
    "repairs before claims": "repairs",
    "claims paid": "claims",
    "cost of pots lost": "pots_lost_cost",
    "chance of total loss, on its own line": "total_loss",
    "chance cash holds": "cash_room",
    "tax still owed at the end": "owed_by_us",
    "dozens delivered to the inn": "delivered.the inn",
    "dozens short to the inn": "short.the inn",
    "last order of the inn in dozens": "last_order.the inn",
    "dozens to the picking house": "sold.picking house.number ones",
    "kg delivered to the chapel supper": "delivered.chapel supper",
    "kg short to the chapel supper": "short.chapel supper",
    "order shortfalls in money": "order_shortfalls",
    "stall days": "open_days.stall",
    "kg sold at the stall": "sold.stall.live lobster",
    "kg of lobster died in store": "died.live lobster",
    "kg of lobster sold off at the forced price": "forced.live lobster",
    "kg of lobster held at the end": "held.live lobster",
    "kg of lobster to the merchant": "sold.merchant.live lobster",
    "kg of crab to the lorry": "sold.crab lorry.crab alive",
    "kg of crab sold off at the forced price": "forced.crab alive",
    "kg sold off at the forced price": "forced.crab alive",
    "days both fish": "days_both",
    "chance of gear ashore by half-term": "family.half-term",
    "chance of gear ashore by christening": "family.christening",
    "chance of gear ashore by last Sunday of November": "family.last Sunday of November",
}


def coverage(run: Any, year: str, *, after_household: bool) -> np.ndarray:
    """Cash for the lender over what he is owed, as the page of the checks defines both."""
    cash = run["standing" + year]
    if after_household:
        cash = cash + run["other_income" + year] - run["draw" + year] - run["tax" + year]
    return cash / run["loan_payments" + year]


def missed_years(run: Any) -> np.ndarray:
    """One row a year: where the loan rung is missed."""
    return np.array([run[name] < 0.0 for name in run.columns if name.startswith("loan.")])


def weeks_without_pay(run: Any) -> int:
    """Weeks with days out whose sales do not cover bait and fuel, of one history (here all are alike)."""
    days = run.replay(0)
    week = (days.dates - np.datetime64("1970-01-05")) // np.timedelta64(7, "D")
    weekly = {name: np.bincount(week - week[0], days[name]) for name in ("out", "sales", "fuel", "bait")}
    return int(np.sum((weekly["out"] > 0) & (weekly["sales"] <= weekly["fuel"] + weekly["bait"])))


def break_even_claims(run: Any) -> float:
    """Of the plan's own boat, her deductible of 1,000 against the choice of 3,500."""
    (policy,) = policy_changes(run.plan, run.plan.choose("3,500 deductible"))
    return policy.break_even_claims


DERIVED: dict[str, Callable[[Any], np.ndarray]] = {
    "season days": lambda r: sum(
        r[c] for c in ("days_fished", "days_rest", "days_off", "days_broken_down", "days_weather")
    ),
    "standing costs and inputs": lambda r: r["standing_costs"] + r["inputs"],
    # The entry's other bill is 21,000, in its own plan text.
    "tags, mending and rope": lambda r: r["standing_costs"] + r["inputs"] - 21000.0,
    # The entry opens its books with 9,000, in its own plan text.
    "change in cash over the money year": lambda r: r["closing_cash"] - 9000.0,
    "chance of no big breakdown": lambda r: r["breakdowns.big"] == 0,
    "chance of two or more big breakdowns": lambda r: r["breakdowns.big"] >= 2,
    "chance that at least one claim pays": lambda r: r["claims_paid"] >= 1,
    "lowest month end": lambda r: np.array(r.months)[r["lowest_cash_month"].astype(int)],
    "loan payments a year": lambda r: r["loan_payments.2027"],
    "coverage before the household": lambda r: coverage(r, "", after_household=False),
    "coverage after the household": lambda r: coverage(r, "", after_household=True),
    "chance the loan rung is missed in at least one of the 4 years": lambda r: missed_years(r).any(axis=0),
    "chance it is missed in both year 0 and year 1": lambda r: missed_years(r)[:2].all(axis=0),
    "chance it is missed in all 4 years": lambda r: missed_years(r).all(axis=0),
    "years of the 4 in which it is missed": lambda r: missed_years(r).sum(axis=0),
    "correlation of the loan rung, year 0 with year 1": lambda r: np.corrcoef(r["loan.2027"], r["loan.2028"])[0, 1],
    "chance of at least one storm": lambda r: r["storms"] >= 1,
    "days of hauling before the stop": lambda r: r["days_out"] - r["days_gear_in"],
    "correlation of the two boats' fished days": lambda r: np.corrcoef(
        r["days_fished.Mallard's Aunt"], r["days_fished.Duckling"]
    )[0, 1],
    "weeks with no pay for the second hand though fished": weeks_without_pay,
    "break-even claims a year, 1,000 to 3,500, majors only": break_even_claims,
}
# A chance of a plain column: what a history must show to count.
SEEN = {"total_loss": lambda x: x == 1.0, "cash_room": lambda x: x >= 0.0}


def column_of(quantity: str) -> str | None:
    """The column of that name, where the quantity is one."""
    if quantity in DIRECT:
        return DIRECT[quantity]
    if quantity in DERIVED:
        return None
    for words, column in (
        ("cash at month end ", "cash."),
        ("crew pay ", "crew_pay."),
        ("breakdowns ", "breakdowns."),
        ("days fished ", "days_fished."),
    ):
        if quantity.startswith(words):
            return column + quantity.removeprefix(words)
    return quantity.replace(" ", "_")


def values_of(run: Any, quantity: str) -> np.ndarray:
    column = column_of(quantity)
    return DERIVED[quantity](run) if column is None else run[column]


def measured(values: np.ndarray, measure: str) -> Any:
    """The measure of a column worked out here, for differences and derived columns."""
    if measure in ("mean", "mean count", "chance"):
        return values.mean()
    if measure in ("sd", "sd of count"):
        return values.std(ddof=1)
    if measure.startswith("quantile "):
        rank = math.ceil(float(measure.split()[1]) * len(values))
        return np.sort(values)[rank - 1]
    raise ValueError(f"no rule for the measure {measure!r}")


def summarised(run: Any, column: str, measure: str) -> float:
    """The measure of a kept column by the library's own summary."""
    if measure == "chance at or above 0":
        return run.chance(column).value
    if measure in ("mean", "mean count"):
        return run.mean(column).value
    if measure in ("sd", "sd of count"):
        return run.standard_deviation(column).value
    if measure.startswith("quantile "):
        return run.quantile(column, float(measure.split()[1])).value
    if measure == "mean shortfall when missed":
        return run.shortfall_when_missed(column).value
    if measure == "mean of the worst tenth":
        return run.worst_share_mean(column, 0.1).value
    raise ValueError(f"no rule for the measure {measure!r}")


def every_rung_gap(run: Any, base: Any) -> np.ndarray:
    return np.concatenate([run[r] - base[r] for r in RUNGS])


def got(figure: Figure, run: Any, base: Any) -> Any:
    """What the library says; for an exact `value` every history, which must all be alike."""
    if figure.arm == "difference":
        if figure.quantity == "every rung, every history":
            return every_rung_gap(run, base)
        if figure.quantity == "chance it is a gain":
            return (run["standing"] > base["standing"]).mean()
        gap = values_of(run, figure.quantity) - values_of(base, figure.quantity)
        return gap if figure.measure == "value" else measured(gap, figure.measure)
    if figure.quantity.startswith("cost of stopping early per day between"):
        earlier = run.plan.choose("Home for the half-term")
        gap = base["standing"] - sr.simulate(earlier, histories=base.histories, key=base.key, keep=["standing"])["standing"]
        return gap.mean() / 28.0  # 17 October to 14 November, in the entry's own words
    if figure.quantity.startswith("share of the variance of standing that is "):
        return getattr(sr.drivers(run, of="standing"), figure.quantity.rpartition(" ")[2]).value
    column = column_of(figure.quantity)
    if figure.year is not None:  # each entry with several years has its first season in 2027
        year = f".{2027 + figure.year}"
        if column is None:
            return coverage(run, year, after_household="after" in figure.quantity)
        column += year
    if figure.measure == "value":
        return run[column] if column else values_of(run, figure.quantity)
    if figure.measure == "chance":
        return SEEN.get(column, lambda x: x)(values_of(run, figure.quantity)).mean()
    if column is None:
        return measured(values_of(run, figure.quantity), figure.measure)
    return summarised(run, column, figure.measure)
