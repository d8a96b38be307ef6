# SPDX-License-Identifier: MIT
"""The plan of three boats: the boats, their gear and crews. Boats, people and figures are invented."""

from __future__ import annotations

FLEET = """
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
"""
