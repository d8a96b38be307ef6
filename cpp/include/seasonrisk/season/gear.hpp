// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"

/// \file
/// Pots: set, hauled in rotation, filling while they soak, and lost.
namespace seasonrisk {

/// Longest rotation followed, in fished days; the rule book keeps count / hauls_per_day far below it.
inline constexpr int k_longest_rotation = 64;

struct GearState {
    Lanes in_water;              ///< pots
    Lanes setting_days_left;
    Lanes gear_in_days_left;
    Lanes lifted;                ///< pots brought ashore this year
    Lanes lost;                  ///< pots lost this year
    Lanes spare;                 ///< pots ashore that take the place of lost ones
    Lanes hauls_today;
    Lanes rotation_weight[k_longest_rotation + 1];  ///< share of today's pots last hauled j fished days ago
    int rotation_slots = 1;      ///< weights that can be above 0
    bool still_setting = false;  ///< in some history of the batch
    bool has_spare = false;      ///< likewise
    bool soaked_tonight = false; ///< the night's filling is done; else it is part of today's catch
};

/// How full the pots hauled j fished days ago are, kept as the empty part: `empty[j]` = exp(-nights / tau).
/// A night multiplies it by exp(-1/tau); a haul moves every group one place on. No date is looked up, and
/// since the factors (not the dates) are blended this equals moving every pot one by one.
struct SoakState {
    bool soaks = false;          ///< else every pot is as full as any
    Lanes empty[k_longest_rotation + 1];
    Lanes empty_after_a_night;
    Lanes one_over_usual;        ///< 1 / (1 - exp(-usual / tau))
    Lanes factor;                ///< today's catch against a pot hauled after the usual soak
};

/// Fished days between two hauls of a pot: G = pots in the water / hauls. Pots are hauled at most once a
/// day, so G is at least 1.
SEASONRISK_STEP double rotation_days(double in_water, double one_over_hauls) {
    return at_most(at_least(in_water * one_over_hauls, 1.0), k_longest_rotation - 1.0);
}

/// Groups of pots to follow with all gear in the water, the most there will be.
SEASONRISK_STEP int rotation_groups(const Lanes& count, const Lanes& one_over_hauls) {
    double longest = 1.0;
    SEASONRISK_EACH_LANE {
        const double days = rotation_days(count[i], one_over_hauls[i]);
        longest = days > longest ? days : longest;
    }
    constexpr double rounding = 1e-9;  // 2.0000000000000004 fished days are two
    return static_cast<int>(std::ceil(longest - rounding));
}

/// Weights of the two whole rotations around G = g + f: (1-f) on g, f on g+1.
SEASONRISK_STEP void weigh_rotation(GearState& gear, const Lanes& one_over_hauls) {
    const auto weight = [](double days, int j) {
        return at_least(1.0 - std::abs(days - j), 0.0);
    };
    // Two as most often, in one pass; the second is not looked at where there is only one.
    Lanes days;
    SEASONRISK_EACH_LANE {
        days[i] = rotation_days(gear.in_water[i], one_over_hauls[i]);
        gear.rotation_weight[1][i] = weight(days[i], 1);
        gear.rotation_weight[2][i] = weight(days[i], 2);
    }
    for (int j = 3; j <= gear.rotation_slots; ++j) {
        SEASONRISK_EACH_LANE gear.rotation_weight[j][i] = weight(days[i], j);
    }
}

SEASONRISK_STEP void set_all_today(SoakState& soak, const Lanes& all_set, int slots) {
    for (int j = 1; j <= slots; ++j) {
        SEASONRISK_EACH_LANE soak.empty[j][i] = all_set[i] != 0.0 ? 1.0 : soak.empty[j][i];
    }
}

SEASONRISK_STEP void soak_a_night(SoakState& soak, int slots) {
    for (int j = 1; j <= slots; ++j) {
        SEASONRISK_EACH_LANE soak.empty[j][i] *= soak.empty_after_a_night[i];
    }
}

SEASONRISK_STEP void find_soak_factor(SoakState& soak, const GearState& gear) {
    Lanes full(0.0);
    for (int j = 1; j <= gear.rotation_slots; ++j) {
        SEASONRISK_EACH_LANE full[i] += gear.rotation_weight[j][i] * (1.0 - soak.empty[j][i]);
    }
    SEASONRISK_EACH_LANE soak.factor[i] = full[i] * soak.one_over_usual[i];
}

/// Today's pots go back empty; every other group is now one fished day older.
SEASONRISK_STEP void haul_and_shift(SoakState& soak, const Lanes& hauling, int slots) {
    for (int j = slots; j > 1; --j) {
        SEASONRISK_EACH_LANE soak.empty[j][i] = hauling[i] != 0.0 ? soak.empty[j - 1][i] : soak.empty[j][i];
    }
    SEASONRISK_EACH_LANE soak.empty[1][i] = hauling[i] != 0.0 ? 1.0 : soak.empty[1][i];
}

/// Pots set per day out while any setting day is left. `setting` = 1 where today's trip sets gear.
SEASONRISK_STEP void set_gear(GearState& gear, const Lanes& out, const Lanes& count, const Lanes& setting_days, Lanes& setting, Lanes& all_set) {
    SEASONRISK_EACH_LANE {
        setting[i] = gear.setting_days_left[i] > 0.0 ? out[i] : 0.0;
        gear.setting_days_left[i] -= setting[i];
        gear.in_water[i] += setting[i] * count[i] / (setting_days[i] > 0.0 ? setting_days[i] : 1.0);
        all_set[i] = gear.setting_days_left[i] <= 0.0 ? setting[i] : 0.0;
    }
}

/// Spread (standard deviation on the log scale) of a month's loss: pots go by the string, so the month's
/// loss P Q L has the variance P Q (1-Q) pots_per_string of that many strings lost or not.
SEASONRISK_STEP double log_sd_of_month_loss(double daily_odds, double days_in_month, double pots, double pots_per_string) {
    const double month_odds = 1.0 - exp(days_in_month * log(1.0 - daily_odds));
    const double cv_squared = month_odds > 0.0 ? (1.0 - month_odds) * pots_per_string / (pots * month_odds) : 0.0;
    return std::sqrt(log(1.0 + cv_squared));
}

}  // namespace seasonrisk
