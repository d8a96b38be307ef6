// SPDX-License-Identifier: MIT
#include <algorithm>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "column.hpp"
#include "moments.hpp"
#include "rank.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {

// Influence function of a mean under a condition: (distance from that mean) / (chance of the condition), for
// those that meet it. Over the histories it comes to the error of the mean of those that missed.
Estimate shortfall_when_missed(std::span<const double> values, double target) {
    check_column(values);
    check_finite("target", target);
    std::vector<double> short_by;
    for (const double value : values) {
        if (value < target) short_by.push_back(target - value);
    }
    if (short_by.empty()) return {k_unknown, k_unknown, k_unknown, k_unknown, 0, false};
    const Moments moments = moments_of(short_by);
    const double standard_error = std::sqrt(variance_of(moments, short_by.size()) / static_cast<double>(short_by.size()));
    Estimate estimate = with_normal_interval(moments.mean, standard_error, short_by.size());
    estimate.exact = all_equal(values);
    return estimate;
}

// With q the quantile at the share a: mean of the tail = q - E[max(0, q - X)] / a, and its influence function
// is that of E[max(0, q - X)] / a alone, because the slope towards q is nought.
Estimate worst_share_mean(std::span<const double> values, double share) {
    check_column(values);
    if (!(share > 0.0 && share <= 1.0)) throw std::invalid_argument("share=" + std::to_string(share) + ": must be above 0 and at most 1");
    const std::uint64_t rank = rank_of_share(values.size(), share);
    std::vector<double> ordered(values.begin(), values.end());
    const auto edge = std::next(ordered.begin(), static_cast<std::ptrdiff_t>(rank - 1));
    std::nth_element(ordered.begin(), edge, ordered.end());
    const double quantile_value = *edge;

    // From the histories in their own order: the part of a history that the share cuts in two counts for its part.
    const auto n = static_cast<double>(values.size());
    const auto below_edge = [&](double value) { return std::max(0.0, quantile_value - value); };
    const double mean_below = sum_of(values, below_edge) / n;
    const double squares = sum_of(values, [&](double value) { return (below_edge(value) - mean_below) * (below_edge(value) - mean_below); });

    // A tail of one history has a value but no spread to learn its error from.
    const bool same = all_equal(values);
    const double standard_error = rank > 1 || same ? std::sqrt(squares / (n - 1.0) / n) / share : k_unknown;
    Estimate estimate = with_normal_interval(quantile_value - mean_below / share, standard_error, rank);
    estimate.exact = same;
    return estimate;
}

}  // namespace seasonrisk
