// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/plan/number.hpp"

/// \file
/// The kinds of number a plan knows, each with its range, unit and the scale its guesses bend on.
namespace seasonrisk::rules {

inline constexpr double k_most = 1e9;  ///< larger figures are typing slips in any money

/// A sum of money, a rate, a weight: 0 or more.
constexpr Rule amount(const char* unit, const char* meaning) {
    return {0.0, k_most, false, false, Scale::above_bound, unit, meaning};
}
/// Above 0 and never 0 (a divisor, a size).
constexpr Rule positive(const char* unit, const char* meaning) {
    return {0.0, k_most, true, false, Scale::above_bound, unit, meaning};
}
/// Any sign.
constexpr Rule any_sign(const char* unit, const char* meaning) {
    return {-k_most, k_most, false, false, Scale::plain, unit, meaning};
}
/// A share, or the odds of something: 0 to 1.
constexpr Rule fraction(const char* unit, const char* meaning) {
    return {0.0, 1.0, false, false, Scale::between, unit, meaning};
}
/// How much of yesterday is left today: 0 up to, not including, 1.
constexpr Rule persistence(const char* meaning) {
    return {0.0, 1.0, false, true, Scale::between, "", meaning};
}
/// A tie between two things or two years: between -1 and 1, neither included.
constexpr Rule correlation(const char* meaning) {
    return {-1.0, 1.0, true, true, Scale::between, "", meaning};
}
/// Spread (standard deviation) on the log scale: 0.25 is about a quarter up or down.
constexpr Rule log_sd(const char* meaning) {
    return {0.0, 3.0, false, false, Scale::above_bound, "on the log scale", meaning};
}
/// What a year adds: above -1, which would be nothing left.
constexpr Rule growth(const char* meaning) {
    return {-1.0, 1.0, true, false, Scale::above_bound, "a year", meaning};
}
/// A count of days or weeks: 0 or more, whole.
constexpr Rule days(const char* unit, const char* meaning, double most = 366.0) {
    return {0.0, most, false, false, Scale::whole_count, unit, meaning, true};
}

}  // namespace seasonrisk::rules
