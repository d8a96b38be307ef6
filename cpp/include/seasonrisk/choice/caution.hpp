// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "seasonrisk/summary/estimate.hpp"

/// \file
/// The owner's own caution: what a sure sum would be worth as much to him as the luck of a column of money.
/// Exponential utility 1 - exp(-x / R). To be shown beside money and chances, never instead of them.
namespace seasonrisk {

/// Tolerance R for the largest season loss L one would take at 1 chance in 20: beyond it not even an unlimited gain in
/// the other 19 would make up for it, so 1 - exp(L / R) / 20 = 0 and R = L / ln 20, about L / 3 (Delquie 2008,
/// Decision Analysis 5:5-9).
/// \throws std::invalid_argument unless `largest_loss` is above 0 and finite
double tolerance_of(double largest_loss);

/// -R ln(mean exp(-x / R)); nothing overflows, whatever R. Error by the delta method; NaN, and so the interval, when the
/// answer rests on fewer than 50 histories, the worst of them: then more histories, or less caution, are needed.
/// \throws std::invalid_argument on a column without values, a value that is not finite, or a tolerance not above 0
Estimate certainty_equivalent(std::span<const double> values, double tolerance);

/// Certainty equivalent of `choice` less that of `base`, of the same histories: influence functions, paired; NaN
/// when either rests on too few. Exact when every history differs by the same amount.
Estimate certainty_equivalent_difference(std::span<const double> base, std::span<const double> choice, double tolerance);

}  // namespace seasonrisk
