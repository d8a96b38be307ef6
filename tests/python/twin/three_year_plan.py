# SPDX-License-Identifier: MIT
"""One boat, three winters over New Year, a catch by grades and one buyer. Boat, people and figures are invented."""

from __future__ import annotations

THREE_WINTERS = """
plan = 1

[business]
name = "Three winters"
money = "GBP"
years = 3
opening_cash = 4000
overdraft_limit = 5000
overdraft_rate_fraction = 0.1

[season]
start = 2026-10-05
end = 2027-02-28
rest_days = ["Sunday"]
days_off = [{ from = 2026-12-24, to = 2027-01-02, why = "Christmas" }]

[weather]
unfishable_fraction = { oct = 0.25, nov = 0.4, dec = 0.5, jan = 0.5, feb = 0.4 }
persistence = 0.5
year_sd = 0.4

[[species]]
name = "whelk"
unit = "kg"
per_haul = { low = 1.2, typical = 1.6, high = 2.1 }
month_shape = { oct = 0.9, jan = 1.1 }
usual_soak_nights = 2
soak_time_constant_nights = 1.5
year_sd = 0.2
year_carry = 0.6
last_year_fraction = 1.2
day_sd = 0.2
day_persistence = 0.5
boat_day_sd = 0.1

  [[species.grade]]
  name = "jumbo"
  fraction = 0.3
  year_sd = 0.2

  [[species.grade]]
  name = "common"
  fraction = 0.7
  year_sd = 0.1

[together]
price_catch_correlation = -0.3
weather_catch_correlation = -0.2

[[outlet]]
name = "factory"
year_sd = 0.1
year_carry = 0.3
week_sd = 0.05
week_persistence = 0.7
paid_after_days = 21
  [outlet.price]
  whelk = 1.3
  jumbo = { low = 1.4, typical = 1.6, high = 1.9 }

[prices]
fuel_per_l = 0.95
bait_per_haul = 0.25
fuel_year_sd = 0.1
fuel_year_carry = 0.5

[[boat]]
name = "Sallow"
skipper = "owner"
fuel_l_per_day_out = 50
fuel_l_per_100_hauls = 8

  [[boat.fishery]]
  gear = "pots"
  species = ["whelk"]
  count = 400
  hauls_per_day = 250
  setting_days = 2

  [[boat.crew]]
  name = "mate"
  pay = "share after bait and fuel"
  share_fraction = 0.3

  [[boat.breakdown]]
  kind = "any"
  per_100_days = 3
  repair = { low = 100, typical = 500, high = 2500 }
  days_lost = { low = 0, typical = 2, high = 7 }

  [boat.gear_loss]
  season_fraction = 0.1
  pots_per_string = 25
  pot_cost = 35
  replace = "next season"

[[standing]]
name = "bills of the year"
amount = 9000
month = "aug"

[[loan]]
name = "boat"
balance = 18000
rate_fraction = 0.07
years_left = 6

[household]
draw_per_month = 900
tax_fraction = 0.2
tax_months = ["jan"]
"""
