// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <span>

#include "seasonrisk/summary/estimate.hpp"

/// \file
/// Numbers out of a column of outcomes, each with its error (design: the error of every printed number).
/// All throw std::invalid_argument on an empty column or a value that is not finite (naming the first index).
namespace seasonrisk {

/// Share of histories at or above `at_least`. Interval: Wilson (1927) 95%; of more than 50 histories with a lower end
/// for 1 to 3 seen (an upper for 1 to 3 not seen) from the Poisson law, the mend of Brown, Cai & DasGupta (2001), Statist.
/// Sci. 16:101-133: it covers 92 in 100 or more however rare the chance, Wilson's alone as little as 85. None seen: up to
/// 3.84 / n (3 / n below 14 histories); "fewer than 3 in n" is the one-sided bound. The error, sqrt(p (1 - p) / n), is 0
/// when none or all were seen: the interval then tells more. `exact` does not narrow the interval: a column of equal
/// counts can be luck.
Estimate chance(std::span<const double> values, double at_least = 0.0);

/// Wilson score interval for `seen` of `n` at normal deviate `z`, as a building block.
/// \throws std::invalid_argument unless n > 0 and 0 <= seen <= n
struct Interval { double low = 0.0; double high = 0.0; };
Interval wilson(double seen, double n, double z);

/// Mean, s / sqrt(n); interval 1.96 errors to either side.
Estimate mean(std::span<const double> values);

/// Sample standard deviation (n - 1) with its error from the fourth moment. One history: value NaN too.
Estimate standard_deviation(std::span<const double> values);

/// Value with a share `level` (above 0, below 1) of the histories at or below it: the ceil(n level)-th in order.
/// Interval: order statistics (`quantile_ranks`); an end that n is too small to bound is NaN. The error is the
/// interval's width / (2 x 1.96).
Estimate quantile(std::span<const double> values, double level);

/// Ranks (1-based) of the order statistics that bracket the `level` quantile of n with at least 95% confidence,
/// at most 2.5% missed on either side, and their exact coverage. low = 0 or high = n + 1: no history lies far
/// enough out, that side stays open.
struct RankInterval { std::uint64_t low = 0; std::uint64_t high = 0; double coverage = 0.0; };
RankInterval quantile_ranks(std::uint64_t n, double level);
/// Exact coverage of the pair of ranks, by the binomial odds (Conover 1980, pp. 114-116); 0 and n + 1 stand for
/// an open side.
/// \throws std::invalid_argument unless low < high <= n + 1
double rank_coverage(std::uint64_t n, double level, std::uint64_t low, std::uint64_t high);

/// Mean of `target - value` among the histories below `target`; influence-function error. n = those that missed;
/// value, error and interval are NaN when none missed, error and interval when one did.
Estimate shortfall_when_missed(std::span<const double> values, double target = 0.0);

/// Mean of the lowest `share` (above 0, at most 1) of the histories, the last of them counted in part when
/// n x share is not whole; influence-function error. Error and interval are NaN when that is a single history.
Estimate worst_share_mean(std::span<const double> values, double share = 0.1);

}  // namespace seasonrisk
