// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "seasonrisk/summary/estimate.hpp"

/// \file
/// What a choice changes, history by history: two columns of the same histories under the same luck, `base` without
/// the choice and `choice` with it. A difference is choice less base.
/// `exact`: every history differs by the same amount, to the rounding of sums (1e-10 of the largest value); the error
/// is then 0. Of a chance it means that no history differs at all: nobody crossing a line can be luck.
/// All throw std::invalid_argument on columns that are empty, of different lengths, or hold a value that is not finite.
namespace seasonrisk {

/// Mean of the differences; sd / sqrt(n).
Estimate mean_difference(std::span<const double> base, std::span<const double> choice);

/// Difference in the chance of `at_least` or more; the error is that of the paired -1, 0, 1. Interval: that error
/// with half a history added to each of the four cells (Agresti & Min 2005, Stat. Med. 24:729-740), which keeps its
/// coverage when few cross; where all cross one way at least that of a chance, for the other covers 90 in 100 at four on
/// average; none seen to cross: 3 / n to either side.
Estimate chance_difference(std::span<const double> base, std::span<const double> choice, double at_least = 0.0);

/// Share of histories that the choice turns from below `at_least` to it or above, and the reverse.
Estimate chance_gained(std::span<const double> base, std::span<const double> choice, double at_least = 0.0);
Estimate chance_lost(std::span<const double> base, std::span<const double> choice, double at_least = 0.0);

/// Share of histories in which the choice leaves more, by more than the rounding of sums.
Estimate better_share(std::span<const double> base, std::span<const double> choice);

/// Difference of the `level` quantiles of the two columns (not the quantile of the differences). Error by ranks: from
/// the histories that cross the quantile, the slopes of the two quantile functions there, and, where hardly any cross,
/// the spread of the differences. Batches of histories would not do: under the same luck few histories cross, the error
/// does not fall with the root of their number, and 20 batches cover as little as 35 in 100. NaN with fewer than 20
/// histories beyond the level.
Estimate quantile_difference(std::span<const double> base, std::span<const double> choice, double level);
/// The same at several levels, for one ordering of the columns.
std::vector<Estimate> quantile_differences(std::span<const double> base, std::span<const double> choice, std::span<const double> levels);

/// Difference of the means of the lowest `share` of each column; influence functions, paired.
Estimate worst_share_difference(std::span<const double> base, std::span<const double> choice, double share = 0.1);

/// mean(top) / mean(bottom). Error by leaving out each of 50 groups of histories (jackknife), t with 49 degrees;
/// NaN below 50 histories. Never for quantiles. Value NaN when the bottom's mean is 0.
Estimate ratio_of_means(std::span<const double> top, std::span<const double> bottom);

/// Histories under the same luck with which a difference of `amount` (above 0) would be seen 9 times in 10, by a
/// two-sided test at 5 in 100: ((1.96 + 1.28) sd / amount)^2, sd the spread of the differences behind `difference`.
/// NaN when the error is not known.
double histories_to_tell(const Estimate& difference, double amount);

}  // namespace seasonrisk
