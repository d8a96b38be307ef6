// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/plan/read_plan.hpp"

/// \file
/// An invented business that uses all a plan can hold, with small round figures. The season begins on
/// 2 June, the first of a group of four days from 1 January.
namespace seasonrisk::tests {

inline constexpr const char* k_invented_plan = R"(
plan = 1
[business]
name = "Invented"
money = "GBP"
opening_cash = 2000
overdraft_limit = 9000
overdraft_rate_fraction = 0.12
[season]
start = 2027-06-02
end = 2027-11-20
rest_days = ["Sunday"]
days_off = [{ from = 2027-08-14, to = 2027-08-16, why = "invented" }]
[weather]
unfishable_fraction = { jun = 0.12, aug = 0.2, oct = 0.35, nov = 0.5 }
persistence = 0.4
year_sd = 0.3
[[species]]
name = "lobster"
unit = "kg"
per_haul = { low = 0.11, typical = 0.13, high = 0.16 }
month_shape = { jun = 0.8, jul = 1.0, aug = 1.2, sep = 1.1, oct = 0.9, nov = 0.7 }
usual_soak_nights = 2
soak_time_constant_nights = 1.5
year_sd = 0.18
day_sd = 0.25
day_persistence = 0.5
boat_day_sd = 0.1
[[species]]
name = "crab"
unit = "kg"
per_haul = 0.6
year_sd = 0.2
day_sd = 0.3
day_persistence = 0.4
[together]
species_year_correlation = 0.3
price_catch_correlation = -0.3
weather_catch_correlation = -0.1
[[outlet]]
name = "invented dealer"
price = { lobster = 14.0, crab = 2.6 }
year_sd = 0.12
week_sd = 0.05
week_persistence = 0.7
cost_per_unit = 0.05
paid_after_days = 14
[prices]
fuel_per_l = 0.95
bait_per_haul = 0.3
fuel_year_sd = 0.1
bait_year_sd = 0.1
levy_fraction = 0.01
[[input]]
name = "rope"
quantity_per_pot = 1
unit_cost = 2.5
pay_month = "apr"
[[boat]]
name = "Invented"
skipper = "owner"
fuel_l_per_day_out = 60
fuel_l_per_100_hauls = 11
day_costs = [{ name = "food", amount = 12 }]
[[boat.fishery]]
gear = "pots"
species = ["lobster", "crab"]
count = 420
hauls_per_day = 220
setting_days = 3
elasticity = 0.75
[[boat.crew]]
name = "first hand"
pay = "share after bait and fuel"
share_fraction = 0.2
[[boat.crew]]
name = "second hand"
pay = "day wage"
per_day = 60
[[boat.breakdown]]
kind = "small"
per_100_days = { low = 1.0, typical = 2.0, high = 4.0 }
repair = { low = 80, typical = 350, high = 1200 }
days_lost = { low = 1, typical = 2, high = 5 }
[[boat.breakdown]]
kind = "big"
per_100_days = 0.4
repair = { low = 2000, typical = 5000, high = 15000 }
days_lost = { low = 5, typical = 12, high = 40 }
claimable_odds = 0.5
[boat.gear_loss]
season_fraction = 0.1
pots_per_string = 20
pot_cost = 75
replace = "next season"
[boat.insurance]
hull_value = 90000
premium = 2000
pay_month = "may"
deductible = 1500
total_loss_odds_per_year = 0.01
claim_paid_after_days = 60
[[boat.standing]]
name = "mooring"
amount = 150
every_month = true
[[standing]]
name = "licence"
amount = 1900
month = "mar"
[[loan]]
name = "boat"
balance = 40000
rate_fraction = 0.085
years_left = 8
pay = "monthly"
[household]
draw_per_month = 1100
other_income_per_month = { jan = 400 }
tax_fraction = 0.2
wear_allowance = 4000
tax_months = ["jan"]
)";

/// The text with one passage replaced; fails the test when the passage is not there.
inline std::string with(const std::string& text, const std::string& passage, const std::string& instead) {
    const auto at = text.find(passage);
    INFO("passage: " << passage);
    REQUIRE(at != std::string::npos);
    return text.substr(0, at) + instead + text.substr(at + passage.size());
}

inline Plan plan_of(const std::string& text) {
    PlanReading reading = read_plan(text, "invented.toml");
    std::string findings;
    for (const Finding& finding : reading.findings) findings += to_text(finding) + "\n";
    INFO(findings);
    REQUIRE(reading.ok());
    return std::move(reading.plan);
}

inline Plan invented_plan() { return plan_of(k_invented_plan); }

}  // namespace seasonrisk::tests
