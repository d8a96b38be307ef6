// SPDX-License-Identifier: MIT
#include "moments.hpp"

#include <algorithm>

#include "column.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {

Moments moments_of(std::span<const double> values) {
    // Counted from the first value, equal values give their mean without rounding.
    const double first = values.front();
    Moments moments;
    moments.mean = first + sum_of(values, [&](double value) { return value - first; }) / static_cast<double>(values.size());
    moments.squares = sum_of(values, [&](double value) { return (value - moments.mean) * (value - moments.mean); });
    moments.fourths = sum_of(values, [&](double value) {
        const double square = (value - moments.mean) * (value - moments.mean);
        return square * square;
    });
    return moments;
}

double variance_of(const Moments& moments, std::size_t n) {
    return n > 1 ? moments.squares / static_cast<double>(n - 1) : k_unknown;
}

Estimate mean(std::span<const double> values) {
    check_column(values);
    const Moments moments = moments_of(values);
    const double standard_error = std::sqrt(variance_of(moments, values.size()) / static_cast<double>(values.size()));
    Estimate estimate = with_normal_interval(moments.mean, standard_error, values.size());
    estimate.exact = all_equal(values);
    return estimate;
}

Estimate standard_deviation(std::span<const double> values) {
    check_column(values);
    if (values.size() == 1) return {k_unknown, k_unknown, k_unknown, k_unknown, 1, false};
    const Moments moments = moments_of(values);
    const auto n = static_cast<double>(values.size());
    const double variance = variance_of(moments, values.size());
    if (variance == 0.0) return {0.0, 0.0, 0.0, 0.0, values.size(), all_equal(values)};

    // Variance of the sample variance: (fourth moment - (n-3)/(n-1) sd^4) / n (Mood, Graybill & Boes 1974, VI.2.3);
    // the square root's error follows by its slope, 1 / (2 sd).
    const double deviation = std::sqrt(variance);
    const double variance_error_squared = (moments.fourths / n - (n - 3.0) / (n - 1.0) * variance * variance) / n;
    Estimate estimate = with_normal_interval(deviation, std::sqrt(std::max(0.0, variance_error_squared)) / (2.0 * deviation), values.size());
    estimate.low = std::max(0.0, estimate.low);
    return estimate;
}

}  // namespace seasonrisk
