# SPDX-License-Identifier: MIT
"""Money in sentences: what is bought ahead, owed and owned, growth over the years, the household and its hours."""

from __future__ import annotations

import datetime as dt

from seasonrisk.describe_boats import pots_of
from seasonrisk.describe_reader import Reader, joined, number_text, opening
from seasonrisk.describe_selling import open_days
from seasonrisk.values import Guess
from seasonrisk.words import day_text

__all__ = ["asset_lines", "bill_lines", "growth_lines", "hours_lines", "household_lines", "input_lines", "loan_lines"]

GROWING = {
    "costs": "bills, premium and the draw", "fuel": "fuel", "bait": "bait", "wages": "wages", "prices": "prices", "catch": "catch a haul",
}  # fmt: skip


def growth_lines(plan: Reader) -> list[str]:
    """What each year adds, and where that has come to in the last year."""
    if plan.years() == 1:
        return []
    parts = []
    for key, what in GROWING.items():
        path = f"growth.{key}_per_year_fraction"
        if not plan.mean(path):
            continue
        last = (1.0 + plan.mean(path)) ** (plan.years() - 1)
        parts.append(
            f"{what} {plan.number(path, times=100)} in 100 a year, so {number_text(last, 3)} times as much in the last"
        )
    return [f"Growth: {'; '.join(parts)}."] if parts else ["Nothing grows from year to year."]


def input_lines(plan: Reader) -> list[str]:
    """What is bought ahead and used up by hauls: how far it goes."""
    lines = []
    for path in plan.sections("input"):
        used, spoil = f"{path}.used_per_haul", f"{path}.spoil_fraction"
        if not plan.mean(used):
            continue
        per_pot = f"{path}.quantity_per_pot"
        pots = sum(pots_of(plan, boat) for boat in plan.boats())
        bought = plan.mean(per_pot) * pots if plan.has(per_pot) else plan.mean(f"{path}.quantity")
        spoilt = f", of which {plan.number(spoil, times=100)} in 100 spoil" if plan.mean(spoil) else ""
        hauls = bought * (1.0 - plan.mean(spoil)) / plan.mean(used)
        lines.append(
            f"{opening(plan.word(f'{path}.name'))}: {number_text(bought)} bought ahead{spoilt}; {plan.number(used)} go on a haul, so it is enough for "
            f"{number_text(hauls)} hauls; more is bought on the day at {plan.amount(f'{path}.unit_cost')}."
        )
    return lines


def bill_lines(plan: Reader) -> list[str]:
    """Bills and payments of the year, as the engine books them with every guess at its typical value."""
    from seasonrisk.engine import simulate

    guesses = {path: value.typical for path, value in plan.plan.numbers.items() if isinstance(value, Guess)}
    run = simulate(
        plan.plan.replace(guesses),
        histories=1,
        key=0,
        threads=1,
        keep=["standing_costs", "inputs", "loan_payments", "draw"],
    )
    bills, inputs, loan, draw = (float(run[name][0]) for name in ("standing_costs", "inputs", "loan_payments", "draw"))
    when = "in the year" if plan.years() == 1 else f"in the {plan.years()} years"
    return [
        f"Owed whether the boat fishes or not: {plan.money(bills)} of bills and premium, {plan.money(inputs)} bought ahead, "
        f"{plan.money(loan)} of loan payments and {plan.money(draw)} for the household, {plan.money(bills + inputs + loan + draw)} {when}."
    ]


def loan_lines(plan: Reader) -> list[str]:
    """Loans that are more than level payments at one rate."""
    lines = []
    for path in plan.sections("loan"):
        months, moves, early = (f"{path}.{key}" for key in ("interest_only_months", "rate_change_sd_per_year_fraction", "repay"))
        parts = []
        if plan.mean(months):
            parts.append(f"interest alone for the first {plan.counted(months, 'month')}, then level payments over what is left")
        if plan.mean(moves):
            parts.append(
                f"with each new money year the rate moves, up or down, by {plan.number(moves, times=100)} points (standard deviation), never below 0, "
                "and the payment is worked out anew over what is left of the term"
            )
        repaid = [f"{plan.amount(f'{one}.amount')} at the end of {plan.word(f'{one}.date'):%B %Y}" for one in plan.sections(early)]
        if repaid:
            parts.append(f"repaid early {joined(repaid)}, no more than is owed; the payments stay as large and end the sooner")
        if not parts:
            continue
        secured = f"; the lender holds {plan.word(f'{path}.secured_on')}" if plan.has(f"{path}.secured_on") else ""
        lines.append(
            f"{opening(plan.word(f'{path}.name'))}: {plan.amount(f'{path}.balance')} at {plan.number(f'{path}.rate_fraction', times=100)} in 100 a year, "
            f"paid off in {plan.counted(f'{path}.years_left', 'year')}; {'; '.join(parts)}{secured}."
        )
    return lines


def last_day(plan: Reader) -> dt.date:
    """Last day of the last money year."""
    start = plan.word("season.start")
    first = plan.word("business.books_start") if plan.has("business.books_start") else None
    if first is None:
        months = start.year * 12 + start.month - 1 - 3
        first = dt.date(months // 12, months % 12 + 1, 1)
    return dt.date(first.year + plan.years(), first.month, 1) - dt.timedelta(days=1)


def asset_lines(plan: Reader) -> list[str]:
    """What is owned, and what wear in a straight line from cost to resale leaves of it when the books end."""
    end = last_day(plan)
    lines = []
    for path in plan.sections("asset"):
        bought, cost, resale = plan.word(f"{path}.bought"), plan.mean(f"{path}.cost"), plan.mean(f"{path}.resale")
        age = ((end - bought).days + 1) / 365.25
        worth = cost - (cost - resale) * min(1.0, age / plan.mean(f"{path}.life_years")) if age > 0.0 else 0.0
        lines.append(
            f"{opening(plan.word(f'{path}.name'))}: {plan.amount(f'{path}.cost')} on {day_text(bought)}, worn down to {plan.amount(f'{path}.resale')} in "
            f"{plan.counted(f'{path}.life_years', 'year')}; worth {plan.money(worth)} when the books end on {day_text(end)}."
        )
    return lines


def household_lines(plan: Reader) -> list[str]:
    return [
        *([f"Spent once, at the end of the first month: {plan.amount('business.spend_now')}."] if plan.mean("business.spend_now") else []),
        f"Cash: {plan.amount('business.opening_cash')} on the first day of the money year; the account may go "
        f"{plan.amount('business.overdraft_limit')} below nothing; {tax_words(plan)}."
    ]


def tax_words(plan: Reader) -> str:
    """What is taxed, as the engine has it: what the bills leave, less loan interest and the allowance for wear."""
    tax, wear = "household.tax_fraction", "household.wear_allowance"
    if not plan.mean(tax):
        return "no tax is counted"
    less = f"loan interest and {plan.amount(wear)} for wear are" if plan.mean(wear) else "loan interest is"
    return f"tax takes {plan.number(tax, times=100)} in 100 of what the bills leave once {less} taken off"


def hours_lines(plan: Reader) -> list[str]:
    """Unpaid hours of owner and family: what the money left is divided by."""
    parts = []
    for boat in plan.boats():
        if plan.word(f"{boat}.skipper") == "owner" and plan.mean(f"{boat}.hours_per_day"):
            parts.append(f"{plan.number(f'{boat}.hours_per_day')} on each day out of {plan.word(f'{boat}.name')}")
    for outlet in plan.sections("outlet"):
        hours = open_days(plan, outlet) * plan.mean(f"{outlet}.hours_per_open_day")
        if hours:
            parts.append(f"{number_text(hours)} at {plan.word(f'{outlet}.name')}")
    pots = sum(pots_of(plan, boat) * plan.mean(f"{boat}.gear_loss.prepare_hours_per_pot") for boat in plan.boats())
    if pots:
        parts.append(f"{number_text(pots)} on pots before the season")
    ashore = sum(
        plan.mean(path) * (12 if path == "household.hours" else 1)
        for path in plan.entries
        if path.startswith("household.hours")
    )
    if ashore:
        parts.append(f"{number_text(ashore)} ashore in the year")
    return [f"Your own and the family's hours: {joined(parts)}."] if parts else []
