// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"
#include "seasonrisk/plan/number.hpp"

/// \file
/// What an outlet pays, and how much it asks for.
namespace seasonrisk {

struct MarketState {
    Lanes week;               ///< standard AR(1), one step each Monday
    Lanes week_kick;          ///< sqrt(1 - persistence^2)
    Lanes week_factor{1.0};
    std::vector<Lanes> ahead{};  ///< normals of the Mondays within the season, after its first week: cheaper drawn together
};

/// An outlet in this batch.
struct OutletWork {
    MarketState market{};
    std::vector<const Lanes*> base_price{};   ///< per good, in `Workspace::plan`; null: not taken
    std::vector<Lanes> year_factor{};         ///< per species, of the money year
    std::vector<Lanes> season_factor{};       ///< per species: year and growth of the last season begun; its stock is sold by it
    std::vector<Lanes> price_now{};           ///< per good: money a sold unit this month and week
    std::vector<Lanes> price_of_catch{};      ///< per species: money a unit of catch, where all is sold here at once
    std::vector<Lanes> price_today{};         ///< per good: with own landings looked at
    std::vector<Lanes> sold{};                ///< per good, sold units this year
    std::vector<const Lanes*> limit_of{};     ///< per good: its own daily limit; null: none
    std::vector<const Lanes*> demand_of{};    ///< per good: its own mean demand; null: none
    std::vector<std::uint32_t> demand_block{};  ///< per good
    Lanes unpaid_week;                        ///< 1: this week's sales are never paid
    Lanes open_days;                          ///< open days of the season, this year
};

/// What a regular has ordered in this batch.
struct OrderWork {
    std::size_t good = 0;
    Lanes state;              ///< what is left of the order, 1 = all of it
    Lanes ordered, delivered, short_of, last_ordered;   ///< sold units, this year; the last order
    Date week{};              ///< Monday of the week it was last due in
    Lanes weeks_due, weeks_kept;                        ///< Monday weeks with a day it was due; those with nothing short
    Lanes kept_this_week;                               ///< 1: nothing short so far in `week`
};

SEASONRISK_STEP void start_week_price(MarketState& market, const double* normals) {
    SEASONRISK_EACH_LANE market.week[i] = normals[i];
}

SEASONRISK_STEP void step_week_price(MarketState& market, const Lanes& persistence, const double* normals) {
    SEASONRISK_EACH_LANE market.week[i] = persistence[i] * market.week[i] + market.week_kick[i] * normals[i];
}

SEASONRISK_STEP void find_week_factor(MarketState& market, const Lanes& week_sd) {
    SEASONRISK_EACH_LANE market.week_factor[i] = exp(week_sd[i] * market.week[i] - 0.5 * week_sd[i] * week_sd[i]);
}

/// The count that a uniform stands for: Poisson with this mean or, where the variance is above the mean, negative
/// binomial with it. By inversion, the smallest k with P(X <= k) > u: a larger mean or u never gives a smaller
/// count, so that choices meet the same luck; the usual rejection methods would scramble it.
double demand_count(double mean, double sd, double uniform);

}  // namespace seasonrisk
