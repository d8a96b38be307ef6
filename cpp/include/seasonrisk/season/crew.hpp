// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/math/lanes.hpp"
#include "seasonrisk/plan/plan.hpp"

/// \file
/// Crew pay is settled for each Monday-Sunday week on that week's figures; a bad week pays nothing and
/// leaves nothing to carry.
namespace seasonrisk {

/// The week so far, and what each hand has had this year.
struct CrewState {
    Lanes week_sales;
    Lanes week_fuel_and_bait;
    Lanes week_days_out;
    Lanes paid;               ///< all hands, this year
};

SEASONRISK_STEP void open_week(CrewState& crew) {
    crew.week_sales = Lanes(0.0);
    crew.week_fuel_and_bait = Lanes(0.0);
    crew.week_days_out = Lanes(0.0);
}

/// Pay of one hand for the week.
SEASONRISK_STEP void find_week_pay(const CrewState& crew, PayKind kind, const Lanes& rate, Lanes& pay) {
    for (int i = 0; i < k_lanes; ++i) {
        const double left = crew.week_sales[i] - crew.week_fuel_and_bait[i];
        const double base = kind == PayKind::share_of_sales ? crew.week_sales[i]
                          : kind == PayKind::day_wage       ? crew.week_days_out[i]
                          : left > 0.0                      ? left : 0.0;
        pay[i] = rate[i] * base;
    }
}

}  // namespace seasonrisk
