# SPDX-License-Identifier: MIT
"""Bills, loans, household, tax and interest, month by month; then every column of the history."""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING, Any

from twin.calendar_years import DAY, Season, days, is_month_end
from twin.inputs import quantity_of
from twin.plan_values import month_number, of_month, pots_of, pots_of_all
from twin.spread import round_half_up
from twin.years import growth

if TYPE_CHECKING:
    from twin.season import History

PAID = (
    *("standing_costs", "loan_payments", "loan_interest", "loan_principal", "loan_repaid_early", "missed_payments"),
    *("draw", "overdraft_interest", "tax"),
)
RUNNING_COSTS = (
    *("fuel", "bait", "day_costs", "crew_pay", "selling_costs", "order_shortfalls", "repairs", "pots_lost_cost"),
    *("quota_lease", "switch_costs", "missed_settlements", "rehire"),
)


def bills(v: dict[str, Any]) -> list[tuple[float, int | None]]:
    """(amount, month or None for every month) of each bill and premium."""
    lists = [(v.get("standing", []), pots_of_all(v))]
    lists += [(boat.get("standing", []), pots_of(boat)) for boat in v["boat"]]
    out = []
    for some, pots in lists:
        for bill in some:
            amount = bill["amount"] if "amount" in bill else bill["amount_per_pot"] * pots
            out.append((amount, None if bill.get("every_month", False) else month_number(bill["month"])))
    for boat in v["boat"]:
        if "insurance" in boat:
            out.append((boat["insurance"]["premium"], month_number(boat["insurance"]["pay_month"])))
    return out


class Loan:
    """Level payments, after a time of interest alone; the rate may move, and some may be repaid early."""

    def __init__(self, loan: dict[str, Any]) -> None:
        self.months = [month_number(m) for m in loan.get("months", [])] or list(range(1, 13))
        self.a_year = len(self.months)
        self.left, self.yearly_rate = loan["balance"], loan["rate_fraction"]
        self.sd = loan.get("rate_change_sd_per_year_fraction", 0.0)
        self.payments = round_half_up(loan["years_left"] * self.a_year)
        self.interest_alone = round_half_up(loan.get("interest_only_months", 0) / 12.0 * self.a_year)
        self.early = loan.get("repay", [])
        self.made = 0
        self.settle()

    def settle(self) -> None:
        """The level payment over what is left of the term."""
        self.rate = self.yearly_rate / self.a_year
        n, i = max(1, self.payments - max(self.made, self.interest_alone)), self.rate
        self.level = self.left / n if i == 0.0 else self.left * i / (1.0 - (1.0 + i) ** -n)

    def new_year(self, z: float) -> None:
        if self.sd > 0.0:
            self.yearly_rate = max(0.0, self.yearly_rate + self.sd * z)
            self.settle()

    def pay(self) -> tuple[float, float]:
        """The next payment and the interest in it."""
        self.made += 1
        if self.made > self.payments:
            return 0.0, 0.0
        interest = self.left * self.rate
        payment = interest if self.made <= self.interest_alone else self.level
        payment = min(payment, self.left + interest) if self.early else payment
        self.left -= payment - interest
        return payment, interest

    def repay(self, month_end: date) -> float:
        """What is repaid early at the end of this month, no more than is owed."""
        total = 0.0
        for one in self.early:
            if (one["date"].year, one["date"].month) == (month_end.year, month_end.month):
                amount = min(one["amount"], self.left)
                self.left -= amount
                total += amount
        return total


class Money:
    """The account from the first day of the books to the last."""

    def __init__(self, told: History) -> None:
        self.told, self.v, self.books = told, told.v, told.books
        self.household = self.v.get("household", {})
        self.all_bills = bills(self.v)
        self.loans = [Loan(loan) for loan in self.v.get("loan", [])]
        self.cash, self.accrued = self.v["business"]["opening_cash"], 0.0
        self.month_cash: dict[str, float] = {}
        self.tax_owed, self.loss_forward, self.unpaid_tax = 0.0, 0.0, 0.0
        self.shortfall, self.lowest = [0.0] * len(told.seasons), [math.inf] * len(told.seasons)
        self.loan_balance: list[float] = []
        self.loan_due = 0.0

    def live_year(self, season: Season) -> None:
        c = self.books.year[season.y]
        for name in PAID:
            c[name] += 0.0
        for place, loan in enumerate(self.loans if season.y else []):
            loan.new_year(self.told.luck.normal_in_year(season.year, "loan_rate", place))
        last_year = self.books.year[season.y - 1] if season.y else None
        if last_year:
            self.cash -= last_year["pots_owed"]
        for today in days(season.books_first, season.books_last):
            self.early_stop(c, season, today)
            self.cash += self.books.flow.pop(today, 0.0)
            if is_month_end(today):
                self.month_end(c, season, today)
            rate = self.v["business"].get("overdraft_rate_fraction", 0.0)
            self.accrued += max(0.0, -self.cash) * rate / 365.0
            if is_month_end(today):
                self.cash -= self.accrued
                c["overdraft_interest"] += self.accrued
                self.accrued = 0.0
                self.month_cash[f"cash.{today:%Y-%m}"] = self.cash
                beyond = -self.cash - self.v["business"].get("overdraft_limit", 0.0)
                c["missed_payments"] += float(beyond > 0.0 and self.loan_due > 0.0)
                self.shortfall[season.y] = max(self.shortfall[season.y], beyond)
                self.lowest[season.y] = min(self.lowest[season.y], self.cash)
        self.loan_balance.append(sum(loan.left for loan in self.loans))
        self.rungs(c, season.y)

    def early_stop(self, c: dict[str, float], season: Season, today: date) -> None:
        """The yard's fee and the refund for the days laid up."""
        if today == season.stop and season.stop < season.end:
            ending = self.v.get("ending", {})
            refund = ending.get("lay_up_refund_per_day", 0.0) * (season.end - season.stop).days
            due = ending.get("yard_change_fee", 0.0) - refund
            self.cash -= due
            c["standing_costs"] += due

    def shore_days(self, season: Season, today: date) -> int:
        """Days of this month with the shore job."""
        month = days(today.replace(day=1), today)
        return sum(season.stop < day <= season.end for day in month)

    def month_end(self, c: dict[str, float], season: Season, today: date) -> None:
        v, month, y = self.v, today.month, season.y
        costs, wages = growth(v, "costs", y), growth(v, "wages", y)
        due = costs * sum(amount for amount, m in self.all_bills if m in (None, month))
        bought = costs * sum(
            quantity_of(i, v) * i["unit_cost"] for i in v.get("input", []) if month_number(i["pay_month"]) == month
        )
        if y == 0 and today < season.books_first + 31 * DAY:
            bought += v["business"].get("spend_now", 0.0)
            bought += sum(spare["cost"] for boat in v["boat"] for spare in boat.get("spare", []))
        draw = costs * of_month(self.household.get("draw_per_month", 0.0), month, 0.0)
        income = wages * of_month(self.household.get("other_income_per_month", 0.0), month, 0.0)
        income += v.get("ending", {}).get("shore_job_per_week", 0.0) / 7.0 * self.shore_days(season, today)
        self.cash += income - due - bought - draw
        for name, amount in (("standing_costs", due), ("inputs", bought), ("draw", draw), ("other_income", income)):
            c[name] += amount
        self.loan_due = 0.0
        for loan in self.loans:
            if month in loan.months:
                payment, interest = loan.pay()
                self.cash -= payment
                self.loan_due += payment
                c["loan_payments"] += payment
                c["loan_interest"] += interest
                c["loan_principal"] += payment - interest
            early = loan.repay(today)
            self.cash -= early
            c["loan_repaid_early"] += early
        tax_months = [month_number(m) for m in self.household.get("tax_months", [])]
        if month in tax_months and y > 0:
            part = self.books.year[y - 1]["tax"] / len(tax_months)
            self.cash -= part
            self.unpaid_tax -= part
        for asset in v.get("asset", []):
            bought_on = asset["bought"]
            first = self.told.seasons[0].books_first
            if bought_on >= first and (bought_on.year, bought_on.month) == (today.year, today.month):
                self.cash -= asset["cost"]

    def rungs(self, c: dict[str, float], y: int) -> None:
        c["running"] = c["sales"] - sum(c[name] for name in RUNNING_COSTS) + c["claims"]
        c["standing"] = c["running"] - c["standing_costs"] - c["inputs"]
        c["loan"] = c["standing"] - c["loan_payments"] - c["overdraft_interest"]
        taxable = c["standing"] - c["loan_interest"] - self.household.get("wear_allowance", 0.0) - self.loss_forward
        self.loss_forward = max(0.0, -taxable)
        c["tax"] = self.household.get("tax_fraction", 0.0) * max(0.0, taxable)
        self.unpaid_tax += c["tax"]
        c["household"] = c["loan"] - c["tax"] - c["draw"] + c["other_income"]
        hours = self.household.get("hours", 0.0)
        c["hours"] = c.pop("stall_hours", 0.0) + sum(of_month(hours, m, 0.0) for m in range(1, 13))
        for boat in self.told.boats:
            prepare = boat.loss.get("prepare_hours_per_pot", 0.0) if boat.loss else 0.0
            c["hours"] += prepare * pots_of(boat.plan)
            if boat.owners:
                c["hours"] += boat.plan.get("hours_per_day", 0.0) * self.books.days_out[boat.number, y]


def value_of_assets(v: dict[str, Any], last_day: date) -> float:
    total = 0.0
    for asset in v.get("asset", []):
        age = ((last_day - asset["bought"]).days + 1) / 365.25
        if age > 0.0:
            worn = min(1.0, age / asset.get("life_years", 10.0))
            total += asset["cost"] - (asset["cost"] - asset.get("resale", 0.0)) * worn
    return total


def close_books(told: History) -> dict[str, float]:
    """All columns of a history that has been lived."""
    money, books, last = Money(told), told.books, told.seasons[-1]
    for season in told.seasons:
        money.live_year(season)
    c: dict[str, float] = {}
    owed_pots = [one.pop("pots_owed") for one in books.year]
    names = dict.fromkeys(name for one in books.year for name in one)
    for name in names:
        c[name] = sum(one.get(name, 0.0) for one in books.year)
        if len(told.seasons) > 1:
            c |= {f"{name}.{s.year}": books.year[s.y].get(name, 0.0) for s in told.seasons}
    c |= books.of_boat
    c |= told.family.columns()
    for place, suffix in [(c, ""), *((books.year[s.y], f".{s.year}") for s in told.seasons if len(told.seasons) > 1)]:
        hours = place["hours"]
        if suffix:
            c.pop(f"hours{suffix}")
        if hours > 0.0:
            c[f"hours{suffix}"], c[f"left_per_hour{suffix}"] = hours, place["loan"] / hours
        elif not suffix:
            c.pop("hours")

    at_month_end = list(money.month_cash.values())
    c |= money.month_cash
    c["pots_left"] = sum(boat.pots_left() for boat in told.boats)
    for boat in told.boats if books.boats else []:
        c[f"pots_left.{boat.plan['name']}"] = boat.pots_left()
    c["closing_cash"] = money.cash
    c["lowest_cash"] = min(at_month_end)
    c["lowest_cash_month"] = at_month_end.index(c["lowest_cash"])
    c["cash_room"] = c["lowest_cash"] + told.v["business"].get("overdraft_limit", 0.0)
    c["owed_to_us"] = sum(books.flow.values())  # what falls due after the last day: sales and claims not yet paid
    c["owed_by_us"] = money.unpaid_tax + owed_pots[-1]
    c["loan_balance"], c["shortfall"] = money.loan_balance[-1], max(money.shortfall)
    for s in told.seasons if len(told.seasons) > 1 else []:
        c[f"loan_balance.{s.year}"], c[f"shortfall.{s.year}"] = money.loan_balance[s.y], money.shortfall[s.y]
        c[f"lowest_cash.{s.year}"] = money.lowest[s.y]
    held = 0.0
    for good, kept in told.selling.store.of_good.items():
        c[f"held.{told.goods[good].name}"] = kept.amount()
        held += kept.amount() * told.selling.forced_price(good, last.books_last, only_open=False)
    c["end_position"] = c["closing_cash"] + c["owed_to_us"] - c["owed_by_us"] - c["loan_balance"]
    c["end_position"] += value_of_assets(told.v, last.books_last) + held
    return c
