# SPDX-License-Identifier: MIT
"""The plan of three boats: dates, weather, catch, selling and limits. All of it is invented."""

from __future__ import annotations

SHORE = """
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
"""
