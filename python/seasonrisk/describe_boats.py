# SPDX-License-Identifier: MIT
"""Boats in sentences, one after the other: gear, a day's costs, crew, breakdowns, gear lost, insurance."""

from __future__ import annotations

import math

from seasonrisk.describe_days import bad_days, over_years
from seasonrisk.describe_reader import Reader, joined, number_text, opening, span_text
from seasonrisk.words import day_text

__all__ = ["boat_lines"]


def boat_lines(plan: Reader) -> list[str]:
    parts = (
        heading_lines, gear_lines, crew_lines, breakdown_lines, spare_part_lines, loss_lines, storm_lines, insurance_lines,
    )  # fmt: skip
    return [line for boat in plan.boats() for part in parts for line in part(plan, boat)]


def heading_lines(plan: Reader, boat: str) -> list[str]:
    """Whose boat it is, and what of it is told of no other: nothing of an owner's single plain boat."""
    hired = plan.word(f"{boat}.skipper") == "hired"
    parts = ["with a hired skipper" if hired else "you are the skipper"]
    if plan.has(f"{boat}.fish_from"):
        parts.append(f"she fishes from {day_text(plan.word(f'{boat}.fish_from'))} on")
    if plan.mean(f"{boat}.ground_share", 1.0) != 1.0:
        parts.append(
            f"{plan.number(f'{boat}.ground_share', times=100)} in 100 is left of every boat's catch of a species on days she and another haul it"
        )
    gap = f"{boat}.skipper_gap_odds_per_year"
    if plan.mean(gap):
        weeks = number_text(plan.mean(f"{boat}.skipper_gap_weeks"), 2)
        parts.append(
            f"odds {plan.number(gap, times=100)} in 100 a year that the skipper is missing, for {weeks} weeks in the mean"
        )
    month, breakdown = f"{boat}.owner_days_per_month", f"{boat}.owner_days_per_breakdown"
    taken = [f"{plan.counted(month, 'day')} a month"] if plan.mean(month) else []
    taken += [f"{plan.counted(breakdown, 'day')} after each breakdown"] if plan.mean(breakdown) else []
    if taken:
        parts.append(f"she takes you off your own boats {joined(taken)}")
    stay_in = f"{boat}.stay_in_below"
    if plan.has(stay_in):
        parts.append(
            f"she stays in when an ordinary catch at the day's prices would leave less than {plan.amount(stay_in)}"
        )
    if len(plan.boats()) == 1 and len(parts) == 1 and not hired:
        return []
    return [f"{opening(plan.word(f'{boat}.name'))}: {'; '.join(parts)}."]


def gear_lines(plan: Reader, boat: str) -> list[str]:
    fisheries = list(plan.sections(f"{boat}.fishery"))
    several = len(fisheries) > 1
    lines = []
    for path in fisheries:
        lines.append(line_line(plan, path) if plan.word(f"{path}.gear") == "trotline" else pots_line(plan, path))
        lines += fishery_lines(plan, path, several=several)
    return lines + [cost_line(plan, boat, path, several=several) for path in fisheries]


def fishery_lines(plan: Reader, path: str, *, several: bool) -> list[str]:
    """When a fishery is, what for, and what changing over to it costs."""
    dated = plan.has(f"{path}.from") or plan.has(f"{path}.to")
    spare, switch = f"{path}.spare", f"{path}.switch_cost"
    parts = (
        [f"For {joined(plan.word(f'{path}.species'))}, {span_text(*plan.fishery_span(path))}"]
        if dated or several
        else []
    )
    if plan.mean(spare):
        parts.append(f"{plan.number(spare)} spare pots ashore take the place of lost ones")
    if plan.mean(switch):
        parts.append(f"changing over to it costs {plan.amount(switch)}")
    return [f"{opening('; '.join(parts))}."] if parts else []


def line_line(plan: Reader, path: str) -> str:
    return f"Trotline: {plan.number(f'{path}.hauls_per_day')} hauls on each day out, without soak, setting or loss of gear."


def pots_line(plan: Reader, path: str) -> str:
    count, hauls = f"{path}.count", f"{path}.hauls_per_day"
    setting = f"{path}.setting_days"
    to_set = f"; {plan.number(setting)} days to set them" if plan.mean(setting) else ""
    in_turn = plan.mean(count) / plan.mean(hauls)
    if in_turn < 1.0:
        return (
            f"Pots: {plan.number(count)}, all of them hauled on each day out, none of them twice; "
            f"{plan.number(hauls)} could be hauled if there were as many{to_set}."
        )
    if in_turn == 1.0:
        return f"Pots: {plan.number(count)}, all of them hauled on each day out{to_set}."
    return (
        f"Pots: {plan.number(count)}, of which {plan.number(hauls)} are hauled a day, so each about every "
        f"{number_text(in_turn, 2)} days out{to_set}."
    )


def cost_line(plan: Reader, boat: str, path: str, *, several: bool) -> str:
    hauls = plan.hauls(path)
    litres = plan.mean(f"{boat}.fuel_l_per_day_out") + plan.mean(f"{boat}.fuel_l_per_100_hauls") * hauls / 100.0
    fuel, bait = litres * plan.mean("prices.fuel_per_l"), hauls * plan.mean("prices.bait_per_haul")
    other = sum(plan.mean(f"{cost}.amount") for cost in plan.sections(f"{boat}.day_costs"))
    besides = f" and {plan.money(other)} besides" if other else ""
    what_for = f" for {joined(plan.word(f'{path}.species'))}" if several else ""
    return (
        f"A full day out{what_for} costs about {plan.money(fuel)} of fuel ({number_text(litres)} l), "
        f"{plan.money(bait)} of bait{besides}."
    )


def crew_lines(plan: Reader, boat: str) -> list[str]:
    first = {
        "share of sales": "of the sales, nothing taken off first",
        "share after bait and fuel": "of the week's sales after its bait and fuel are taken off",
    }
    lines = []
    for path in plan.sections(f"{boat}.crew"):
        name, pay = opening(plan.word(f"{path}.name")), plan.word(f"{path}.pay")
        if pay in first:
            paid = f"{name} gets {plan.number(f'{path}.share_fraction', times=100)} in 100 {first[pay]}"
        else:
            paid = f"{name} gets {plan.amount(f'{path}.per_day')} for each day out"
        lines.append(f"{paid}{absence_words(plan, path)}.")
    return lines or ["No crew is paid."]


def absence_words(plan: Reader, path: str) -> str:
    away, alone = f"{path}.no_show_fraction", f"{path}.alone_hauls_fraction"
    if not plan.mean(away):
        return ""
    left = f"{plan.number(alone, times=100)} in 100 of the hauls are made" if plan.mean(alone) else "the boat stays in"
    return f"; on {plan.number(away, times=100)} in 100 of the days the hand does not come, and {left}"


def breakdown_lines(plan: Reader, boat: str) -> list[str]:
    out = len(plan.boat_dates(boat)) - bad_days(plan, boat)
    lines = []
    for path in plan.sections(f"{boat}.breakdown"):
        claimable = f"{path}.claimable_odds"
        claimed = f"; {plan.number(claimable, times=100)} in 100 can be claimed" if plan.mean(claimable) else ""
        worn = wear_factor(plan, path)
        days = number_text(plan.mean(f"{path}.days_lost"), 2)
        number = -out * math.expm1(-plan.mean(f"{path}.per_100_days") / 100.0 * worn)
        lines.append(
            f"Breakdowns, {plan.word(f'{path}.kind')}: about {number_text(number, 2)} a season, at "
            f"{plan.money(plan.mean(f'{path}.repair'))} and {days} {'day' if days == '1' else 'days'} each "
            f"in the mean{claimed}{wear_words(plan, boat, path, out)}."
        )
    return lines


def wear_factor(plan: Reader, path: str, more_hours: float = 0.0) -> float:
    """The rate at the hours it has, and some more, against the stated one: (hours / reference) ^ (shape - 1)."""
    shape, reference = plan.mean(f"{path}.wear_shape", 1.0), plan.mean(f"{path}.wear_reference_hours")
    return (
        float(((plan.mean(f"{path}.hours") + more_hours) / reference) ** (shape - 1.0))
        if shape != 1.0 and reference
        else 1.0
    )


def wear_words(plan: Reader, boat: str, path: str, days_out: float) -> str:
    if plan.mean(f"{path}.wear_shape", 1.0) == 1.0:
        return ""
    hours = days_out * plan.mean(f"{boat}.hours_per_day")
    new = "; a repair makes it as new" if plan.word(f"{path}.resets_hours") else ""
    return (
        f"; at its {plan.number(f'{path}.hours')} hours it comes {number_text(wear_factor(plan, path), 3)} times as often as stated for "
        f"{plan.number(f'{path}.wear_reference_hours')}, and {number_text(wear_factor(plan, path, hours), 3)} times after a season of about "
        f"{number_text(hours, 3)} hours{new}"
    )


def spare_part_lines(plan: Reader, boat: str) -> list[str]:
    return [
        f"Spare for {plan.word(f'{path}.for')}: {plan.amount(f'{path}.cost')}, paid once; it saves "
        f"{plan.counted(f'{path}.days_saved', 'day')} at each breakdown."
        for path in plan.sections(f"{boat}.spare")
    ]


def pots_of(plan: Reader, boat: str) -> float:
    """Pots of the boat's first pot fishery."""
    paths = [path for path in plan.sections(f"{boat}.fishery") if plan.word(f"{path}.gear") == "pots"]
    return plan.mean(f"{paths[0]}.count") if paths else 0.0


def loss_lines(plan: Reader, boat: str) -> list[str]:
    path = f"{boat}.gear_loss"
    if not plan.has(f"{path}.season_fraction"):
        return []
    lost = plan.mean(f"{path}.season_fraction") * pots_of(plan, boat)
    cost = lost * plan.mean(f"{path}.pot_cost")
    string = f"{path}.pots_per_string"
    together = f"by the string of {plan.number(string)}" if plan.has(string) else "steadily, a few at a time"
    return [
        f"Pots lost: about {number_text(lost, 2)} a season, {plan.money(cost)}, {together}; "
        f"replaced {plan.word(f'{path}.replace')}."
    ]


def storm_lines(plan: Reader, boat: str) -> list[str]:
    odds, share = f"{boat}.gear_loss.storm_odds_per_season", f"{boat}.gear_loss.storm_loss_fraction"
    if not plan.mean(odds):
        return []
    pots = plan.mean(share) * pots_of(plan, boat)
    covered, policy = f"{boat}.insurance.gear_covered", f"{boat}.insurance"
    paid = "; the policy does not answer for it"
    if plan.has(covered) and plan.word(covered):
        part = plan.mean(f"{policy}.storm_deductible_fraction") * plan.mean(f"{policy}.hull_value")
        paid = f"; the policy pays what is above {plan.money(part or plan.mean(f'{policy}.deductible'))}"
    return [
        f"Storms: odds {plan.number(odds, times=100)} in 100 of at least one in a season that takes gear{over_years(plan, plan.mean(odds))}; it takes "
        f"{number_text(100.0 * plan.mean(share), 2)} in 100 of the pots in the water in the mean, up to {number_text(pots, 3)} pots or "
        f"{plan.money(pots * plan.mean(f'{boat}.gear_loss.pot_cost'))}{paid}."
    ]


def insurance_lines(plan: Reader, boat: str) -> list[str]:
    if not plan.has(f"{boat}.insurance.premium"):
        return ["No insurance."]
    path = f"{boat}.insurance"
    odds = f"{path}.total_loss_odds_per_year"
    loss = f"; odds of losing the boat {plan.number(odds)} a year" if plan.mean(odds) else ""
    return [
        f"Insurance: {plan.amount(f'{path}.premium')} a year; your own part of each claim "
        f"{plan.amount(f'{path}.deductible')}{loss}."
    ]
