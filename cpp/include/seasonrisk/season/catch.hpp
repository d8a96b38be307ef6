// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"

/// \file
/// What comes up in the pots of one species.
namespace seasonrisk {

struct CatchState {
    Lanes ground;             ///< standard AR(1), shared by boats on the ground
    Lanes ground_kick;        ///< sqrt(1 - persistence^2)
    Lanes mean_one;           ///< -(day_sd^2 + boat_day_sd^2) / 2, so that every day's mean is one
    Lanes year_factor;
    Lanes per_haul_now;       ///< this month's catch a haul, everything but soak and the day's luck
    Lanes caught_today;
    Lanes caught;             ///< this year
};

SEASONRISK_STEP void start_ground(CatchState& state, const double* normals) {
    for (int i = 0; i < k_lanes; ++i) state.ground[i] = normals[i];
}

SEASONRISK_STEP void step_ground(CatchState& state, const Lanes& persistence, const double* normals) {
    for (int i = 0; i < k_lanes; ++i) state.ground[i] = persistence[i] * state.ground[i] + state.ground_kick[i] * normals[i];
}

/// The day's luck of the ground and of the boat, one exponential for both.
SEASONRISK_STEP void catch_with_luck(CatchState& state, const Lanes& hauls, const Lanes& soak, const Lanes& day_sd,
                                     const Lanes& boat_day_sd, const double* boat_normals) {
    for (int i = 0; i < k_lanes; ++i) {
        double luck = state.mean_one[i] + day_sd[i] * state.ground[i];
        if (boat_normals != nullptr) luck += boat_day_sd[i] * boat_normals[i];
        state.caught_today[i] = hauls[i] * state.per_haul_now[i] * soak[i] * exp(luck);
    }
}

SEASONRISK_STEP void catch_without_luck(CatchState& state, const Lanes& hauls, const Lanes& soak) {
    for (int i = 0; i < k_lanes; ++i) state.caught_today[i] = hauls[i] * state.per_haul_now[i] * soak[i];
}

}  // namespace seasonrisk
