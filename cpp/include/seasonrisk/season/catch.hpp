// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"
#include "seasonrisk/season/gear.hpp"

/// \file
/// What comes up in the pots of one species.
namespace seasonrisk {

struct GroundState {
    Lanes ground;             ///< standard AR(1), shared by boats on the ground; 0 without a ground-day effect
    Lanes ground_kick;        ///< sqrt(1 - persistence^2)
    Lanes mean_one;           ///< -(day_sd^2 + boat_day_sd^2) / 2, so that every day's mean is one
};

SEASONRISK_STEP void start_ground(GroundState& state, const double* normals) {
    SEASONRISK_EACH_LANE state.ground[i] = normals[i];
}

SEASONRISK_STEP void step_ground(GroundState& state, const Lanes& persistence, const double* normals) {
    SEASONRISK_EACH_LANE state.ground[i] = persistence[i] * state.ground[i] + state.ground_kick[i] * normals[i];
}

/// How today's soak factor is found.
enum class Soak {
    given,        ///< already in `SoakState::factor` (long rotations, setting days), or 1 for a species that has none
    one_group,    ///< every pot hauled every fished day
    two_groups,   ///< a rotation of up to two fished days
};

/// Does a day have luck of its own, or is every day like the last?
enum class DayLuck { none, some };

/// Is this all the boat catches of the species today, or more of it (from a second gear)?
enum class Landing { all, more };

/// What a species is caught with today.
struct CatchToday {
    const Lanes& hauls;
    const Lanes& per_haul;
    const Lanes& day_luck;
    const Lanes& price;       ///< money a unit of catch when all is sold at once
};

/// What one species brings today: soak, catch and its sale in one pass over the lanes, for a pass costs more
/// in memory than in arithmetic. With one or two groups the night's filling and today's haul are in it too.
template <Soak how, DayLuck luck, Landing landing>
SEASONRISK_STEP void catch_and_price(SoakState& soak, const GearState& gear, const Lanes& hauling, CatchToday with,
                                     Lanes& caught_today, Lanes& caught_this_year, Lanes& sales, Lanes& units) {
    SEASONRISK_EACH_LANE {
        double factor;
        if constexpr (how == Soak::given) {
            factor = soak.factor[i];
        } else {
            const double first = soak.empty[1][i] * soak.empty_after_a_night[i];
            double full = gear.rotation_weight[1][i] * (1.0 - first);
            if constexpr (how == Soak::two_groups) {
                const double second = soak.empty[2][i] * soak.empty_after_a_night[i];
                full += gear.rotation_weight[2][i] * (1.0 - second);
                soak.empty[2][i] = hauling[i] != 0.0 ? first : second;
            }
            soak.empty[1][i] = hauling[i] != 0.0 ? 1.0 : first;
            factor = full * soak.one_over_usual[i];
        }
        double caught = with.hauls[i] * with.per_haul[i] * factor;
        if constexpr (luck == DayLuck::some) caught *= with.day_luck[i];
        caught_today[i] = landing == Landing::more ? caught_today[i] + caught : caught;
        caught_this_year[i] += caught;
        sales[i] += caught * with.price[i];
        if constexpr (landing == Landing::more) units[i] += caught;
    }
}

}  // namespace seasonrisk
