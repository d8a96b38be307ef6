// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "seasonrisk/summary/estimate.hpp"

/// \file
/// The owner's own caution: what a sure sum would be worth as much to him as the luck of a column of money.
/// Exponential utility 1 - exp(-x / R), which one number sets; or, for an owner who tells all he has, the logarithm of it
/// (Bernoulli 1738), by which the same loss weighs more on who has less. To be shown beside money and chances, never instead of them.
namespace seasonrisk {

/// Tolerance R for the largest season loss L one would take at 1 chance in 20: beyond it not even an unlimited gain in
/// the other 19 would make up for it, so 1 - exp(L / R) / 20 = 0 and R = L / ln 20, about L / 3 (Delquie 2008,
/// Decision Analysis 5:5-9).
/// \throws std::invalid_argument unless `largest_loss` is above 0 and finite
double tolerance_of(double largest_loss);

/// -R ln(mean exp(-x / R)); nothing overflows, whatever R. Error by the delta method; NaN, and so the interval, when the
/// answer rests on fewer than half of the histories (or 50), the worst of them: then less caution is needed, not more
/// histories. Of a season with bills of no upper end it covers 93 in 100 and more where it is told; with the old bound of
/// 50 histories alone it covered 70.
/// \throws std::invalid_argument on a column without values, a value that is not finite, or a tolerance not above 0
Estimate certainty_equivalent(std::span<const double> values, double tolerance);

/// Certainty equivalent of `choice` less that of `base`, of the same histories: influence functions, paired; NaN
/// when either rests on too few. Exact when every history differs by the same amount.
Estimate certainty_equivalent_difference(std::span<const double> base, std::span<const double> choice, double tolerance);

/// exp(mean ln(wealth + x)) - wealth: `wealth` is all that is owned less all that is owed before a history's `x` is added.
/// Error by the delta method; NaN, and so the interval, when it rests on fewer than 50 histories.
/// \throws std::invalid_argument on what is no column, a wealth that is not finite, or one that the worst history uses up
Estimate certainty_equivalent_of_wealth(std::span<const double> values, double wealth);

/// The same of `choice` less that of `base`, of the same histories; influence functions, paired.
Estimate certainty_equivalent_of_wealth_difference(std::span<const double> base, std::span<const double> choice, double wealth);

}  // namespace seasonrisk
