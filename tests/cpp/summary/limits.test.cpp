// SPDX-License-Identifier: MIT
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/summary/summary.hpp"

using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;
using Catch::Matchers::WithinAbs;
using namespace seasonrisk;

// Hand-worked cases and limits. Source of every number: worked by hand from the definition beside it.

TEST_CASE("four seasons worked by hand", "[summary]") {
    const std::vector<double> values{4, 2, 1, 3};

    // Mean 10/4; variance 5/3; error sqrt(5/3/4).
    CHECK_THAT(mean(values).value, WithinAbs(2.5, 1e-15));
    CHECK_THAT(mean(values).standard_error, WithinAbs(std::sqrt(5.0 / 12.0), 1e-15));
    // Fourth moment 2.5625; (2.5625 - 25/9/3) / 4 = 0.409144; its root / (2 sqrt(5/3)) = 0.247733.
    CHECK_THAT(standard_deviation(values).value, WithinAbs(std::sqrt(5.0 / 3.0), 1e-15));
    CHECK_THAT(standard_deviation(values).standard_error, WithinAbs(0.247733, 5e-7));
    // Two of four at or above 3; error sqrt(0.25 / 4).
    CHECK(chance(values, 3.0).value == 0.5);
    CHECK(chance(values, 3.0).standard_error == 0.25);
    // Below 3 are 2 and 1: short by 1 and 2; error sqrt(0.5 / 2).
    CHECK(shortfall_when_missed(values, 3.0).value == 1.5);
    CHECK_THAT(shortfall_when_missed(values, 3.0).standard_error, WithinAbs(0.5, 1e-15));
    CHECK(shortfall_when_missed(values, 3.0).n == 2);
}

TEST_CASE("a quantile is the value with that share at or below it", "[summary]") {
    std::vector<double> hundred;
    for (int i = 100; i >= 1; --i) hundred.push_back(i);

    CHECK(quantile(hundred, 0.07).value == 7.0);   // 100 x 0.07 is a trace above 7 in binary
    CHECK(quantile(hundred, 0.071).value == 8.0);
    CHECK(quantile(hundred, 0.5).value == 50.0);
    CHECK(quantile(hundred, 0.999).value == 100.0);
    // Ranks 40 and 61 of the median of 100 cover 0.9648 (Conover 1980, as the rank tests).
    CHECK(quantile(hundred, 0.5).low == 40.0);
    CHECK(quantile(hundred, 0.5).high == 61.0);
}

TEST_CASE("the worst share counts the history it cuts in two for its part", "[summary]") {
    const std::vector<double> values{10, 9, 8, 7, 6, 5, 4, 3, 2, 1};

    CHECK_THAT(worst_share_mean(values, 0.2).value, WithinAbs(1.5, 1e-15));
    CHECK_THAT(worst_share_mean(values, 0.25).value, WithinAbs((1.0 + 2.0 + 0.5 * 3.0) / 2.5, 1e-15));
    CHECK_THAT(worst_share_mean(values, 1.0).value, WithinAbs(5.5, 1e-15));
    CHECK_THAT(worst_share_mean(values, 1.0).standard_error, WithinAbs(mean(values).standard_error, 1e-15));
}

TEST_CASE("a tail of one history has no error", "[summary]") {
    const std::vector<double> values{10, 9, 8, 7, 6, 5, 4, 3, 2, 1};

    const Estimate worst = worst_share_mean(values, 0.1);

    CHECK(worst.value == 1.0);
    CHECK(worst.n == 1);
    CHECK(std::isnan(worst.standard_error));
    CHECK(std::isnan(worst.low));
}

TEST_CASE("a mean keeps the small change beside large sums", "[summary]") {
    const std::vector<double> values{0, 1e16, 1, -1e16, 1};

    CHECK(mean(values).value == 2.0 / 5.0);
}

TEST_CASE("none or all seen gives fewer than three in n", "[summary]") {
    const std::vector<double> values{1, 2, 3, 4, 5, 6, 7, 8, 9, 10};

    const Estimate none = chance(values, 11.0);
    const Estimate all = chance(values, 1.0);

    CHECK(none.value == 0.0);
    CHECK(none.low == 0.0);
    CHECK_THAT(none.high, WithinAbs(0.3, 1e-15));
    CHECK(all.value == 1.0);
    CHECK_THAT(all.low, WithinAbs(0.7, 1e-15));
    CHECK(all.high == 1.0);
    CHECK_FALSE(none.exact);
}

TEST_CASE("a shortfall is unknown when none missed and plain when all did", "[summary]") {
    const std::vector<double> values{-3, -1, -2};

    const Estimate none = shortfall_when_missed(values, -3.0);
    const Estimate one = shortfall_when_missed(values, -2.5);
    const Estimate all = shortfall_when_missed(values, 0.0);

    CHECK(none.n == 0);
    CHECK(std::isnan(none.value));
    CHECK(std::isnan(none.standard_error));
    CHECK(std::isnan(none.low));
    CHECK(one.value == 0.5);
    CHECK(std::isnan(one.standard_error));
    CHECK(all.value == 2.0);
    CHECK(all.n == 3);
    CHECK_THAT(all.standard_error, WithinAbs(mean(values).standard_error, 1e-15));
}

TEST_CASE("one history has a value and no error", "[summary]") {
    const std::vector<double> one{-7.5};
    for (const Estimate& estimate : {mean(one), quantile(one, 0.5), worst_share_mean(one, 0.1), shortfall_when_missed(one)}) {
        CHECK(std::abs(estimate.value) == 7.5);
        CHECK(std::isnan(estimate.standard_error));
        CHECK(std::isnan(estimate.low));
        CHECK(std::isnan(estimate.high));
        CHECK(estimate.n == 1);
        CHECK_FALSE(estimate.exact);
    }
    CHECK(std::isnan(standard_deviation(one).value));
    CHECK(std::isnan(standard_deviation(one).low));

    // Wilson for none of one: z^2 / (1 + z^2) = 3.841459 / 4.841459.
    CHECK(chance(one, 0.0).low == 0.0);
    CHECK_THAT(chance(one, 0.0).high, WithinAbs(0.793451, 5e-7));
    CHECK(std::isnan(chance(one, 0.0).standard_error));
}

TEST_CASE("equal histories are exact", "[summary]") {
    const std::vector<double> same(1'000, 0.1);  // not a binary fraction: a plain sum would leave a trace
    for (const Estimate& estimate : {mean(same), quantile(same, 0.1), worst_share_mean(same, 0.1)}) {
        CHECK(estimate.exact);
        CHECK(estimate.value == 0.1);
        CHECK(estimate.standard_error == 0.0);
        CHECK(estimate.low == 0.1);
        CHECK(estimate.high == 0.1);
    }
    CHECK(standard_deviation(same).exact);
    CHECK(standard_deviation(same).value == 0.0);
    CHECK(chance(same, 0.0).exact);
    CHECK(shortfall_when_missed(same, 0.35).exact);
    CHECK_THAT(shortfall_when_missed(same, 0.35).value, WithinAbs(0.25, 1e-15));

    std::vector<double> nearly = same;
    nearly.back() = 0.2;
    CHECK_FALSE(mean(nearly).exact);
}

TEST_CASE("a value that is not finite is refused by its place", "[summary]") {
    std::vector<double> values(50, 1.0);
    values[17] = std::numeric_limits<double>::quiet_NaN();
    values[31] = std::numeric_limits<double>::infinity();
    CHECK_THROWS_WITH(mean(values), StartsWith("values[17]=") && EndsWith("must be a finite number"));
    CHECK_THROWS_WITH(chance(values), StartsWith("values[17]="));
    CHECK_THROWS_WITH(standard_deviation(values), StartsWith("values[17]="));
    CHECK_THROWS_WITH(quantile(values, 0.5), StartsWith("values[17]="));
    CHECK_THROWS_WITH(shortfall_when_missed(values), StartsWith("values[17]="));
    CHECK_THROWS_WITH(worst_share_mean(values), StartsWith("values[17]="));
    values[17] = 1.0;
    CHECK_THROWS_WITH(mean(values), StartsWith("values[31]=inf"));
}

TEST_CASE("an empty column and settings out of range are refused", "[summary]") {
    const std::vector<double> none;
    const std::vector<double> some{1.0, 2.0};
    CHECK_THROWS_WITH(mean(none), StartsWith("values: no histories"));
    CHECK_THROWS_AS(chance(none), std::invalid_argument);
    CHECK_THROWS_WITH(quantile(some, 0.0), StartsWith("level=") && EndsWith("above 0 and below 1"));
    CHECK_THROWS_AS(quantile(some, 1.0), std::invalid_argument);
    CHECK_THROWS_AS(quantile(some, std::numeric_limits<double>::quiet_NaN()), std::invalid_argument);
    CHECK_THROWS_WITH(worst_share_mean(some, 1.5), StartsWith("share=1.5") && EndsWith("at most 1"));
    CHECK_THROWS_WITH(shortfall_when_missed(some, std::numeric_limits<double>::infinity()), StartsWith("target=inf"));
    CHECK_THROWS_WITH(chance(some, std::numeric_limits<double>::quiet_NaN()), StartsWith("at_least="));
    CHECK_THROWS_AS(wilson(3, 2, 1.96), std::invalid_argument);
    CHECK_THROWS_AS(rank_coverage(20, 0.5, 12, 12), std::invalid_argument);
    CHECK_THROWS_AS(rank_coverage(20, 0.5, 0, 22), std::invalid_argument);
    CHECK_THROWS_AS(quantile_ranks(0, 0.5), std::invalid_argument);
}
