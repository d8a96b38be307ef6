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

/// The value at a standard normal z.
SEASONRISK_STEP double at(const Spread& spread, double z) {
    const double bent = spread.centre + (z < 0.0 ? spread.slope_low : spread.slope_high) * z;
    double value = bent;
    if (spread.bend == Spread::Bend::above) value = spread.bound_low + exp(bent);
    if (spread.bend == Spread::Bend::between) {
        value = spread.bound_low + (spread.bound_high - spread.bound_low) * expit(bent);
    }
    if (!spread.whole) return value;
    const double rounded = std::floor(value + 0.5);
    return rounded > 0.0 ? rounded : 0.0;
}

SEASONRISK_STEP Lanes at(const Spread& spread, const Lanes& z) {
    Lanes values;
    for (int i = 0; i < k_lanes; ++i) values[i] = at(spread, z[i]);
    return values;
}

/// Mean over z ~ N(0, 1), to 1e-9 of itself. Never infinite: slopes are finite.
/// \pre a whole spread is bent `above`
double mean(const Spread& spread);

}  // namespace seasonrisk
