// SPDX-License-Identifier: MIT
#include "seasonrisk/math/spread.hpp"

#include <algorithm>
#include <cassert>
#include <sstream>
#include <stdexcept>

namespace seasonrisk {
namespace {

double to_scale(Spread::Bend bend, double bound_low, double bound_high, double x) {
    switch (bend) {
        case Spread::Bend::above:
            return log(x - bound_low);
        case Spread::Bend::between:
            return logit((x - bound_low) / (bound_high - bound_low));
        case Spread::Bend::plain:
            break;
    }
    return x;
}

/// No normal of a run comes near it.
constexpr double k_beyond_z = 40.0;

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// The design's formula: half a log-normal on each side of the typical value.
double mean_above(const Spread& spread) {
    const double a = spread.slope_low;
    const double b = spread.slope_high;
    return spread.bound_low
           + exp(spread.centre) * (exp(0.5 * a * a) * normal_cdf(-a) + exp(0.5 * b * b) * normal_cdf(b));
}

/// Simpson's rule, a half at a time: the two slopes meet at z = 0, where one rule across would lose its order.
/// Beyond |z| = 8.5 lies less than 2e-17, and a value between two bounds cannot make it count.
double mean_between(const Spread& spread) {
    constexpr int steps = 2'000;
    constexpr double width = 8.5 / steps;
    constexpr double density_at_0 = 0.3989422804014327;  // 1 / sqrt(2 pi)
    double sum = 0.0;
    for (int step = 0; step <= steps; ++step) {
        const double z = step * width;
        const double weight = step == 0 || step == steps ? 1.0 : step % 2 == 1 ? 4.0 : 2.0;
        sum += weight * exp(-0.5 * z * z) * (at(spread, -z) + at(spread, z));
    }
    return sum * density_at_0 * width / 3.0;
}

/// Sum of P(count >= k). From `most` on rounding no longer matters and the sum is the integral of P(value > x),
/// which has a closed form on the log scale.
double mean_of_count(const Spread& spread) {
    const auto z_of = [&](double value) {
        const double above_centre = log(value - spread.bound_low) - spread.centre;
        const double slope = above_centre <= 0.0 ? spread.slope_low : spread.slope_high;
        // With no slope on a side that whole half sits at the typical value.
        if (slope == 0.0) return above_centre <= 0.0 ? -k_beyond_z : k_beyond_z;
        return above_centre / slope;
    };
    const double typical = spread.bound_low + exp(spread.centre);
    const double most = std::ceil(std::max(20'000.0, 4.0 * typical));
    double sum = 0.0;
    for (double k = 1.0; k <= most; k += 1.0) sum += normal_cdf(-z_of(k - 0.5));
    const double b = spread.slope_high;
    const double z = z_of(most);
    return sum + exp(spread.centre + 0.5 * b * b) * normal_cdf(b - z) - (most - spread.bound_low) * normal_cdf(-z);
}

}  // namespace

Spread make_spread(Spread::Bend bend, double bound_low, double bound_high, double low, double typical, double high,
                   bool whole) {
    const bool in_order = low <= typical && typical <= high && std::isfinite(low) && std::isfinite(high);
    const bool above_low = bend == Spread::Bend::plain || low > bound_low;
    const bool below_high = bend != Spread::Bend::between || high < bound_high;
    if (!in_order || !above_low || !below_high) {
        std::ostringstream message;
        message << "low=" << low << " typical=" << typical << " high=" << high << ": must be finite, not fall";
        if (bend != Spread::Bend::plain) message << " and lie above " << bound_low;
        if (bend == Spread::Bend::between) message << " and below " << bound_high;
        throw std::invalid_argument(message.str());
    }
    const double centre = to_scale(bend, bound_low, bound_high, typical);
    return {bend,
            bound_low,
            bound_high,
            centre,
            (centre - to_scale(bend, bound_low, bound_high, low)) / k_one_in_ten_z,
            (to_scale(bend, bound_low, bound_high, high) - centre) / k_one_in_ten_z,
            whole};
}

double mean(const Spread& spread) {
    if (spread.whole) {
        assert(spread.bend == Spread::Bend::above);
        return mean_of_count(spread);
    }
    switch (spread.bend) {
        case Spread::Bend::above:
            return mean_above(spread);
        case Spread::Bend::between:
            return mean_between(spread);
        case Spread::Bend::plain:
            break;
    }
    constexpr double upper_half_mean = 0.3989422804014327;  // E[z; z > 0] = 1 / sqrt(2 pi)
    return spread.centre + (spread.slope_high - spread.slope_low) * upper_half_mean;
}

}  // namespace seasonrisk
