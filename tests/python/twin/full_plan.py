# SPDX-License-Identifier: MIT
"""A one-boat plan that uses everything at once. Boat, people and figures are invented."""

from __future__ import annotations

FULL = """
plan = 1

[business]
name = "Everything at once"
money = "GBP"
books_start = 2026-12-01
opening_cash = { low = -3000, typical = 1500, high = 5000 }
overdraft_limit = 4000
overdraft_rate_fraction = { low = 0.08, typical = 0.11, high = 0.16 }

[season]
start = 2027-05-12
end = 2027-11-30
rest_days = ["Sunday", "Wednesday"]
days_off = [
  { from = 2027-07-03, to = 2027-07-09, why = "wedding" },
  { from = 2027-10-30, to = 2027-11-01, why = "half-term" },
]

[weather]
persistence = { low = 0.3, typical = 0.45, high = 0.6 }
year_sd = 0.4
[weather.unfishable_fraction]
apr = 0.0
may = 0.05
jun = 0.15
aug = { low = 0.12, typical = 0.2, high = 0.33 }
sep = 0.7
oct = 0.25
nov = 0.6

[[species]]
name = "lobster"
unit = "kg"
per_haul = { low = 0.10, typical = 0.13, high = 0.18 }
month_shape = { may = 0.7, jun = 0.9, jul = 1.1, aug = { low = 1.1, typical = 1.25, high = 1.3 }, nov = 0.6 }
usual_soak_nights = 2
soak_time_constant_nights = { low = 0.8, typical = 1.5, high = 2.5 }
year_sd = 0.18
year_carry = 0.6
day_sd = 0.25
day_persistence = { low = 0.2, typical = 0.5, high = 0.6 }
boat_day_sd = 0.10

[[species]]
name = "crab"
unit = "kg"
per_haul = 0.6
usual_soak_nights = 1.5
soak_time_constant_nights = 0.7
year_sd = { low = 0.1, typical = 0.2, high = 0.3 }
year_carry = 0.6
day_sd = 0.3
day_persistence = 0.3
boat_day_sd = 0.2

[together]
species_year_correlation = 0.35
price_catch_correlation = { low = -0.6, typical = -0.3, high = 0.1 }
weather_catch_correlation = -0.25

[[outlet]]
name = "quay"
month_factor = { may = 1.1, jul = 0.95, aug = 0.9, nov = 1.15 }
year_sd = 0.12
week_sd = 0.08
week_persistence = 0.7
cost_per_unit = 0.06
paid_after_days = { low = 5, typical = 14, high = 40 }
[outlet.price]
lobster = { low = 11, typical = 14.5, high = 19 }
crab = 2.7

[prices]
fuel_per_l = 0.95
bait_per_haul = { low = 0.22, typical = 0.30, high = 0.45 }
fuel_year_sd = 0.15
bait_year_sd = 0.1
levy_fraction = 0.012

[[input]]
name = "rope"
quantity_per_pot = 0.5
unit_cost = { low = 2, typical = 2.5, high = 4 }
pay_month = "mar"

[[input]]
name = "paint"
quantity = 12
unit_cost = 38
pay_month = "apr"

[[boat]]
name = "All Hands"
skipper = "owner"
fuel_l_per_day_out = 60
fuel_l_per_100_hauls = 11
catching_power = 1.05
weather_odds_multiplier = 1.3
day_costs = [{ name = "ice", amount = 9 }, { name = "food", amount = { low = 8, typical = 12, high = 20 } }]

  [[boat.fishery]]
  gear = "pots"
  species = ["lobster", "crab"]
  count = 430
  hauls_per_day = 190
  elasticity = 0.7
  setting_days = 3

  [[boat.crew]]
  name = "mate"
  pay = "share of sales"
  share_fraction = 0.1

  [[boat.crew]]
  name = "deckhand"
  pay = "share after bait and fuel"
  share_fraction = { low = 0.12, typical = 0.15, high = 0.2 }

  [[boat.crew]]
  name = "lad"
  pay = "day wage"
  per_day = 60

  [[boat.breakdown]]
  kind = "minor"
  per_100_days = { low = 2, typical = 4, high = 9 }
  repair = { low = 80, typical = 350, high = 1200 }
  days_lost = { low = 0, typical = 1, high = 3 }

  [[boat.breakdown]]
  kind = "medium"
  per_100_days = 1.2
  repair = { low = 600, typical = 2000, high = 5000 }
  days_lost = 4
  claimable_odds = 0.3

  [[boat.breakdown]]
  kind = "major"
  per_100_days = 0.4
  repair = { low = 5000, typical = 9000, high = 30000 }
  days_lost = { low = 10, typical = 20, high = 60 }
  claimable_odds = { low = 0.2, typical = 0.5, high = 0.7 }

  [boat.gear_loss]
  season_fraction = { low = 0.05, typical = 0.1, high = 0.2 }
  pots_per_string = 20
  pot_cost = 75
  replace = "next season"

  [boat.insurance]
  hull_value = 120000
  premium = 2900
  pay_month = "may"
  deductible = 1500
  total_loss_odds_per_year = 0.1
  claim_paid_after_days = { low = 20, typical = 60, high = 120 }

  [[boat.standing]]
  name = "tags"
  amount_per_pot = 3.2
  month = "mar"

  [[boat.standing]]
  name = "mooring"
  amount = { low = 120, typical = 150, high = 200 }
  every_month = true

[[standing]]
name = "licence"
amount = 1900
month = "jan"

[[standing]]
name = "mending by the pot"
amount_per_pot = { low = 0.1, typical = 0.2, high = 0.5 }
every_month = true

[[loan]]
name = "boat"
balance = 60000
rate_fraction = 0.085
years_left = { low = 6, typical = 10, high = 15 }
pay = "monthly"

[[loan]]
name = "hauler"
balance = 8000
rate_fraction = { low = 0.05, typical = 0.07, high = 0.1 }
years_left = 4
months = ["jun", "dec"]

[household]
tax_fraction = 0.2
wear_allowance = { low = 3000, typical = 6000, high = 8000 }
tax_months = ["jan"]
draw_per_month = { low = 900, typical = 1300, high = 1900 }
other_income_per_month = { feb = 300, mar = 250, dec = 400 }

[[choice]]
name = "More pots"
why = "crowding is held against the pots before the choice"
set = { "boat.0.fishery.0.count" = 560 }
"""


def replaced(old: str, new: str) -> str:
    """FULL with one place changed."""
    assert FULL.count(old) == 1, old
    return FULL.replace(old, new)


# Pots replaced at once, one by one where they go, set at once; one draw a month for the weather.
AT_ONCE = (
    replaced('replace = "next season"', 'replace = "at once"')
    .replace("  setting_days = 3\n", "")
    .replace("  pots_per_string = 20\n", "")
    .replace("year_sd = 0.4\n", "year_sd = 0.0\n")
)

# The season runs over New Year of a leap year, the books begin three months before it by themselves.
OVER_NEW_YEAR = (
    replaced("books_start = 2026-12-01\n", "")
    .replace("start = 2027-05-12", "start = 2027-10-20")
    .replace("end = 2027-11-30", "end = 2028-03-14")
    .replace("2027-07-03", "2027-12-24")
    .replace("2027-07-09", "2028-01-02")
    .replace("2027-10-30", "2028-02-27")
    .replace("2027-11-01", "2028-02-29")
)

# One species: its year level has nothing to share but the weather.
ONE_SPECIES = (
    (FULL[: FULL.index('[[species]]\nname = "crab"')] + FULL[FULL.index("[together]") :])
    .replace('species = ["lobster", "crab"]', 'species = ["lobster"]')
    .replace("crab = 2.7\n", "")
    .replace("species_year_correlation = 0.35\n", "")
)

# What is supposed for certain, and a loan of which some is repaid early.
SUPPOSED = (
    replaced('months = ["jun", "dec"]\n', 'months = ["jun", "dec"]\nrepay = [{ date = 2027-04-02, amount = 1700 }]\n')
    + """
[[suppose]]
what = "breakdown"
from = 2027-06-28
days = 11
cost = { low = 900, typical = 1800, high = 4000 }

[[suppose]]
what = "closure"
from = 2027-08-30
days = 21

[[suppose]]
what = "no skipper"
from = 2027-11-08

[[suppose]]
what = "bad catch"
"""
)
