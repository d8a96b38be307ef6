// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"

/// \file
/// What the outlet pays.
namespace seasonrisk {

struct MarketState {
    Lanes week;               ///< standard AR(1), one step each Monday
    Lanes week_kick;          ///< sqrt(1 - persistence^2)
    Lanes week_factor{1.0};
};

SEASONRISK_STEP void start_week_price(MarketState& market, const Lanes& normals) { market.week = normals; }

SEASONRISK_STEP void step_week_price(MarketState& market, const Lanes& persistence, const Lanes& normals) {
    for (int i = 0; i < k_lanes; ++i) market.week[i] = persistence[i] * market.week[i] + market.week_kick[i] * normals[i];
}

SEASONRISK_STEP void find_week_factor(MarketState& market, const Lanes& week_sd) {
    for (int i = 0; i < k_lanes; ++i) market.week_factor[i] = exp(week_sd[i] * market.week[i] - 0.5 * week_sd[i] * week_sd[i]);
}

}  // namespace seasonrisk
