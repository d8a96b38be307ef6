// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/math/lanes.hpp"
#include "seasonrisk/plan/plan.hpp"

/// \file
/// Crew pay is settled for each Monday-Sunday week on that week's figures; a bad week pays nothing and
/// leaves nothing to carry.
namespace seasonrisk {

/// What the week brought.
struct WeekFigures {
    Lanes sales;
    Lanes fuel_and_bait;
    Lanes days_out;
};

/// The year's totals as they stood when the week began: a week is the difference.
struct CrewState {
    Lanes sales_before;
    Lanes hauls_before;
    Lanes days_out_before;
};

/// Pay of one hand for the week.
SEASONRISK_STEP void find_week_pay(const WeekFigures& week, PayKind kind, const Lanes& rate, Lanes& pay) {
    for (int i = 0; i < k_lanes; ++i) {
        const double left = week.sales[i] - week.fuel_and_bait[i];
        const double base = kind == PayKind::share_of_sales ? week.sales[i]
                          : kind == PayKind::day_wage       ? week.days_out[i]
                          : left > 0.0                      ? left : 0.0;
        pay[i] = rate[i] * base;
    }
}

}  // namespace seasonrisk
