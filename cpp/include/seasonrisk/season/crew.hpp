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

/// The year's totals of a boat as they stood when the week began: a week is the difference.
struct WeekBefore {
    Lanes sales;
    Lanes hauls;
    Lanes hauls_without_bait;
    Lanes days_out;
    Lanes days_weather;
};

/// A hand in this batch.
struct HandWork {
    Lanes pay;                   ///< this year
    Lanes absent_today;          ///< 1: did not turn up
    Lanes days_missed;           ///< days out without this hand, this year
    Lanes days_missed_before;    ///< the same when the week began
    Lanes rate;                  ///< share, or wage of a day out in this year
};

/// Pay of one hand for the week.
SEASONRISK_STEP void find_week_pay(const WeekFigures& week, PayKind kind, const Lanes& rate, Lanes& pay) {
    SEASONRISK_EACH_LANE {
        const double left = week.sales[i] - week.fuel_and_bait[i];
        const double base = kind == PayKind::share_of_sales ? week.sales[i]
                          : kind == PayKind::day_wage       ? week.days_out[i]
                          : left > 0.0                      ? left : 0.0;
        pay[i] = rate[i] * base;
    }
}

}  // namespace seasonrisk
