// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>

#include "seasonrisk/summary/estimate.hpp"

/// \file
/// What every summary of a column of outcomes needs: a look at the door, a sum, an interval.
namespace seasonrisk {

/// Standard normal deviate of a two-sided 95% interval.
inline constexpr double k_z_95 = 1.959963984540054;
inline constexpr double k_unknown = std::numeric_limits<double>::quiet_NaN();

/// \throws std::invalid_argument when there are no values, or naming the first that is not finite
void check_column(std::span<const double> values);

/// \throws std::invalid_argument when `value` is not finite, by its name
void check_finite(const char* name, double value);

/// Two or more histories that all gave the same value. One alone says nothing about the others.
bool all_equal(std::span<const double> values);

/// Sum of `term(value)` in the order of the histories, with the lost digits carried along (Neumaier 1974,
/// doi 10.1002/zamm.19740540106), so that threads and chunks cannot show in the last digit.
template <class Term>
double sum_of(std::span<const double> values, Term term) {
    double sum = 0.0;
    double lost = 0.0;
    for (const double value : values) {
        const double next = term(value);
        const double total = sum + next;
        lost += std::abs(sum) >= std::abs(next) ? (sum - total) + next : (next - total) + sum;
        sum = total;
    }
    return sum + lost;
}

/// value +- 1.96 standard errors.
inline Estimate with_normal_interval(double value, double standard_error, std::size_t n) {
    return {value, standard_error, value - k_z_95 * standard_error, value + k_z_95 * standard_error, static_cast<std::uint64_t>(n), false};
}

}  // namespace seasonrisk
