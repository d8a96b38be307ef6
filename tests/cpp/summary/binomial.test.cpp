// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstdint>

#include <boost/math/distributions/binomial.hpp>

#include "catch.hpp"

#include "seasonrisk/summary/summary.hpp"

using Catch::Matchers::WithinAbs;
using namespace seasonrisk;

namespace {

/// At most `count` of n, by Boost.Math.
double at_most(std::uint64_t n, double success, std::uint64_t count) {
    return boost::math::cdf(boost::math::binomial(static_cast<double>(n), success), static_cast<double>(count));
}

}  // namespace

// Source: Boost.Math as an independent oracle. Rounding of the recursion over up to 1e4 terms: below 1e-12.
TEST_CASE("coverage of a pair of ranks is that of an independent binomial", "[summary]") {
    for (const std::uint64_t n : {1u, 7u, 50u, 1'000u, 100'000u, 10'000'000u}) {
        for (const double level : {1e-4, 0.1, 0.5, 0.97}) {
            const double middle = static_cast<double>(n) * level;
            const double reach = 2.0 * std::sqrt(middle * (1.0 - level));
            const auto low = static_cast<std::uint64_t>(std::max(1.0, middle - reach));
            const std::uint64_t high = std::max(low, static_cast<std::uint64_t>(std::min(static_cast<double>(n), middle + reach))) + 1;
            const double expected = at_most(n, level, high - 1) - at_most(n, level, low - 1);

            CAPTURE(n, level, low, high);
            CHECK_THAT(rank_coverage(n, level, low, high), WithinAbs(expected, 1e-12));
        }
    }
}

// Source: definition of the interval; Boost.Math as the oracle. Each side misses at most 2.5% and one rank
// further in would miss more.
TEST_CASE("ranks around a quantile are the closest that cover 95 in 100", "[summary]") {
    for (const std::uint64_t n : {60u, 1'000u, 100'000u, 1'000'000u}) {
        for (const double level : {0.1, 0.5, 0.9}) {
            const RankInterval ranks = quantile_ranks(n, level);

            CAPTURE(n, level, ranks.low, ranks.high);
            REQUIRE(ranks.low >= 1);
            REQUIRE(ranks.high <= n);
            CHECK(at_most(n, level, ranks.low - 1) <= 0.025);
            CHECK(at_most(n, level, ranks.low) > 0.025);
            CHECK(1.0 - at_most(n, level, ranks.high - 1) <= 0.025);
            CHECK(1.0 - at_most(n, level, ranks.high - 2) > 0.025);
            CHECK_THAT(ranks.coverage, WithinAbs(rank_coverage(n, level, ranks.low, ranks.high), 1e-12));
        }
    }
}

// Source: by hand. 0.9^10 = 0.349 > 0.025: below the tenth of ten histories lies nobody often enough;
// three or fewer of ten: 0.9872, two or fewer: 0.9298, so the upper rank is 4.
TEST_CASE("too few histories leave a side of the interval open", "[summary]") {
    const RankInterval ranks = quantile_ranks(10, 0.1);

    CHECK(ranks.low == 0);
    CHECK(ranks.high == 4);
    CHECK_THAT(ranks.coverage, WithinAbs(0.98720, 5e-6));
}
