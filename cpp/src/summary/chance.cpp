// SPDX-License-Identifier: MIT
#include <algorithm>
#include <stdexcept>
#include <string>

#include "column.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {

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
    if (n > 3.0 && seen == 0.0) interval.high = 3.0 / n;
    if (n > 3.0 && seen == n) interval.low = 1.0 - 3.0 / n;

    const double share = seen / n;
    const double standard_error = n > 1.0 ? std::sqrt(share * (1.0 - share) / n) : k_unknown;
    return {share, standard_error, interval.low, interval.high, values.size(), all_equal(values)};
}

}  // namespace seasonrisk
