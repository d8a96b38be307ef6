# SPDX-License-Identifier: MIT
"""From the answers of ``seasonrisk new`` to a plan with comments.

Spreads are derived from worst and best cases: of a worst and a best year, taken as the 1-in-10 years on either side
(normal on the log scale). With five years or fewer to go by, a spread is never taken below 0.15: so few years hardly
ever hold a really bad one, and catch rates that were surveyed for decades differ by 0.14 to 0.26 from year to year.
"""

from __future__ import annotations

import datetime as dt
import math
from statistics import NormalDist
from typing import Any

from seasonrisk.misfits import SEASONS_REMEMBERED, days_by_month, days_left, misfits
from seasonrisk.questions import MONTHS, Answers
from seasonrisk.values import key_text, text_in_quotes, toml_text

__all__ = ["plan_text"]

ONE_IN_TEN_Z = 1.2815515655
FEW_YEARS, LEAST_YEAR_SD = 5, 0.15
COMMENT_COLUMN = 38
REST_DAYS = ("Sunday", "Saturday", "Friday", "Thursday", "Wednesday", "Tuesday")


def year_sd(worst: float, best: float, records: int) -> tuple[float, str]:
    """Spread between years on the log scale, and a remark when few years made it wider.

    Examples
    --------
    >>> year_sd(2500.0, 4000.0, records=12)
    (0.18, '')
    >>> year_sd(3000.0, 3300.0, records=4)
    (0.15, 'widened from 0.04: 4 years are too few to have seen a bad one')
    """
    seen = round(math.log(best / worst) / (2.0 * ONE_IN_TEN_Z), 2)
    if records > FEW_YEARS or seen >= LEAST_YEAR_SD:
        return seen, ""
    return LEAST_YEAR_SD, f"widened from {seen:.10g}: {records} years are too few to have seen a bad one"


def plan_text(answers: Answers) -> str:
    """A plan in TOML, commented for its owner.

    Raises
    ------
    ValueError
        When answers do not go together, such as more days lost than there are; all of it told at once.
    """
    dates = fishing_dates(answers)
    problems = misfits(answers, dates)
    if problems:
        raise ValueError("\n".join(problems))
    weather = weather_fractions(answers, dates)
    days_out = days_left(answers, dates)
    parts = (
        business(answers), season(answers), weather_section(weather), *species(answers, days_out), together(answers),
        selling(answers), boat(answers), crew(answers), breakdowns(answers, days_out), gear(answers),
        insurance(answers), bills(answers), loan(answers), household(answers),
    )  # fmt: skip
    return aligned("\n\n".join(part for part in parts if part) + "\n")


def aligned(text: str) -> str:
    """The same text with the comments behind values, marked by a tab, in one column."""
    parted = (line.partition("\t") for line in text.split("\n"))
    return "\n".join(f"{value:<{COMMENT_COLUMN}} {comment}" if mark else value for value, mark, comment in parted)


def fishing_dates(answers: Answers) -> list[dt.date]:
    """Season days that are not rest days."""
    start, end = answers["season"]
    rest = REST_DAYS[: 7 - answers["days_a_week"]]
    names = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
    dates = [start + dt.timedelta(days=n) for n in range((end - start).days + 1)]
    return [date for date in dates if names[date.weekday()] not in rest]


def weather_fractions(answers: Answers, dates: list[dt.date]) -> float | dict[str, float]:
    """Share of the days that are too bad, in all or by month of the season."""
    lost = answers["weather"]
    if not isinstance(lost, dict):
        return round(float(lost) / len(dates), 3)
    there = days_by_month(dates)
    return {month: round(days / there[month], 3) for month, days in lost.items()}


def business(a: Answers) -> str:
    cash, overdraft = a["cash"]
    return f"""\
# A season of {a["boat"].replace(chr(10), " ")}, from {len(a)} answers. Every figure may be changed; what was not asked says so.
#   14.5                                         you know it
#   {{ low = 12.5, typical = 14.5, high = 17.0 }}  you do not: 1 time in 10 below low, 1 time in 10 above high
plan = 1

[business]
name = {text_in_quotes(a["boat"])}
money = {text_in_quotes(a["money"])}
opening_cash = {cash:.10g}\t# three months before the season, when its money year begins
overdraft_limit = {overdraft:.10g}
overdraft_rate_fraction = 0.12\t# not asked: interest a year on what is overdrawn"""


def season(a: Answers) -> str:
    start, end = a["season"]
    return f"[season]\nstart = {start}\nend = {end}\nrest_days = {toml_text(list(REST_DAYS[: 7 - a['days_a_week']]))}"


def weather_section(weather: Any) -> str:
    return f"""\
[weather]
unfishable_fraction = {toml_text(weather)}\t# share of days too bad, from the days you lost
persistence = 0.35\t# not asked: bad days come in spells
year_sd = 0.3\t# not asked: some years are stormier"""


def species(a: Answers, days_out: float) -> list[str]:
    hauls = min(a["pots"])  # no pot is hauled twice a day
    return [
        one_species(name, a["catch" + n], a["records"], days_out * hauls)
        for name, n in zip(a["species"], ("", "2"), strict=False)
    ]


def one_species(name: str, catch: tuple[float, float, float], records: int, hauls: float) -> str:
    worst, usual, best = catch
    sd, remark = year_sd(worst, best, records)
    return f"""\
[[species]]
name = {text_in_quotes(name)}
unit = "kg"
per_haul = {usual / hauls:.4g}\t# {usual:.10g} kg of a usual season over its {hauls:.0f} pot-hauls
year_sd = {sd:.10g}\t# from {worst:.10g} in the worst and {best:.10g} in the best year{"; " + remark if remark else ""}
day_sd = 0.25\t# not asked: good and bad days
day_persistence = 0.5\t# not asked"""


def together(a: Answers) -> str:
    alike = (
        "species_year_correlation = 0.3\t# not asked: good years of one are often good years of the other\n"
        if len(a["species"]) == 2
        else ""
    )
    return f"[together]\n{alike}price_catch_correlation = -0.3\t# not asked: when everyone lands plenty, the price gives way"


def selling(a: Answers) -> str:
    prices = {name: a["price" + n] for name, n in zip(a["species"], ("", "2"), strict=False)}
    spreads = [year_sd(worst, best, a["records"]) for worst, _, best in prices.values()]
    sd, remark = max(spreads)  # one price level for all that is sold there
    lines = "\n".join(f"{key_text(name)} = {usual:.10g}" for name, (_, usual, _) in prices.items())
    bill, litre = a["fuel"]
    return f"""\
[[outlet]]
name = "usual buyer"
paid_after_days = 14\t# not asked
year_sd = {sd:.10g}\t# from worst and best years of price{"; " + remark if remark else ""}
[outlet.price]\t# for one kg, in a usual year
{lines}

[prices]
fuel_per_l = {litre:.10g}
bait_per_haul = {a["bait"][0]:.10g}
fuel_year_sd = 0.1\t# not asked: how much prices differ from year to year
bait_year_sd = 0.1\t# not asked

[[boat]]
name = {text_in_quotes(a["boat"])}
skipper = "owner"
fuel_l_per_day_out = {bill / litre:.4g}\t# {bill:.10g} a day at {litre:.10g} a litre"""


def boat(a: Answers) -> str:
    count, hauls = a["pots"]
    return f"""\
[[boat.fishery]]
gear = "pots"
species = {toml_text(a["species"])}
count = {count:.10g}
hauls_per_day = {hauls:.10g}
elasticity = 0.75\t# not asked: more pots on the same ground catch less each"""


def crew(a: Answers) -> str:
    if a["crew"] is None:
        return ""
    pay, amount = a["crew"]
    key = "per_day" if pay == "day wage" else "share_fraction"
    return f'[[boat.crew]]\nname = "deckhand"\npay = {text_in_quotes(pay)}\n{key} = {amount:.10g}'


def breakdowns(a: Answers, days_out: float) -> str:
    """One kind; the rate is a guess as wide as so few events leave it (about 1.28 over the root of their number)."""
    count, days, usual, worst = a["breakdowns"]
    if count == 0:
        return "# No breakdowns in five seasons: none is simulated. One in the next is likelier than that; add a [[boat.breakdown]]."
    rate = 100.0 * count / (SEASONS_REMEMBERED * days_out)
    widen = math.exp(ONE_IN_TEN_Z / math.sqrt(count))
    return f"""\
[[boat.breakdown]]\t# {count:.10g} in five seasons; low, typical, high of repair and days are of single events
kind = "any"
per_100_days = {{ low = {rate / widen:.3g}, typical = {rate:.3g}, high = {rate * widen:.3g} }}
repair = {repair_size(count, usual, worst)}
days_lost = {{ low = 0, typical = {round(days / count):d}, high = {max(2, round(3.0 * days / count)):d} }}
claimable_odds = 0.0\t# not asked: insurers seldom pay for wear"""


def repair_size(count: float, usual: float, worst: float) -> str:
    """The worst of many bills is rarer than 1 in 10, and drawn in to that on the log scale; of few it is taken as it is."""
    if usual == 0.0 or worst <= usual:
        return f"{usual:.10g}"
    z = max(NormalDist().inv_cdf(count / (count + 1.0)), ONE_IN_TEN_Z)
    high = usual * (worst / usual) ** (ONE_IN_TEN_Z / z)
    return f"{{ low = {usual / 4.0:.3g}, typical = {usual:.10g}, high = {high:.4g} }}"


def gear(a: Answers) -> str:
    lost, cost = a["pots_lost"]
    count = a["pots"][0]
    return f"""\
[boat.gear_loss]
season_fraction = {lost / count:.3g}\t# {lost:.10g} of {count:.10g} pots in a usual season
pot_cost = {cost:.10g}
replace = "next season\""""


def insurance(a: Answers) -> str:
    premium, own_part = a["insurance"]
    if premium == 0.0:
        return ""
    return f"""\
[boat.insurance]
hull_value = 0\t# not asked
premium = {premium:.10g}
pay_month = {text_in_quotes(month_before(a))}
deductible = {own_part:.10g}"""


def month_before(a: Answers) -> str:
    """The month before the season, when most yearly bills are paid."""
    return MONTHS[(a["season"][0].month - 2) % 12]


def bills(a: Answers) -> str:
    return f"""\
[[standing]]\t# better one for each bill, with its month
name = "all bills of the year"
amount = {a["bills"][0]:.10g}
month = {text_in_quotes(month_before(a))}"""


def loan(a: Answers) -> str:
    owed, interest, years = a["loan"]
    if owed == 0.0:
        return ""
    return f"""\
[[loan]]
name = "loan"
balance = {owed:.10g}
rate_fraction = {interest / 100.0:.10g}\t# {interest:.10g} in 100 a year
years_left = {years:.10g}
pay = "monthly\""""


def household(a: Answers) -> str:
    return f"""\
[household]
draw_per_month = {a["draw"][0]:.10g}
tax_fraction = 0.0\t# not asked: ask whoever keeps your books"""
