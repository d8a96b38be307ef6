# SPDX-License-Identifier: MIT
"""Three boats over five years that use every key of a plan. Boats, people and figures are invented."""

from __future__ import annotations

from twin.three_boat_fleet import FLEET
from twin.three_boat_shore import SHORE

MONEY = """
[[standing]]
name = "licence"
amount = { low = 1500, typical = 1900, high = 2300 }
month = "jan"

[[standing]]
name = "gear store"
amount_per_pot = 1.1
month = "dec"

[[loan]]
name = "Alder"
balance = { low = 38000, typical = 42000, high = 46000 }
rate_fraction = { low = 0.05, typical = 0.07, high = 0.09 }
years_left = 7
interest_only_months = 8
secured_on = "Alder"

[[loan]]
name = "Cedar"
balance = 24000
rate_fraction = 0.08
years_left = { low = 3, typical = 4, high = 6 }
months = ["sep", "oct", "nov"]
interest_only_months = 12
secured_on = "Cedar"

[[loan]]
name = "winter"
balance = 3000
rate_fraction = 0
years_left = 2
pay = "monthly"

[[asset]]
name = "Alder"
cost = 90000
bought = 2019-04-01
life_years = 25
resale = 15000
survey_value = 75000
forced_sale_fraction = 0.6

[[asset]]
name = "Cedar's hauler"
cost = { low = 5000, typical = 6500, high = 9000 }
bought = 2028-03-20
life_years = { low = 6, typical = 8, high = 12 }
resale = { low = 300, typical = 600, high = 1200 }
survey_value = 5000
forced_sale_fraction = 0.4

[[asset]]
name = "van, later"
cost = 7000
bought = 2033-05-01
life_years = 8
resale = 500

[household]
draw_per_month = { low = 900, typical = 1200, high = 1600 }
other_income_per_month = { jan = 500, feb = { low = 200, typical = 300, high = 500 }, mar = 250, dec = 400 }
tax_fraction = { low = 0.15, typical = 0.2, high = 0.25 }
wear_allowance = { low = 3000, typical = 6000, high = 8000 }
tax_months = ["jan", "jul"]
hours = { feb = 20, mar = { low = 30, typical = 45, high = 60 }, apr = 40, dec = 10 }

[skipper]
laid_up_odds_per_season = { low = 0.1, typical = 0.2, high = 0.4 }
weeks_lost = { low = 1, typical = 2, high = 6 }

[[choice]]
name = "More pots, softer price"
why = "crowding, losses and the usual landing are those of the plan before the choice"
set = { "boat.0.fishery.0.count" = 420, "boat.1.fishery.0.count" = 380, "boat.1.weather_odds_multiplier" = 1.2 }

[[choice]]
name = "Home in October"
why = "the gear comes in three weeks earlier"
set = { "season.stop_on" = 2027-10-17 }
"""

THREE_BOATS = SHORE + FLEET + MONEY


def replaced(old: str, new: str) -> str:
    """THREE_BOATS with one place changed."""
    assert THREE_BOATS.count(old) == 1, old
    return THREE_BOATS.replace(old, new)


# The books close nine days after the season: gear is still out and stock is still held when a year ends.
BOOKS_CLOSE_EARLY = (
    replaced("books_start = 2027-02-01", "books_start = 2026-12-01")
    .replace("stop_on = 2027-11-07", "stop_on = 2027-11-20")
    .replace(
        "longest_days = { low = 4, typical = 6, high = 9 }", "longest_days = { low = 10, typical = 14, high = 25 }"
    )
    .replace("capacity = { low = 25, typical = 40, high = 60 }", "capacity = 160")
    .replace('open_days = ["Saturday", "Sunday", "Wednesday"]', 'open_days = ["Saturday"]')
)


def without(text: str, *lines: str) -> str:
    """A plan without the lines that begin so."""
    return "\n".join(line for line in text.split("\n") if not line.strip().startswith(lines))


# The same with one reading only of each day: no early stop, no storm on pots that are replaced at once, no day that
# is not worth it, no limit behind another one on the same species.
PLAIN_DAYS = without(
    (
        THREE_BOATS[: THREE_BOATS.index('[[limit]]\nspecies = "crab"\nper = "season"')]
        + THREE_BOATS[THREE_BOATS.index("[[shock]]") : THREE_BOATS.index("[[choice]]")]
    )
    .replace("count = { low = 300, typical = 340, high = 380 }", "count = 340")
    .replace("  storm_odds_per_season = 0.3\n", ""),
    *("stop_on", "stay_in_below", "spare =", "owner_days_per_month"),
)
