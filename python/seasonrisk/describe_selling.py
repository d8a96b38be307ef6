# SPDX-License-Identifier: MIT
"""Selling in sentences: outlets in their order, orders of regulars, what is kept alive."""

from __future__ import annotations

from seasonrisk.describe_reader import MONTHS, WEEKDAYS, Reader, joined, number_text, opening, span_text, weekdays_text
from seasonrisk.words import MONTHS as MONTH_NAMES, counted

__all__ = ["holding_lines", "open_days", "order_lines", "outlet_lines"]

PLAIN_ZERO = ("cost_per_open_day", "hours_per_open_day", "own_landings_flexibility", "missed_settlement_odds_per_year")


def open_days(plan: Reader, outlet: str) -> int:
    """Open days of the season, rest days of the boats among them."""
    days = plan.word(f"{outlet}.open_days")
    return sum(not days or WEEKDAYS[date.weekday()] in days for date in plan.season_dates())


def outlet_lines(plan: Reader) -> list[str]:
    """One line an outlet; a single plain buyer stands beside the catch already."""
    outlets = list(plan.sections("outlet"))
    if plan.is_simple() and not has_more_to_say(plan, outlets[0]):
        return []
    lines = [outlet_line(plan, outlet) for outlet in outlets]
    if len(outlets) > 1:
        lines.insert(0, f"What orders leave is offered to {counted(len(outlets), 'outlet')} in this order:")
    return lines


def has_more_to_say(plan: Reader, outlet: str) -> bool:
    has_room = any(path.startswith((f"{outlet}.daily_limit", f"{outlet}.demand_per_open_day")) for path in plan.entries)
    return has_room or bool(plan.word(f"{outlet}.open_days")) or any(plan.mean(f"{outlet}.{key}") for key in PLAIN_ZERO)


def outlet_line(plan: Reader, outlet: str) -> str:
    prices = []
    for good in plan.goods():
        path = plan.price_path(outlet, good)
        if path is not None:
            prices.append(f"{plan.amount(path)} a {good.unit} of {good.name}")
    parts = [
        f"{opening(plan.word(f'{outlet}.name'))}: open {weekdays_text(plan.word(f'{outlet}.open_days'))}",
        f"pays {joined(prices)}",
    ]
    limit, demand = room_words(plan, outlet, "daily_limit"), room_words(plan, outlet, "demand_per_open_day")
    if limit:
        parts.append(f"takes no more than {limit} a day")
    if demand:
        sd = f"{outlet}.demand_sd"
        give_or_take = f", give or take {plan.number(sd)}" if plan.has(sd) else ", give or take what chance does"
        parts.append(f"customers ask for {demand} on an open day in the mean{give_or_take}")
    if plan.mean(f"{outlet}.cost_per_unit"):
        parts.append(f"selling costs {plan.amount(f'{outlet}.cost_per_unit')} a unit")
    parts += open_day_words(plan, outlet)
    flexibility = plan.mean(f"{outlet}.own_landings_flexibility")
    if flexibility:
        change = 100.0 * (1.1**flexibility - 1.0)
        parts.append(
            f"10 in 100 more landed than usual {'raises' if change > 0 else 'lowers'} its price by {number_text(abs(change), 2)} in 100"
        )
    if plan.mean(f"{outlet}.paid_after_days"):
        parts.append(f"the money comes {plan.counted(f'{outlet}.paid_after_days', 'day')} later")
    missed = f"{outlet}.missed_settlement_odds_per_year"
    if plan.mean(missed):
        parts.append(f"odds {plan.number(missed, times=100)} in 100 a year that it never pays for some week")
    return f"{'; '.join(parts)}."


def room_words(plan: Reader, outlet: str, key: str) -> str:
    """A limit or a demand: one number for all together, or one for each."""
    path = f"{outlet}.{key}"
    if plan.has(path):
        units = {good.unit for good in plan.goods() if plan.price_path(outlet, good) is not None}
        return f"{plan.number(path)} {units.pop() if len(units) == 1 else 'sold units'} in all"
    each = [good for good in plan.goods() if plan.has(f"{path}.{good.name}")]
    return joined(f"{plan.number(f'{path}.{good.name}')} {good.unit} of {good.name}" for good in each)


def open_day_words(plan: Reader, outlet: str) -> list[str]:
    cost, hours = f"{outlet}.cost_per_open_day", f"{outlet}.hours_per_open_day"
    days = open_days(plan, outlet)
    words = []
    if plan.mean(cost):
        words.append(
            f"an open day costs {plan.amount(cost)}, {plan.money(days * plan.mean(cost))} on {counted(days, 'open day')} of the season"
        )
    if plan.mean(hours):
        words.append(
            f"it takes {plan.number(hours)} hours of yours or the family's a day, {number_text(days * plan.mean(hours))} in a season"
        )
    return words


def order_lines(plan: Reader) -> list[str]:
    """What is promised to regulars, how often, and what being short costs."""
    lines = []
    for path in plan.sections("order"):
        good, days = plan.good(plan.word(f"{path}.grade")), plan.word(f"{path}.days")
        first = plan.word(f"{path}.from" if plan.has(f"{path}.from") else "season.start")
        last = plan.word(f"{path}.to" if plan.has(f"{path}.to") else "season.end")
        times = sum(
            WEEKDAYS[day % 7] in days for day in range(first.weekday(), first.weekday() + (last - first).days + 1)
        )
        leave = f"{path}.leave_fraction"
        left = (
            f"; {plan.number(leave, times=100)} in 100 of what was short is not ordered again that year"
            if plan.mean(leave)
            else ""
        )
        each = f"each {weekdays_text(days)}" if len(days) < 7 else "every day"
        lines.append(
            f"Order of {plan.word(f'{path}.who')}: {plan.number(f'{path}.quantity')} {good.unit} of {good.name} {each}, {span_text(first, last)}, "
            f"{counted(times, 'time')}, at {plan.amount(f'{path}.price')}; {short_words(plan, path, good.unit)}{left}."
        )
    return lines


def short_words(plan: Reader, path: str, unit: str) -> str:
    """What one unit short costs."""
    price, buy_in, refund = plan.mean(f"{path}.price"), f"{path}.buy_in_price", f"{path}.refund_per_unit"
    if plan.has(buy_in):
        loses = plan.mean(buy_in) - price
        outcome = f"which {'costs' if loses >= 0 else 'earns'} {plan.money(abs(loses))}"
        return f"each {unit} short is bought in at {plan.amount(buy_in)}, {outcome}"
    if plan.has(refund):
        return f"each {unit} short is paid back with {plan.amount(refund)}"
    return "being short costs nothing but the sale"


def holding_lines(plan: Reader) -> list[str]:
    lines = []
    for path in plan.sections("holding"):
        good = plan.good(plan.word(f"{path}.grade"))
        kept = "what no outlet took is kept"
        if plan.has(f"{path}.keep_for"):
            part = f"{path}.keep_fraction"
            first = f"{plan.number(part, times=100)} in 100 of what orders leave of a landing is kept for {plan.word(f'{path}.keep_for')}, and "
            kept = (first if plan.mean(part) else f"for {plan.word(f'{path}.keep_for')} ") + kept
        die_off = f"{path}.die_off_odds_per_day"
        died = (
            f"; odds of a die-off {plan.number(die_off, times=100)} in 100 a day, which takes {plan.number(f'{path}.die_off_fraction', times=100)} in 100"
            if plan.mean(die_off)
            else ""
        )
        until = f"up to {plan.number(f'{path}.capacity')} {good.unit} and {plan.counted(f'{path}.longest_days', 'day')}"
        room = (
            f"{until}; {death_words(plan, path)}{died}; "
            if plan.mean(f"{path}.capacity")
            else "but there is room for none; "
        )
        lines.append(
            f"Held, {good.name}: {kept}, {room}what is too old or too much is sold off at "
            f"{plan.number(f'{path}.forced_price_fraction', times=100)} in 100 of the lowest price of the day."
        )
    return lines


def death_words(plan: Reader, path: str) -> str:
    """Deaths of a night, and what a week of nights leaves, in the month that costs most."""
    key = f"{path}.loss_per_night_fraction"
    months = {date.month for date in plan.season_dates()}
    by_month = {month: plan.by_month(key, month) or 0.0 for month in sorted(months)}
    worst = max(by_month, key=lambda month: by_month[month])
    loss = by_month[worst]
    if loss == 0.0:
        return "no deaths"
    where = f"in {MONTH_NAMES[worst - 1]}, the worst month, " if len(set(by_month.values())) > 1 else ""
    at = key if plan.has(key) else f"{key}.{MONTHS[worst - 1]}"
    told = plan.number(at, times=100) if plan.has(at) else number_text(100.0 * loss)
    return f"{where}{told} in 100 die in a night, so that of 100 {number_text(100.0 * (1.0 - loss) ** 7, 3)} are left after a week"
