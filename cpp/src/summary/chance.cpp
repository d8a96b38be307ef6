// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "column.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {
namespace {

/// Seen on average where 1, 2 or 3 or more are seen 5 times in 100 (half the chi-squared point with 2, 4 or 6 degrees).
constexpr std::array k_seldom{0.051293294387550516, 0.35536151069866184, 0.817691447163953};
constexpr double k_few_histories = 50.0;  // up to these the Poisson law is not near enough

bool are_few(double seen) { return seen >= 1.0 && seen <= static_cast<double>(k_seldom.size()); }
double seldom(double seen) { return k_seldom[static_cast<std::size_t>(seen) - 1]; }

}  // namespace

Interval wilson(double seen, double n, double z) {
    if (!(n > 0.0 && seen >= 0.0 && seen <= n)) {
        throw std::invalid_argument("seen=" + std::to_string(seen) + ", n=" + std::to_string(n) + ": need n above 0 and seen from 0 to n");
    }
    const double share = seen / n;
    const double stretch = 1.0 + z * z / n;
    const double centre = (share + z * z / (2.0 * n)) / stretch;
    const double half = z / stretch * std::sqrt(share * (1.0 - share) / n + z * z / (4.0 * n * n));
    // Exact at both ends, where rounding would leave a trace above 0 or below 1.
    return {seen == 0.0 ? 0.0 : centre - half, seen == n ? 1.0 : centre + half};
}

Estimate chance(std::span<const double> values, double at_least) {
    check_column(values);
    check_finite("at_least", at_least);
    const auto n = static_cast<double>(values.size());
    const auto seen = static_cast<double>(std::ranges::count_if(values, [&](double value) { return value >= at_least; }));
    Interval interval = wilson(seen, n, k_z_95);
    if (n > 3.0 && seen == 0.0) interval.high = std::max(interval.high, 3.0 / n);  // below 14 histories Wilson's is the lower
    if (n > 3.0 && seen == n) interval.low = std::min(interval.low, 1.0 - 3.0 / n);
    // Wilson's inner end for a few lies so far in that rare chances would be missed in up to 15 runs of 100.
    if (n > k_few_histories && are_few(seen)) interval.low = std::min(interval.low, seldom(seen) / n);
    if (n > k_few_histories && are_few(n - seen)) interval.high = std::max(interval.high, 1.0 - seldom(n - seen) / n);

    const double share = seen / n;
    const double standard_error = n > 1.0 ? std::sqrt(share * (1.0 - share) / n) : k_unknown;
    return {share, standard_error, interval.low, interval.high, values.size(), all_equal(values)};
}

}  // namespace seasonrisk
