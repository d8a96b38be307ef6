// SPDX-License-Identifier: MIT
#include "binomial.hpp"

#include <algorithm>

#include "column.hpp"

namespace seasonrisk {

BinomialOdds binomial_odds(std::uint64_t n, double success) {
    constexpr double negligible = 1e-20;
    const double for_to_against = success / (1.0 - success);
    const auto tries = static_cast<double>(n);
    const std::uint64_t likeliest = std::min(n, static_cast<std::uint64_t>((tries + 1.0) * success));

    std::vector<double> odds{1.0};
    std::uint64_t first = likeliest;
    for (double odd = 1.0; first > 0 && odd > negligible; --first) {
        const auto count = static_cast<double>(first);
        odd *= count / (tries - count + 1.0) / for_to_against;
        odds.push_back(odd);
    }
    std::ranges::reverse(odds);
    double odd = 1.0;
    for (std::uint64_t count = likeliest; count < n && odd > negligible; ++count) {
        odd *= (tries - static_cast<double>(count)) / (static_cast<double>(count) + 1.0) * for_to_against;
        odds.push_back(odd);
    }
    const double total = sum_of(odds, [](double one) { return one; });
    for (double& one : odds) one /= total;
    return {first, std::move(odds)};
}

}  // namespace seasonrisk
