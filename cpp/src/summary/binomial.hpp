// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

namespace seasonrisk {

/// Odds of `first`, `first + 1`, ... successes in n tries; what lies outside is below 1e-20 of the likeliest.
struct BinomialOdds {
    std::uint64_t first = 0;
    std::vector<double> odds{};
};

/// By ratios of neighbours outward from the likeliest count, then scaled to sum to one: no factorials, so
/// nothing overflows, and the sum runs over about 19 standard deviations whatever n is.
/// \pre n >= 1, 0 < success < 1
BinomialOdds binomial_odds(std::uint64_t n, double success);

}  // namespace seasonrisk
