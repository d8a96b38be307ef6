// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"

/// \file
/// Low, typical, high -> a value for every standard normal z: exact at the three points, monotone, so that
/// inversion works. Two half-normals joined at the median, on a bent scale that keeps to the allowed range.
namespace seasonrisk {

/// z of 1 in 10.
inline constexpr double k_one_in_ten_z = 1.281551565545;

struct Spread {
    enum class Bend {
        plain,    ///< x
        above,    ///< ln(x - bound_low)
        between,  ///< logit of (x - bound_low) / (bound_high - bound_low)
    };
    Bend bend = Bend::plain;
    double bound_low = 0.0;
    double bound_high = 0.0;
    double centre = 0.0;      ///< the typical value, on the bent scale
    double slope_low = 0.0;   ///< a unit of z below 0, on the bent scale
    double slope_high = 0.0;  ///< a unit of z above 0
    bool whole = false;       ///< rounded half up, never below 0
};

/// \throws std::invalid_argument naming the values, unless low <= typical <= high, all finite and inside the bounds
Spread make_spread(Spread::Bend bend, double bound_low, double bound_high, double low, double typical, double high,
                   bool whole);

/// From the bent scale back to the value, by the kind of bend: known outside the loop over lanes, so that the
/// loop stays free of branches.
template <Spread::Bend bend>
SEASONRISK_STEP double unbent(const Spread& spread, double z) {
    const double bent = spread.centre + (z < 0.0 ? spread.slope_low : spread.slope_high) * z;
    if constexpr (bend == Spread::Bend::above) return spread.bound_low + exp(bent);
    if constexpr (bend == Spread::Bend::between) {
        return spread.bound_low + (spread.bound_high - spread.bound_low) * expit(bent);
    }
    return bent;
}

/// A count: rounded half up, never below 0.
SEASONRISK_STEP double whole_count(double value) {
    const double rounded = std::floor(value + 0.5);
    return rounded > 0.0 ? rounded : 0.0;
}

/// The value at a standard normal z.
SEASONRISK_STEP double at(const Spread& spread, double z) {
    double value = 0.0;
    switch (spread.bend) {
        case Spread::Bend::plain: value = unbent<Spread::Bend::plain>(spread, z); break;
        case Spread::Bend::above: value = unbent<Spread::Bend::above>(spread, z); break;
        case Spread::Bend::between: value = unbent<Spread::Bend::between>(spread, z); break;
    }
    return spread.whole ? whole_count(value) : value;
}

template <Spread::Bend bend>
SEASONRISK_STEP void unbend_lanes(const Spread& spread, const Lanes& z, Lanes& values) {
    for (int i = 0; i < k_lanes; ++i) values[i] = unbent<bend>(spread, z[i]);
}

/// The same, with the same bits, for a batch.
SEASONRISK_STEP Lanes at(const Spread& spread, const Lanes& z) {
    Lanes values;
    switch (spread.bend) {
        case Spread::Bend::plain: unbend_lanes<Spread::Bend::plain>(spread, z, values); break;
        case Spread::Bend::above: unbend_lanes<Spread::Bend::above>(spread, z, values); break;
        case Spread::Bend::between: unbend_lanes<Spread::Bend::between>(spread, z, values); break;
    }
    if (spread.whole) {
        for (int i = 0; i < k_lanes; ++i) values[i] = whole_count(values[i]);
    }
    return values;
}

/// Mean over z ~ N(0, 1), to 1e-9 of itself. Never infinite: slopes are finite.
/// \pre a whole spread is bent `above`
double mean(const Spread& spread);

}  // namespace seasonrisk
