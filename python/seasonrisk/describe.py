# SPDX-License-Identifier: MIT
"""A plan in sentences, with the means it implies, for the owner to check by eye.

Sums that the engine can do are done by the engine, on one season of the plan with every guess at its typical value;
means of guesses and of event sizes come from the engine's own spread.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from seasonrisk import _core
from seasonrisk.values import EventSize, Guess, number_as_typed
from seasonrisk.words import day_text

if TYPE_CHECKING:
    from seasonrisk.plan import Plan

__all__ = ["describe", "spread_lines"]

ONE_IN_1000 = 3.0902323061678132  # z that 1 in 1,000 passes
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def number_text(value: float, digits: int = 4) -> str:
    """A number worked out from the plan, with separators and no more than a few digits.

    Examples
    --------
    >>> number_text(28600.0), number_text(0.13), number_text(2.5)
    ('28,600', '0.13', '2.5')
    """
    return f"{value:,.0f}" if abs(value) >= 1000.0 else f"{value:.{digits}g}"


def opening(text: str) -> str:
    """A name at the beginning of a sentence: its first letter large, all others as they are.

    Examples
    --------
    >>> opening("deckhand"), opening("Marigold Anne")
    ('Deckhand', 'Marigold Anne')
    """
    return text[:1].upper() + text[1:]


@dataclass
class Reader:
    """Means and words of a plan, by key path."""

    plan: Plan
    entries: dict[str, _core.PlanValue] = field(init=False)

    def __post_init__(self) -> None:
        self.entries = {entry.path: entry for entry in self.plan.entries}

    def has(self, path: str) -> bool:
        return path in self.entries

    def word(self, path: str) -> Any:
        return self.entries[path].value

    def mean(self, path: str, otherwise: float = 0.0) -> float:
        return self.entries[path].mean() if path in self.entries else otherwise

    def sections(self, path: str) -> Iterator[str]:
        """Paths of a list's sections, ``"boat.0.crew.0"`` and on."""
        n = 0
        while any(entry.startswith(f"{path}.{n}.") for entry in self.entries):
            yield f"{path}.{n}"
            n += 1

    def money(self, value: float) -> str:
        places = 0 if value >= 100.0 or abs(value - round(value)) < 0.005 else 2
        return f"{value:,.{places}f} {self.plan.money}"

    def number(self, path: str, *, times: int = 1, digits: int = 4) -> str:
        """The plan's own number as it was typed; of a guess, its mean to a few digits."""
        value = self.plan.numbers[path]
        if isinstance(value, Guess | EventSize):
            return number_text(times * self.mean(path), digits)
        return number_as_typed(value, times=times)

    def amount(self, path: str) -> str:
        """The plan's own amount of money as it was typed, with pence as they are written; of a guess, its mean."""
        if path not in self.plan.numbers or isinstance(self.plan.numbers[path], Guess | EventSize):
            return self.money(self.mean(path))
        text = self.number(path)
        return f"{text}{'0' if text[-2:-1] == '.' else ''} {self.plan.money}"

    def hauls(self) -> float:
        """Pots hauled on a full day: no more than there are."""
        fishery = "boat.0.fishery.0"
        return min(self.mean(f"{fishery}.hauls_per_day"), self.mean(f"{fishery}.count"))

    def by_month(self, path: str, month: int) -> float | None:
        """Mean of a monthly value: the month's own, or the last before it that has one, going round the year."""
        if path in self.entries:
            return self.mean(path)
        for back in range(12):
            at = f"{path}.{MONTHS[(month - 1 - back) % 12]}"
            if at in self.entries:
                return self.mean(at)
        return None

    def fishing_dates(self) -> list[dt.date]:
        """Season days that are neither rest days nor days off."""
        start, end, rest = self.word("season.start"), self.word("season.end"), self.word("season.rest_days")
        off = [(self.word(f"{path}.from"), self.word(f"{path}.to")) for path in self.sections("season.days_off")]
        dates = [start + dt.timedelta(days=n) for n in range((end - start).days + 1)]
        names = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
        return [d for d in dates if names[d.weekday()] not in rest and not any(a <= d <= b for a, b in off)]


def describe(plan: Plan) -> str:
    """See `Plan.describe`."""
    reader = Reader(plan)
    parts = (
        season_lines, weather_lines, catch_lines, boat_lines, crew_lines, breakdown_lines,
        gear_lines, insurance_lines, bill_lines, household_lines, spread_lines,
    )  # fmt: skip
    return "\n".join(line for part in parts for line in part(reader))


def season_lines(plan: Reader) -> list[str]:
    start, end = plan.word("season.start"), plan.word("season.end")
    days, fishing = (end - start).days + 1, len(plan.fishing_dates())
    rest = ", ".join(plan.word("season.rest_days")) or "none"
    return [
        f"{plan.plan.name}: a season of {days} days, {day_text(start)} to {day_text(end)}; rest days {rest}; "
        f"{fishing} days are left on which the boat may go."
    ]


def bad_days(plan: Reader) -> float:
    """Mean of the fishing days too bad for this boat; a boat's multiplier works on the odds of the mean fraction."""
    odds_times = plan.mean("boat.0.weather_odds_multiplier", 1.0)
    total = 0.0
    for date in plan.fishing_dates():
        f = plan.by_month("weather.unfishable_fraction", date.month) or 0.0
        total += f * odds_times / (1.0 - f + f * odds_times)
    return total


def weather_lines(plan: Reader) -> list[str]:
    bad = bad_days(plan)
    spells = plan.mean("weather.persistence")
    tied = f"; bad days come in spells (tie to the day before {plan.number('weather.persistence')})" if spells else ""
    left = len(plan.fishing_dates()) - bad
    return [
        f"Weather: about {bad:.0f} of those days are too bad in a mean year{tied}, so about {left:.0f} are left before breakdowns."
    ]


def catch_lines(plan: Reader) -> list[str]:
    lines = []
    hauls = plan.hauls()
    for path in plan.sections("species"):
        name, unit = plan.word(f"{path}.name"), plan.word(f"{path}.unit")
        price = f"outlet.0.price.{name}"
        full_day = plan.mean(f"{path}.per_haul") * hauls
        lines.append(
            f"{opening(name)}: {plan.number(f'{path}.per_haul')} {unit} a pot after the usual soak, so {number_text(full_day)} {unit} from "
            f"{number_text(hauls)} hauls; usual price {plan.amount(price)} a {unit}, which makes "
            f"{plan.money(full_day * plan.mean(price))} a full day (means)."
        )
    return lines + tie_lines(plan)


def tie_lines(plan: Reader) -> list[str]:
    """What the tie of price to catch does to sales: E[catch x price] = exp(tie x sd of catch x sd of price)."""
    tie, price_sd = plan.mean("together.price_catch_correlation"), plan.mean("outlet.0.year_sd")
    if tie == 0.0 or price_sd == 0.0:
        return []
    effects = [math.expm1(tie * plan.mean(f"{path}.year_sd") * price_sd) for path in plan.sections("species")]
    largest = max(effects, key=abs)
    return [
        f"Good catches meet {'lower' if tie < 0 else 'higher'} prices (tie {plan.number('together.price_catch_correlation')}): mean sales are "
        f"{abs(100.0 * largest):.1f} in 100 {'below' if largest < 0 else 'above'} mean catch times mean price."
    ]


def boat_lines(plan: Reader) -> list[str]:
    hauls = plan.hauls()
    litres = plan.mean("boat.0.fuel_l_per_day_out") + plan.mean("boat.0.fuel_l_per_100_hauls") * hauls / 100.0
    fuel, bait = litres * plan.mean("prices.fuel_per_l"), hauls * plan.mean("prices.bait_per_haul")
    other = sum(plan.mean(f"{path}.amount") for path in plan.sections("boat.0.day_costs"))
    besides = f" and {plan.money(other)} besides" if other else ""
    return [
        pots_line(plan),
        f"A full day out costs about {plan.money(fuel)} of fuel ({number_text(litres)} l), "
        f"{plan.money(bait)} of bait{besides}.",
    ]


def pots_line(plan: Reader) -> str:
    count, hauls = "boat.0.fishery.0.count", "boat.0.fishery.0.hauls_per_day"
    setting = "boat.0.fishery.0.setting_days"
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


def crew_lines(plan: Reader) -> list[str]:
    first = {
        "share of sales": "of the sales, nothing taken off first",
        "share after bait and fuel": "of the week's sales after its bait and fuel are taken off",
    }
    lines = []
    for path in plan.sections("boat.0.crew"):
        name, pay = opening(plan.word(f"{path}.name")), plan.word(f"{path}.pay")
        if pay in first:
            lines.append(f"{name} gets {plan.number(f'{path}.share_fraction', times=100)} in 100 {first[pay]}.")
        else:
            lines.append(f"{name} gets {plan.amount(f'{path}.per_day')} for each day out.")
    return lines or ["No crew is paid."]


def breakdown_lines(plan: Reader) -> list[str]:
    out = len(plan.fishing_dates()) - bad_days(plan)
    lines = []
    for path in plan.sections("boat.0.breakdown"):
        claimable = f"{path}.claimable_odds"
        claimed = f"; {plan.number(claimable, times=100)} in 100 can be claimed" if plan.mean(claimable) else ""
        number = -out * math.expm1(-plan.mean(f"{path}.per_100_days") / 100.0)
        lines.append(
            f"Breakdowns, {plan.word(f'{path}.kind')}: about {number_text(number, 2)} a season, at "
            f"{plan.money(plan.mean(f'{path}.repair'))} and {number_text(plan.mean(f'{path}.days_lost'), 2)} days each "
            f"in the mean{claimed}."
        )
    return lines


def gear_lines(plan: Reader) -> list[str]:
    if not plan.has("boat.0.gear_loss.season_fraction"):
        return []
    lost = plan.mean("boat.0.gear_loss.season_fraction") * plan.mean("boat.0.fishery.0.count")
    cost = lost * plan.mean("boat.0.gear_loss.pot_cost")
    string = "boat.0.gear_loss.pots_per_string"
    together = f"by the string of {plan.number(string)}" if plan.has(string) else "steadily, a few at a time"
    return [
        f"Pots lost: about {number_text(lost, 2)} a season, {plan.money(cost)}, {together}; "
        f"replaced {plan.word('boat.0.gear_loss.replace')}."
    ]


def insurance_lines(plan: Reader) -> list[str]:
    if not plan.has("boat.0.insurance.premium"):
        return ["No insurance."]
    path = "boat.0.insurance"
    odds = f"{path}.total_loss_odds_per_year"
    loss = f"; odds of losing the boat {plan.number(odds)} a year" if plan.mean(odds) else ""
    return [
        f"Insurance: {plan.amount(f'{path}.premium')} a year; your own part of each claim "
        f"{plan.amount(f'{path}.deductible')}{loss}."
    ]


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
    return [
        f"Owed whether the boat fishes or not: {plan.money(bills)} of bills and premium, {plan.money(inputs)} bought ahead, "
        f"{plan.money(loan)} of loan payments and {plan.money(draw)} for the household, {plan.money(bills + inputs + loan + draw)} in the year."
    ]


def household_lines(plan: Reader) -> list[str]:
    return [
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


def spread_lines(plan: Reader) -> list[str]:
    """Guesses and event sizes: typical, mean, and what 1 in 1,000 passes."""
    kinds = ((Guess, "Guesses, drawn once a season"), (EventSize, "Sizes of single events"))
    lines = []
    for kind, title in kinds:
        paths = [path for path, value in plan.plan.numbers.items() if isinstance(value, kind)]
        if paths:
            lines.append(f"{title} (typical, mean, 1 in 1,000 above):")
        for path in paths:
            entry = plan.entries[path]
            value = plan.plan.numbers[path]
            typical = value.typical if isinstance(value, Guess | EventSize) else value
            unit = entry.unit.replace("money", plan.plan.money)
            lines.append(
                f"  {path:<44} {number_as_typed(typical):>9} {number_text(entry.mean()):>9} {number_text(entry.at(ONE_IN_1000)):>9}  {unit}"
            )
    return lines
