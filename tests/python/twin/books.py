# SPDX-License-Identifier: MIT
"""The money year: what is earned, what is paid, and the account at each month's end."""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from typing import Any

from twin.effects import DAY, days
from twin.plan_values import books_start, month_number, of_month
from twin.spread import round_half_up


class Account:
    """Money in and out by day; the day's order is kept by adding all before the day is closed."""

    def __init__(self) -> None:
        self.flow: defaultdict[date, float] = defaultdict(float)

    def move(self, day: date, amount: float) -> None:
        self.flow[day] += amount


def month_ends(plan: dict[str, Any]) -> list[date]:
    first = books_start(plan)
    months = [first.year * 12 + first.month - 1 + i for i in range(1, 13)]
    return [date(m // 12, m % 12 + 1, 1) - DAY for m in months]


def bills(v: dict[str, Any]) -> list[tuple[float, int | None]]:
    """(amount, month or None for every month) of each bill and the premium."""
    boat = v["boat"][0]
    out = []
    for bill in v.get("standing", []) + boat.get("standing", []):
        amount = bill["amount"] if "amount" in bill else bill["amount_per_pot"] * boat["fishery"][0]["count"]
        out.append((amount, None if bill.get("every_month", False) else month_number(bill["month"])))
    if "insurance" in boat:
        out.append((boat["insurance"]["premium"], month_number(boat["insurance"]["pay_month"])))
    return out


def inputs(v: dict[str, Any]) -> list[tuple[float, int]]:
    count = v["boat"][0]["fishery"][0]["count"]
    return [
        (
            (i["quantity"] if "quantity" in i else i["quantity_per_pot"] * count) * i["unit_cost"],
            month_number(i["pay_month"]),
        )
        for i in v.get("input", [])
    ]


def close_year(v: dict[str, Any], account: Account, c: dict[str, float]) -> None:
    """Bills, loans, household and interest, month by month; fills the money columns of `c`."""
    business, household = v["business"], v.get("household", {})
    all_bills, all_inputs = bills(v), inputs(v)
    c["running"] = c["sales"] - (
        c["fuel"]
        + c["bait"]
        + c["day_costs"]
        + c["crew_pay"]
        + c["selling_costs"]
        + c["repairs"]
        - c["claims"]
        + c["pots_lost_cost"]
    )
    loans = []
    for loan in v.get("loan", []):
        paid_in = [month_number(m) for m in loan.get("months", [])]
        a_year = len(paid_in) or 12
        n, i = round_half_up(loan["years_left"] * a_year), loan["rate_fraction"] / a_year
        payment = loan["balance"] / n if i == 0.0 else loan["balance"] * i / (1.0 - (1.0 + i) ** -n)
        loans.append(
            {"left": loan["balance"], "rate": i, "payment": payment, "months": paid_in or list(range(1, 13))}
        )

    for name in (
        "standing_costs",
        "inputs",
        "loan_payments",
        "loan_interest",
        "draw",
        "other_income",
        "overdraft_interest",
    ):
        c[name] = 0.0
    cash, accrued, at_month_end = business["opening_cash"], 0.0, []
    ends = month_ends(v)
    for today in days(books_start(v), ends[-1]):
        cash += account.flow.pop(today, 0.0)
        if today in ends:
            month = today.month
            due = sum(a for a, m in all_bills if m in (None, month))
            bought = sum(a for a, m in all_inputs if m == month)
            draw = of_month(household.get("draw_per_month", 0.0), month, 0.0)
            income = of_month(household.get("other_income_per_month", 0.0), month, 0.0)
            cash += income - due - bought - draw
            c["standing_costs"] += due
            c["inputs"] += bought
            c["draw"] += draw
            c["other_income"] += income
            for loan in loans:
                if month in loan["months"]:
                    interest = loan["left"] * loan["rate"]
                    loan["left"] -= loan["payment"] - interest
                    c["loan_interest"] += interest
                    c["loan_payments"] += loan["payment"]
                    cash -= loan["payment"]
        accrued += max(0.0, -cash) * business.get("overdraft_rate_fraction", 0.0) / 365.0
        if today in ends:
            cash -= accrued
            c["overdraft_interest"] += accrued
            accrued = 0.0
            at_month_end.append(cash)
            c[f"cash.{today:%Y-%m}"] = cash

    c["standing"] = c["running"] - c["standing_costs"] - c["inputs"]
    c["loan"] = c["standing"] - c["loan_payments"] - c["overdraft_interest"]
    taxable = c["standing"] - c["loan_interest"] - household.get("wear_allowance", 0.0)
    c["tax"] = household.get("tax_fraction", 0.0) * max(0.0, taxable)
    c["household"] = c["loan"] - c["tax"] - c["draw"] + c["other_income"]
    c["closing_cash"] = cash
    c["lowest_cash"] = min(at_month_end)
    c["lowest_cash_month"] = at_month_end.index(c["lowest_cash"])
    c["cash_room"] = c["lowest_cash"] + business.get("overdraft_limit", 0.0)
    c["owed_to_us"] = sum(
        account.flow.values()
    )  # what falls due after the year: sales and claims not yet paid
    c["owed_by_us"] = c["tax"] + c.pop("pots_owed")
    c["loan_balance"] = sum(loan["left"] for loan in loans)
    c["end_position"] = c["closing_cash"] + c["owed_to_us"] - c["owed_by_us"] - c["loan_balance"]
