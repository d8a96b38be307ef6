# SPDX-License-Identifier: MIT
"""The catch in sentences: species, their grades, ties between years, limits."""

from __future__ import annotations

import math

from seasonrisk.describe_reader import Reader, joined, number_text, opening, span_text

__all__ = ["catch_lines", "limit_lines"]


def catch_lines(plan: Reader) -> list[str]:
    lines = []
    for path in plan.sections("species"):
        lines.append(simple_line(plan, path) if plan.is_simple() else species_line(plan, path))
        lines += grade_lines(plan, path)
        last = f"{path}.last_year_fraction"
        if plan.has(last):
            lines.append(
                f"Last year's {plan.word(f'{path}.name')} was {plan.number(last)} times a middling year; this year follows it as far as "
                f"years do (tie {plan.number(f'{path}.year_carry')})."
            )
    return lines + tie_lines(plan)


def simple_line(plan: Reader, path: str) -> str:
    name, unit = plan.word(f"{path}.name"), plan.word(f"{path}.unit")
    hauls, price = plan.hauls("boat.0.fishery.0"), f"outlet.0.price.{name}"
    full_day = plan.mean(f"{path}.per_haul") * hauls
    return (
        f"{opening(name)}: {plan.number(f'{path}.per_haul')} {unit} a pot after the usual soak, so {number_text(full_day)} {unit} from "
        f"{number_text(hauls)} hauls; usual price {plan.amount(price)} a {unit}, which makes "
        f"{plan.money(full_day * plan.mean(price))} a full day (means)."
    )


def species_line(plan: Reader, path: str) -> str:
    """Of several boats and fisheries, what each lands on a full day."""
    name, unit = plan.word(f"{path}.name"), plan.word(f"{path}.unit")
    per_haul, full_days = plan.mean(f"{path}.per_haul"), []
    for boat in plan.boats():
        power = plan.mean(f"{boat}.catching_power", 1.0)
        for fishery in plan.sections(f"{boat}.fishery"):
            if name in plan.word(f"{fishery}.species"):
                hauls = plan.hauls(fishery)
                full_days.append(
                    f"{number_text(per_haul * hauls * power)} {unit} from {number_text(hauls)} hauls of {plan.word(f'{boat}.name')}"
                )
    return f"{opening(name)}: {plan.number(f'{path}.per_haul')} {unit} a haul after the usual soak, so {joined(full_days)} on a full day (means)."


def grade_lines(plan: Reader, path: str) -> list[str]:
    """Grades with their shares of the catch, and what each is sold by."""
    unit, grades, differ = plan.word(f"{path}.unit"), [], []
    for grade in plan.sections(f"{path}.grade"):
        name, times = plan.word(f"{grade}.name"), f"{grade}.sold_units_per_unit"
        sold_by = plan.word(f"{grade}.sold_by") if plan.has(f"{grade}.sold_by") else unit
        counted = "" if sold_by == unit else f", {plan.number(times)} {sold_by} in a {unit}"
        grades.append(f"{name} ({plan.number(f'{grade}.fraction', times=100)} in 100, sold by the {sold_by}{counted})")
        if plan.mean(f"{grade}.year_sd"):
            differ.append(f"{name} (spread {plan.number(f'{grade}.year_sd')})")
    if not grades:
        return []
    if len(grades) == 1:
        good = next(good for good in plan.goods() if good.species == plan.word(f"{path}.name"))
        return [f"{opening(good.species)} is sold as {good.name}, by the {good.unit}."]
    years = f"; the shares differ from year to year: {joined(differ)}" if differ else ""
    return [f"{opening(plan.word(f'{path}.name'))} is sorted into {joined(grades)}{years}."]


def tie_lines(plan: Reader) -> list[str]:
    """What the tie of price to catch does to sales: E[catch x price] = exp(tie x sd of catch x sd of price)."""
    tie = plan.mean("together.price_catch_correlation")
    price_sd = max(plan.mean(f"{outlet}.year_sd") for outlet in plan.sections("outlet"))
    if tie == 0.0 or price_sd == 0.0:
        return []
    effects = [math.expm1(tie * plan.mean(f"{path}.year_sd") * price_sd) for path in plan.sections("species")]
    largest = max(effects, key=abs)
    return [
        f"Good catches meet {'lower' if tie < 0 else 'higher'} prices (tie {plan.number('together.price_catch_correlation')}): mean sales are "
        f"{abs(100.0 * largest):.1f} in 100 {'below' if largest < 0 else 'above'} mean catch times mean price."
    ]


def limit_lines(plan: Reader) -> list[str]:
    """Landing limits of the business, in the order in which they are looked at."""
    units = {plan.word(f"{path}.name"): plan.word(f"{path}.unit") for path in plan.sections("species")}
    lines = []
    for path in plan.sections("limit"):
        name = plan.word(f"{path}.species")
        first = plan.word(f"{path}.from" if plan.has(f"{path}.from") else "season.start")
        last = plan.word(f"{path}.to" if plan.has(f"{path}.to") else "season.end")
        if plan.word(f"{path}.over") == "lease":
            over = f"each {units[name]} above it is leased at {plan.amount(f'{path}.lease_price')}"
        else:
            over = "what is above it goes back, and a boat that fishes for nothing else stays in"
        lines.append(
            f"Limit: {plan.number(f'{path}.amount')} {units[name]} of {name} a {plan.word(f'{path}.per')} for the whole business, "
            f"{span_text(first, last)}; {over}."
        )
    return lines
