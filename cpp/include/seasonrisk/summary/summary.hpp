// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "seasonrisk/summary/estimate.hpp"

/// \file
/// Numbers out of a column of outcomes, each with its error (design: the error of every printed number).
/// All throw std::invalid_argument on an empty column or a value that is not finite (naming the first index).
namespace seasonrisk {

/// Share of histories at or above `at_least`. Interval: Wilson (1927) 95%. None seen: high = 3 / n ("fewer
/// than 3 in n"), all seen: low = 1 - 3 / n.
Estimate chance(std::span<const double> values, double at_least = 0.0);

/// Wilson score interval for `seen` of `n` at normal deviate `z`, as a building block.
struct Interval { double low = 0.0; double high = 0.0; };
Interval wilson(double seen, double n, double z);

/// Mean, s / sqrt(n).
Estimate mean(std::span<const double> values);

/// Sample standard deviation with its error (from the fourth moment).
Estimate standard_deviation(std::span<const double> values);

/// Value with a share `level` of the histories at or below it; order-statistic interval.
Estimate quantile(std::span<const double> values, double level);

/// Ranks (1-based) of the order statistics that bracket the `level` quantile of n with 95% confidence, and
/// their exact coverage.
struct RankInterval { std::uint64_t low = 0; std::uint64_t high = 0; double coverage = 0.0; };
RankInterval quantile_ranks(std::uint64_t n, double level);
/// Exact coverage of the pair of ranks.
double rank_coverage(std::uint64_t n, double level, std::uint64_t low, std::uint64_t high);

/// Mean of `target - value` among the histories below `target`; influence-function error. n = those that missed;
/// value, error and interval are NaN when none missed.
Estimate shortfall_when_missed(std::span<const double> values, double target = 0.0);

/// Mean of the lowest `share` of the histories; influence-function error.
Estimate worst_share_mean(std::span<const double> values, double share = 0.1);

}  // namespace seasonrisk
