// SPDX-License-Identifier: MIT
#pragma once

#include <span>

namespace seasonrisk {

/// Mean, and sums of the second and fourth powers of the distances from it.
struct Moments {
    double mean = 0.0;
    double squares = 0.0;
    double fourths = 0.0;
};

/// \pre at least one value, all finite
Moments moments_of(std::span<const double> values);

/// Sample variance (n - 1); NaN for one value, where nothing is known of the spread.
double variance_of(const Moments& moments, std::size_t n);

}  // namespace seasonrisk
