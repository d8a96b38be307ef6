# SPDX-License-Identifier: MIT
"""Three boats over five years that use every key of a plan. Boats, people and figures are invented."""

from __future__ import annotations

THREE_BOATS = """
plan = 1

[business]
name = "All of it, five years long"
money = "GBP"
books_start = 2027-02-01
years = 5
opening_cash = { low = 9000, typical = 16000, high = 22000 }
overdraft_limit = 12000
overdraft_rate_fraction = { low = 0.08, typical = 0.11, high = 0.16 }

[growth]
costs_per_year_fraction = { low = 0.01, typical = 0.03, high = 0.06 }
fuel_per_year_fraction = { low = -0.02, typical = 0.03, high = 0.08 }
bait_per_year_fraction = 0.04
wages_per_year_fraction = 0.025
prices_per_year_fraction = { low = -0.01, typical = 0.02, high = 0.04 }
catch_per_year_fraction = -0.01

[season]
start = 2027-05-03
end = 2027-11-21
stop_on = 2027-11-07
rest_days = ["Sunday"]
days_off = [
  { from = 2027-07-24, to = 2027-07-30, why = "regatta" },
  { from = 2027-10-02, to = 2027-10-02, why = "christening" },
]

[ending]
gear_in_days = { low = 2, typical = 3, high = 6 }
crew_notice_days = 5
crew_leaves_odds = { low = 0.2, typical = 0.3, high = 0.5 }
rehire_cost = { low = 400, typical = 700, high = 1500 }
yard_change_fee = 180
lay_up_refund_per_day = { low = 3, typical = 5, high = 9 }
shore_job_per_week = 350

[[family_date]]
name = "golden wedding"
date = 2027-11-10

[[family_date]]
name = "end of the gear"
date = 2027-11-14
gear_ashore = true

[[family_date]]
name = "school play"
date = 2027-07-08
gear_ashore = false

[weather]
persistence = { low = 0.3, typical = 0.45, high = 0.6 }
year_sd = { low = 0.2, typical = 0.4, high = 0.6 }
turned_back_fraction = { low = 0.05, typical = 0.1, high = 0.2 }
[weather.unfishable_fraction]
may = 0.1
jun = { low = 0.08, typical = 0.12, high = 0.2 }
aug = 0.15
sep = 0.28
oct = { low = 0.25, typical = 0.35, high = 0.45 }
nov = 0.5

[[species]]
name = "lobster"
unit = "kg"
per_haul = { low = 0.11, typical = 0.14, high = 0.17 }
month_shape = { may = 0.75, jun = 0.9, jul = 1.05, aug = { low = 1.1, typical = 1.2, high = 1.35 }, oct = 0.9, nov = 0.7 }
usual_soak_nights = 2
soak_time_constant_nights = { low = 0.9, typical = 1.5, high = 2.4 }
year_sd = { low = 0.12, typical = 0.18, high = 0.26 }
year_carry = 0.6
last_year_fraction = { low = 0.95, typical = 1.1, high = 1.3 }
day_sd = 0.25
day_persistence = { low = 0.3, typical = 0.5, high = 0.6 }
boat_day_sd = 0.1

  [[species.grade]]
  name = "large"
  fraction = 0.4
  year_sd = 0.15

  [[species.grade]]
  name = "small"
  fraction = 0.6
  year_sd = 0.1
  sold_by = "dozen"
  sold_units_per_unit = 0.15

[[species]]
name = "crab"
unit = "kg"
per_haul = 0.62
month_shape = { may = 0.8, jul = 1.0, sep = 1.25, nov = 0.9 }
usual_soak_nights = 1.5
soak_time_constant_nights = 0.8
year_sd = 0.2
year_carry = 0.6
last_year_fraction = 0.9
day_sd = { low = 0.2, typical = 0.3, high = 0.4 }
day_persistence = 0.4
boat_day_sd = 0.2

  [[species.grade]]
  name = "cocks"
  fraction = 0.55
  year_sd = { low = 0.05, typical = 0.1, high = 0.2 }

  [[species.grade]]
  name = "hens"
  fraction = 0.45

[together]
species_year_correlation = 0.35
price_catch_correlation = { low = -0.5, typical = -0.3, high = -0.1 }
weather_catch_correlation = -0.25

[[outlet]]
name = "merchant"
open_days = ["Monday", "Tuesday", "Thursday", "Friday", "Saturday"]
month_factor = { may = 1.1, jul = 0.95, aug = 0.9, nov = 1.2 }
year_sd = 0.12
year_carry = 0.4
week_sd = { low = 0.03, typical = 0.06, high = 0.1 }
week_persistence = { low = 0.5, typical = 0.7, high = 0.8 }
cost_per_unit = 0.04
paid_after_days = { low = 7, typical = 14, high = 30 }
own_landings_flexibility = { low = -0.3, typical = -0.15, high = -0.05 }
missed_settlement_odds_per_year = { low = 0.1, typical = 0.2, high = 0.4 }
  [outlet.price]
  lobster = { low = 19, typical = 23, high = 27 }
  small = 135
  hens = 2.9
  cocks = { low = 3.4, typical = 4.1, high = 5 }
  [outlet.daily_limit]
  large = 45
  small = { low = 5, typical = 7, high = 10 }
  cocks = 150
  hens = 130

[[outlet]]
name = "stall"
open_days = ["Saturday", "Sunday", "Wednesday"]
year_sd = 0.05
year_carry = 0.4
week_sd = 0.03
week_persistence = 0.3
demand_sd = { low = 8, typical = 11, high = 16 }
cost_per_open_day = { low = 20, typical = 30, high = 45 }
hours_per_open_day = 5
cost_per_unit = 0.2
  [outlet.price]
  large = 28
  crab = 6
  [outlet.demand_per_open_day]
  cocks = 14
  large = { low = 6, typical = 9, high = 14 }

[[outlet]]
name = "lorry"
open_days = ["Monday", "Wednesday", "Friday"]
year_sd = 0.1
year_carry = 0.4
week_sd = 0.02
week_persistence = 0.6
daily_limit = 420
demand_per_open_day = 380
paid_after_days = 28
own_landings_flexibility = -0.05
  [outlet.price]
  crab = 2.2
  large = 15

[[order]]
who = "inn"
grade = "small"
quantity = { low = 2, typical = 3, high = 4 }
days = ["Friday", "Tuesday"]
from = 2027-05-14
to = 2027-10-29
price = 150
buy_in_price = { low = 155, typical = 170, high = 200 }
leave_fraction = { low = 0.1, typical = 0.3, high = 0.5 }

[[order]]
who = "chapel supper"
grade = "cocks"
quantity = 40
days = ["Thursday"]
price = 5
refund_per_unit = 1.5
leave_fraction = 0.1

[[order]]
who = "market hall"
grade = "large"
quantity = 8
days = ["Saturday"]
from = 2027-06-01
price = { low = 25, typical = 27, high = 30 }

[[holding]]
grade = "large"
keep_for = "stall"
keep_fraction = { low = 0.2, typical = 0.3, high = 0.45 }
capacity = { low = 25, typical = 40, high = 60 }
longest_days = { low = 4, typical = 6, high = 9 }
loss_per_night_fraction = { may = 0.01, jul = 0.03, aug = { low = 0.03, typical = 0.05, high = 0.09 }, oct = 0.01 }
die_off_odds_per_day = { low = 0.002, typical = 0.004, high = 0.01 }
die_off_fraction = { low = 0.3, typical = 0.5, high = 0.8 }
forced_price_fraction = { low = 0.4, typical = 0.6, high = 0.7 }

[[holding]]
grade = "cocks"
capacity = 220
longest_days = 3
loss_per_night_fraction = 0.02
die_off_odds_per_day = 0.003
die_off_fraction = 0.7
forced_price_fraction = 0.5

[[limit]]
species = "crab"
per = "day"
amount = { low = 350, typical = 420, high = 520 }
over = "stop"

[[limit]]
species = "crab"
per = "week"
amount = 1100
from = 2027-07-15
to = 2027-10-31
over = "stop"

[[limit]]
species = "lobster"
per = "week"
amount = 300
from = 2027-08-01
over = "stop"

[[limit]]
species = "crab"
per = "month"
amount = { low = 3000, typical = 3800, high = 5000 }
over = "lease"
lease_price = { low = 0.1, typical = 0.2, high = 0.3 }

[[limit]]
species = "lobster"
per = "season"
amount = 5200
over = "lease"
lease_price = 1.5

[[limit]]
species = "crab"
per = "season"
amount = 26000
over = "stop"

[[limit]]
species = "lobster"
per = "month"
amount = 1150
to = 2027-07-31
over = "stop"

[[shock]]
name = "water test"
odds_per_year = { low = 0.1, typical = 0.25, high = 0.4 }
from = 2027-08-16
days = { low = 5, typical = 10, high = 20 }

[[shock]]
name = "late opening"
odds_per_year = 0.15
from = 2027-05-03
days = 8

[prices]
fuel_per_l = { low = 0.8, typical = 0.95, high = 1.3 }
bait_per_haul = { low = 0.22, typical = 0.3, high = 0.42 }
fuel_year_sd = 0.15
fuel_year_carry = 0.5
bait_year_sd = 0.1
bait_year_carry = { low = 0.2, typical = 0.4, high = 0.6 }
levy_fraction = { low = 0.005, typical = 0.01, high = 0.02 }

[[input]]
name = "rope and buoys"
quantity_per_pot = 0.4
unit_cost = { low = 2, typical = 2.5, high = 4 }
pay_month = "mar"

[[input]]
name = "salt bait"
quantity = 600
unit_cost = 0.8
pay_month = "apr"
used_per_haul = { low = 0.008, typical = 0.011, high = 0.016 }
spoil_fraction = { low = 0.05, typical = 0.1, high = 0.25 }

[[boat]]
name = "Alder"
skipper = "owner"
fuel_l_per_day_out = 55
fuel_l_per_100_hauls = 11
catching_power = 1.05
weather_odds_multiplier = 1.2
ground_share = 0.97
hours_per_day = 9
owner_days_per_month = 0.5
owner_days_per_breakdown = 1
stay_in_below = { low = 150, typical = 300, high = 400 }
day_costs = [{ name = "ice", amount = 9 }, { name = "food", amount = { low = 8, typical = 12, high = 20 } }]

  [[boat.fishery]]
  gear = "pots"
  species = ["lobster", "crab"]
  count = { low = 300, typical = 340, high = 380 }
  spare = 12
  hauls_per_day = 180
  elasticity = 0.75
  to = 2027-07-10
  setting_days = 2

  [[boat.fishery]]
  gear = "trotline"
  species = ["crab"]
  count = 400
  hauls_per_day = { low = 280, typical = 330, high = 400 }
  elasticity = { low = 0.6, typical = 0.8, high = 0.9 }
  from = 2027-07-15
  to = 2027-08-28
  switch_cost = 220

  [[boat.fishery]]
  gear = "pots"
  species = ["lobster", "crab"]
  count = 320
  spare = { low = 5, typical = 9, high = 15 }
  hauls_per_day = 175
  elasticity = 0.8
  from = 2027-09-01
  setting_days = { low = 1, typical = 2, high = 4 }
  switch_cost = { low = 150, typical = 260, high = 400 }

  [[boat.crew]]
  name = "mate"
  pay = "share of sales"
  share_fraction = 0.12
  no_show_fraction = 0.02
  alone_hauls_fraction = 0.6

  [[boat.crew]]
  name = "lad"
  pay = "day wage"
  per_day = { low = 60, typical = 70, high = 90 }
  no_show_fraction = { low = 0.03, typical = 0.06, high = 0.12 }
  alone_hauls_fraction = { low = 0.7, typical = 0.8, high = 0.9 }

  [[boat.breakdown]]
  kind = "minor"
  per_100_days = { low = 2, typical = 4, high = 7 }
  repair = { low = 80, typical = 350, high = 1200 }
  days_lost = { low = 0, typical = 1, high = 3 }

  [[boat.breakdown]]
  kind = "engine"
  per_100_days = { low = 0.3, typical = 0.6, high = 1 }
  repair = { low = 3000, typical = 6000, high = 15000 }
  days_lost = { low = 5, typical = 12, high = 30 }
  claimable_odds = { low = 0.2, typical = 0.4, high = 0.6 }
  wear_shape = { low = 1.5, typical = 2, high = 2.5 }
  hours = { low = 3500, typical = 4200, high = 5000 }
  wear_reference_hours = { low = 5000, typical = 6000, high = 7000 }
  resets_hours = true

  [[boat.spare]]
  for = "engine"
  cost = { low = 700, typical = 950, high = 1300 }
  days_saved = { low = 1, typical = 3, high = 5 }

  [[boat.spare]]
  for = "minor"
  cost = 120
  days_saved = 1

  [boat.gear_loss]
  season_fraction = { low = 0.05, typical = 0.1, high = 0.18 }
  pots_per_string = 20
  pot_cost = 70
  prepare_hours_per_pot = 0.3
  replace = "next season"
  storm_odds_per_season = { low = 0.15, typical = 0.25, high = 0.4 }
  storm_loss_fraction = { low = 0.08, typical = 0.18, high = 0.4 }

  [boat.insurance]
  hull_value = 110000
  premium = { low = 2500, typical = 2900, high = 3600 }
  pay_month = "may"
  deductible = { low = 1000, typical = 1500, high = 2500 }
  storm_deductible_fraction = { low = 0.004, typical = 0.008, high = 0.015 }
  gear_covered = true
  total_loss_odds_per_year = 0.05
  claim_paid_after_days = { low = 20, typical = 60, high = 120 }

  [[boat.standing]]
  name = "tags"
  amount_per_pot = 3.2
  month = "mar"

  [[boat.standing]]
  name = "mooring"
  amount = { low = 120, typical = 150, high = 200 }
  every_month = true

[[boat]]
name = "Birch"
skipper = "hired"
fuel_l_per_day_out = { low = 45, typical = 50, high = 60 }
fuel_l_per_100_hauls = { low = 8, typical = 10, high = 14 }
catching_power = { low = 0.85, typical = 0.93, high = 1 }
weather_odds_multiplier = { low = 1.3, typical = 1.5, high = 1.9 }
ground_share = { low = 0.9, typical = 0.95, high = 0.98 }
hours_per_day = 8
skipper_gap_odds_per_year = { low = 0.2, typical = 0.3, high = 0.5 }
skipper_gap_weeks = { low = 1, typical = 3, high = 7 }
owner_days_per_month = { low = 0.5, typical = 1, high = 2 }
owner_days_per_breakdown = { low = 1, typical = 2, high = 4 }
stay_in_below = 80
day_costs = [{ name = "ice, gloves, food", amount = 12 }]

  [[boat.fishery]]
  gear = "pots"
  species = ["lobster", "crab"]
  count = 300
  spare = 10
  hauls_per_day = 160
  elasticity = 0.75
  setting_days = 3

  [[boat.crew]]
  name = "skipper"
  pay = "share after bait and fuel"
  share_fraction = { low = 0.2, typical = 0.25, high = 0.3 }

  [[boat.crew]]
  name = "hand"
  pay = "day wage"
  per_day = 80
  no_show_fraction = 0.05
  alone_hauls_fraction = 0

  [[boat.breakdown]]
  kind = "minor"
  per_100_days = 3
  repair = { low = 80, typical = 300, high = 1000 }
  days_lost = { low = 0, typical = 1, high = 3 }

  [[boat.breakdown]]
  kind = "major"
  per_100_days = 0.6
  repair = { low = 2000, typical = 4500, high = 12000 }
  days_lost = { low = 4, typical = 9, high = 21 }
  claimable_odds = 0.4
  wear_shape = 1.6
  hours = 0
  wear_reference_hours = 2500

  [boat.gear_loss]
  season_fraction = 0.09
  pots_per_string = { low = 10, typical = 15, high = 25 }
  pot_cost = { low = 60, typical = 75, high = 95 }
  prepare_hours_per_pot = { low = 0.2, typical = 0.25, high = 0.4 }
  replace = "at once"
  storm_odds_per_season = 0.3
  storm_loss_fraction = 0.2

  [boat.insurance]
  hull_value = { low = 60000, typical = 70000, high = 80000 }
  premium = 2100
  pay_month = "jun"
  deductible = 1000
  gear_covered = true
  total_loss_odds_per_year = { low = 0.005, typical = 0.01, high = 0.03 }
  claim_paid_after_days = 45

  [[boat.standing]]
  name = "haul-out"
  amount = 1700
  month = "apr"

[[boat]]
name = "Cedar"
skipper = "hired"
fish_from = 2028-06-14
fuel_l_per_day_out = 60
fuel_l_per_100_hauls = 12
catching_power = 0.9
weather_odds_multiplier = 0.9
ground_share = 0.98
hours_per_day = 10
skipper_gap_odds_per_year = 0.2
skipper_gap_weeks = 2
owner_days_per_month = 0.5
owner_days_per_breakdown = 1
stay_in_below = -50
day_costs = [{ name = "ice", amount = 15 }]

  [[boat.fishery]]
  gear = "pots"
  species = ["lobster"]
  count = 260
  hauls_per_day = 260
  elasticity = 0.9
  to = 2027-10-30

  [[boat.crew]]
  name = "skipper"
  pay = "share of sales"
  share_fraction = 0.3
  no_show_fraction = 0.01
  alone_hauls_fraction = 0.3

  [[boat.breakdown]]
  kind = "minor"
  per_100_days = 5
  repair = 400
  days_lost = 2
  claimable_odds = 0.1

  [boat.gear_loss]
  season_fraction = 0.12
  pot_cost = 65
  replace = "next season"
  storm_odds_per_season = 0.2
  storm_loss_fraction = { low = 0.1, typical = 0.2, high = 0.5 }

  [boat.insurance]
  hull_value = 50000
  premium = 1400
  pay_month = "jul"
  deductible = 250
  total_loss_odds_per_year = 0.02

  [[boat.standing]]
  name = "berth"
  amount = 90
  every_month = true

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
