// SPDX-License-Identifier: MIT
#include "seasonrisk/math/spread.hpp"

#include <stdexcept>
#include <string>

namespace seasonrisk {
namespace {

double bend(Spread::Bend bend, double bound_low, double bound_high, double x) {
    switch (bend) {
        case Spread::Bend::above: return log(x - bound_low);
        case Spread::Bend::between: return logit((x - bound_low) / (bound_high - bound_low));
        case Spread::Bend::plain: break;
    }
    return x;
}

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// Trapezoid rule over z from -8.5 to 8.5 with the join at z = 0 on a step: good to 1e-7 of the spread.
double mean_by_steps(const Spread& spread) {
    constexpr int steps = 20'000;
    constexpr double reach = 8.5;
    constexpr double width = 2.0 * reach / steps;
    double sum = 0.0;
    double weights = 0.0;
    for (int step = 0; step <= steps; ++step) {
        const double z = -reach + step * width;
        const double weight = exp(-0.5 * z * z);
        sum += weight * at(spread, z);
        weights += weight;
    }
    return sum / weights;
}

}  // namespace

Spread make_spread(Spread::Bend scale, double bound_low, double bound_high, double low, double typical, double high, bool whole) {
    const bool in_order = low <= typical && typical <= high;
    const bool above_low = scale == Spread::Bend::plain || low > bound_low;
    const bool below_high = scale != Spread::Bend::between || high < bound_high;
    if (!in_order || !above_low || !below_high) {
        throw std::invalid_argument("low=" + std::to_string(low) + " typical=" + std::to_string(typical) + " high=" + std::to_string(high)
                                    + ": must rise and lie inside the allowed range, its ends not included");
    }
    const double centre = bend(scale, bound_low, bound_high, typical);
    return {scale, bound_low, bound_high, centre,
            (centre - bend(scale, bound_low, bound_high, low)) / k_one_in_ten_z,
            (bend(scale, bound_low, bound_high, high) - centre) / k_one_in_ten_z, whole};
}

double mean(const Spread& spread) {
    const double a = spread.slope_low;
    const double b = spread.slope_high;
    if (spread.whole || spread.bend == Spread::Bend::between) return mean_by_steps(spread);
    if (spread.bend == Spread::Bend::plain) {
        constexpr double half_normal_mean = 0.3989422804014327;  // E[z; z > 0] = 1 / sqrt(2 pi)
        return spread.centre + (b - a) * half_normal_mean;
    }
    return spread.bound_low + exp(spread.centre) * (exp(0.5 * a * a) * normal_cdf(-a) + exp(0.5 * b * b) * normal_cdf(b));
}

}  // namespace seasonrisk
