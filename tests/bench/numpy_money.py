# SPDX-License-Identifier: MIT
"""The money year of the NumPy season: bills, loans, household and the account at each month's end."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy_plan import MONTHS, money_months, of_month


def month_bills(v: dict[str, Any], month: int) -> tuple[Any, Any]:
    """(bills and premium, inputs) of a calendar month."""
    boat, name = v["boat"][0], MONTHS[month - 1]
    count = boat["fishery"][0]["count"]
    bills = bought = 0.0
    for bill in v.get("standing", []) + boat.get("standing", []):
        if bill.get("every_month") or bill.get("month") == name:
            bills = bills + (bill["amount"] if "amount" in bill else bill["amount_per_pot"] * count)
    policy = boat.get("insurance")
    if policy and policy["pay_month"] == name:
        bills = bills + policy["premium"]
    for one in v.get("input", []):
        if one["pay_month"] == name:
            quantity = one["quantity"] if "quantity" in one else one["quantity_per_pot"] * count
            bought = bought + quantity * one["unit_cost"]
    return bills, bought


def open_loans(v: dict[str, Any]) -> list[dict[str, Any]]:
    loans = []
    for loan in v.get("loan", []):
        months = [MONTHS.index(m) + 1 for m in loan.get("months", MONTHS)]
        n = np.floor(loan["years_left"] * len(months) + 0.5)
        rate = np.asarray(loan["rate_fraction"] / len(months))
        safe = np.where(rate > 0.0, rate, 1.0)
        payment = np.where(
            rate > 0.0, loan["balance"] * safe / (1.0 - (1.0 + safe) ** -n), loan["balance"] / n
        )
        loans.append({"left": loan["balance"], "rate": rate, "payment": payment, "months": months})
    return loans


def close_year(v: dict[str, Any], c: dict[str, np.ndarray], flow: np.ndarray) -> None:
    """Fills the rungs and cash of `c`; `flow` is money in and out by day of the money year and after it."""
    business, household = v["business"], v.get("household", {})
    rate, loans, firsts = business.get("overdraft_rate_fraction", 0.0), open_loans(v), money_months(v)
    n = flow.shape[1]
    standing_costs = inputs = payments = interest_paid = drawn = income = np.zeros(n)
    overdraft, cash = np.zeros(n), np.broadcast_to(np.asarray(business["opening_cash"], float), (n,))
    ends = []
    for i in range(12):
        month = firsts[i].month
        bills, bought = month_bills(v, month)
        take = of_month(household.get("draw_per_month", 0.0), month, 0.0)
        other = of_month(household.get("other_income_per_month", 0.0), month, 0.0)
        days = flow[(firsts[i] - firsts[0]).days : (firsts[i + 1] - firsts[0]).days]
        days[-1] += other - take - bills - bought
        for loan in loans:
            if month in loan["months"]:
                interest = loan["left"] * loan["rate"]
                loan["left"] = loan["left"] - (loan["payment"] - interest)
                interest_paid = interest_paid + interest
                payments = payments + loan["payment"]
                days[-1] -= loan["payment"]
        if np.any(rate):
            negative, cash = np.zeros(n), cash.copy()
            for day in days:  # row by row: faster than a running sum down the columns
                cash += day
                negative += np.minimum(cash, 0.0)
            charge = negative * (-rate / 365.0)
            overdraft += charge
            cash -= charge
        else:
            cash = cash + days.sum(axis=0)
        ends.append(cash)
        standing_costs, inputs = standing_costs + bills, inputs + bought
        drawn, income = drawn + take, income + other

    c["standing"] = c["running"] - standing_costs - inputs
    c["loan"] = c["standing"] - payments - overdraft
    taxable = np.maximum(c["standing"] - interest_paid - household.get("wear_allowance", 0.0), 0.0)
    c["tax"] = household.get("tax_fraction", 0.0) * taxable
    c["household"] = c["loan"] - c["tax"] - drawn + income
    c["closing_cash"] = cash
    c["lowest_cash"] = np.min(ends, axis=0)
    c["cash_room"] = c["lowest_cash"] + business.get("overdraft_limit", 0.0)
    for first, cash_then in zip(firsts, ends, strict=False):
        c[f"cash.{first:%Y-%m}"] = cash_then
