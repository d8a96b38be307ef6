// SPDX-License-Identifier: MIT
#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

#include "binomial.hpp"
#include "column.hpp"
#include "rank.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {
namespace {

void check_level(double level) {
    if (!(level > 0.0 && level < 1.0)) throw std::invalid_argument("level=" + std::to_string(level) + ": must be above 0 and below 1");
}

void check_histories(std::uint64_t n) {
    if (n == 0) throw std::invalid_argument("n=0: at least one history is needed");
}

}  // namespace

std::uint64_t rank_of_share(std::uint64_t n, double share) {
    const double exact = static_cast<double>(n) * share;
    const double nearest = std::round(exact);
    // 100,000 x 0.07 comes out a trace above 7,000 and must not become rank 7,001.
    constexpr double rounding = 4.0 * std::numeric_limits<double>::epsilon();
    const double rank = std::abs(exact - nearest) <= rounding * nearest ? nearest : std::ceil(exact);
    return std::clamp<std::uint64_t>(static_cast<std::uint64_t>(rank), 1, n);
}

RankInterval quantile_ranks(std::uint64_t n, double level) {
    check_histories(n);
    check_level(level);
    constexpr double one_side = 0.025;
    const BinomialOdds below = binomial_odds(n, level);  // how many of n lie at or below the true quantile

    RankInterval ranks{below.first, below.first + below.odds.size(), 0.0};
    double left_out = 0.0;
    for (std::size_t i = 0; left_out + below.odds[i] <= one_side; ++i) {
        left_out += below.odds[i];
        ++ranks.low;
    }
    double right_out = 0.0;
    for (std::size_t i = below.odds.size(); right_out + below.odds[i - 1] <= one_side; --i) {
        right_out += below.odds[i - 1];
        --ranks.high;
    }
    ranks.coverage = 1.0 - left_out - right_out;
    return ranks;
}

double rank_coverage(std::uint64_t n, double level, std::uint64_t low, std::uint64_t high) {
    check_histories(n);
    check_level(level);
    if (low >= high || high > n + 1) {
        throw std::invalid_argument("low=" + std::to_string(low) + ", high=" + std::to_string(high) + ": need low below high, and high at most n + 1");
    }
    const BinomialOdds below = binomial_odds(n, level);
    const std::uint64_t end = below.first + below.odds.size();
    const std::uint64_t from = std::clamp(low, below.first, end) - below.first;
    const std::uint64_t to = std::clamp(high, below.first, end) - below.first;
    return sum_of(std::span(below.odds).subspan(from, to - from), [](double odds) { return odds; });
}

Estimate quantile(std::span<const double> values, double level) {
    check_column(values);
    check_level(level);
    const std::uint64_t n = values.size();
    const std::uint64_t rank = rank_of_share(n, level);
    const RankInterval ranks = quantile_ranks(n, level);

    // Three partial orderings, each within the part the one before left: a full sort is not needed.
    std::vector<double> ordered(values.begin(), values.end());
    const auto place = [&](std::uint64_t one_based) { return ordered.begin() + static_cast<std::ptrdiff_t>(one_based - 1); };
    std::nth_element(ordered.begin(), place(rank), ordered.end());
    Estimate estimate{*place(rank), k_unknown, k_unknown, k_unknown, n, all_equal(values)};
    if (ranks.low >= 1) {
        if (ranks.low < rank) std::nth_element(ordered.begin(), place(ranks.low), place(rank));
        estimate.low = *place(ranks.low);
    }
    if (ranks.high <= n) {
        if (ranks.high > rank) std::nth_element(place(rank) + 1, place(ranks.high), ordered.end());
        estimate.high = *place(ranks.high);
    }
    estimate.standard_error = (estimate.high - estimate.low) / (2.0 * k_z_95);
    return estimate;
}

}  // namespace seasonrisk
