// SPDX-License-Identifier: MIT
#include <cmath>
#include <functional>
#include <random>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/summary/summary.hpp"

using Catch::Matchers::WithinAbs;
using namespace seasonrisk;

namespace {

/// Money left, when `loss_at(u)` is the loss at the share u: the middles of n equal slices of the distribution.
std::vector<double> slices(int n, const std::function<double(double)>& loss_at) {
    std::vector<double> values;
    for (int i = 0; i < n; ++i) values.push_back(-loss_at((i + 0.5) / n));
    return values;
}

std::vector<double> draws(int n, const std::function<double(double)>& loss_at) {
    std::mt19937_64 engine(20270601);
    std::vector<double> values;
    for (int i = 0; i < n; ++i) values.push_back(-loss_at((static_cast<double>(engine() >> 12) + 0.5) * 0x1p-52));
    return values;
}

double exponential_loss(double u) { return -31.71 * std::log(1.0 - u); }
double pareto_loss(double u) { return 2000.0 * (std::pow(1.0 - u, -1.0 / 3.0) - 1.0); }

/// The success odds at which `tail` is `wanted`; `tail` must be monotone in them.
double odds_where(const std::function<double(double)>& tail, double wanted) {
    double low = 1e-9;
    double high = 1.0 - 1e-9;
    const bool rising = tail(high) > tail(low);
    for (int step = 0; step < 60; ++step) {
        const double middle = 0.5 * (low + high);
        ((tail(middle) < wanted) == rising ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace

// Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1 (prc241.htm): one-sided lower limit,
// 26 of 200, z = 1.645: 0.09577 (five digits printed).
TEST_CASE("CI-01: Wilson's lower limit for 26 of 200 is the published one", "[summary]") {
    CHECK_THAT(wilson(26, 200, 1.645).low, WithinAbs(0.09577, 5e-6));
}

// Source: the same page: Clopper-Pearson 90% interval for 4 of 20: 0.071354 and 0.401029 (printed from a root
// finder, good to 2e-6). The limits are where our own binomial tails come to 5%.
TEST_CASE("CI-02: binomial tails give the published exact limits for 4 of 20", "[summary]") {
    const auto four_or_more = [](double odds) { return rank_coverage(20, odds, 4, 21); };
    const auto four_or_fewer = [](double odds) { return rank_coverage(20, odds, 0, 5); };

    CHECK_THAT(odds_where(four_or_more, 0.05), WithinAbs(0.071354, 2e-6));
    CHECK_THAT(odds_where(four_or_fewer, 0.05), WithinAbs(0.401029, 2e-6));
}

// Source: R package EnvStats, help page of eqnpar: 75th percentile, 20 values, ranks 12 and 19 cover 93.47622%.
// Formula: Conover (1980), Practical Nonparametric Statistics, 2nd ed., pp. 114-116.
TEST_CASE("CI-05: ranks 12 and 19 of 20 cover the upper quartile as published", "[summary]") {
    CHECK_THAT(rank_coverage(20, 0.75, 12, 19), WithinAbs(0.9347622, 5e-8));
}

// Source: McNeil, Frey & Embrechts (2005), Quantitative Risk Management, example 2.14 (formula; digits worked out
// from it): a standard normal loss. A slice is 1e-6 wide, so a quantile may be off by half a slice over the
// density (5e-6 at 5%, 1.9e-5 at 1%) and a tail mean by about one slice's share of the tail.
TEST_CASE("RISK-02: quantiles and tail means of a standard normal are the published ones", "[summary]") {
    const auto values = slices(1'000'000, [](double u) { return normal_quantile(u); });

    CHECK_THAT(quantile(values, 0.05).value, WithinAbs(-1.644854, 6e-6));
    CHECK_THAT(quantile(values, 0.01).value, WithinAbs(-2.326348, 2e-5));
    CHECK_THAT(worst_share_mean(values, 0.05).value, WithinAbs(-2.062713, 4e-6));
    CHECK_THAT(worst_share_mean(values, 0.025).value, WithinAbs(-2.337803, 8e-6));
    CHECK_THAT(worst_share_mean(values, 0.01).value, WithinAbs(-2.665214, 2e-5));
}

// Source: Frees (ed.), Loss Data Analytics, examples 10.3.5, 10.3.8 and 10.3.9: losses uniform on (0, 100) and
// exponential with mean 31.71 have one 95% quantile, 95, and tail means 97.5 and 126.7.
TEST_CASE("RISK-04: losses with one quantile and different tails are told apart", "[summary]") {
    const auto uniform = slices(1'000'000, [](double u) { return 100.0 * u; });
    const auto exponential = slices(1'000'000, exponential_loss);

    CHECK_THAT(quantile(uniform, 0.05).value, WithinAbs(-95.0, 1e-4));    // a slice: 100 / 1e6
    CHECK_THAT(worst_share_mean(uniform, 0.05).value, WithinAbs(-97.5, 1e-9));
    CHECK_THAT(quantile(exponential, 0.05).value, WithinAbs(-95.0, 0.01));
    CHECK_THAT(worst_share_mean(exponential, 0.05).value, WithinAbs(-126.7, 0.01));
}

// Source: the same. Pareto losses (alpha 3, theta 2000): quantile 3428.8352, tail mean 6143.2528. Four of the
// printed errors: one false alarm in about 16,000 for a normal error; the seed is fixed.
TEST_CASE("RISK-02, RISK-04: drawn losses meet the published values within four of their own errors", "[summary]") {
    const auto agrees = [](const Estimate& estimate, double published) {
        INFO(estimate.value << " +- " << estimate.standard_error << " against " << published);
        CHECK(std::abs(estimate.value - published) < 4.0 * estimate.standard_error);
        // An error too large would pass anything: it must be small against what it is the error of.
        CHECK(estimate.standard_error < 0.03 * std::abs(published));
    };
    const auto normal = draws(100'000, [](double u) { return normal_quantile(u); });
    const auto exponential = draws(100'000, exponential_loss);
    const auto pareto = draws(100'000, pareto_loss);

    agrees(quantile(normal, 0.05), -1.644854);
    agrees(worst_share_mean(normal, 0.05), -2.062713);
    agrees(quantile(exponential, 0.05), -94.99467);
    agrees(worst_share_mean(exponential, 0.05), -126.70467);
    agrees(quantile(pareto, 0.05), -3428.8352);
    agrees(worst_share_mean(pareto, 0.05), -6143.2528);
}

// Source: Rockafellar & Uryasev (2002), definition for a distribution with atoms: mean of the worst 15% of 1 ... 10 is
// (1 + 2 / 2) / 1.5 (cvar-atom of the outside decision checks, tolerance 1e-9).
TEST_CASE("a history that the share cuts in two counts for its part", "[summary]") {
    const std::vector<double> values{10, 3, 7, 1, 9, 5, 2, 8, 4, 6};
    CHECK_THAT(worst_share_mean(values, 0.15).value, WithinAbs(4.0 / 3.0, 1e-9));
}

// Source: Rothschild & Stiglitz (1970): 10, 40, 70 is 20, 40, 60 with its mean kept and its spread made wider, so the
// integral of its distribution lies above everywhere (mps of the outside decision checks, tolerance 1e-9). That integral
// up to a target is the chance of missing it times the shortfall when missed.
TEST_CASE("more spread at the same mean falls short by more at every target", "[summary]") {
    const std::vector<double> narrow{20, 40, 60};
    const std::vector<double> wide{10, 40, 70};
    const auto missing = [](const std::vector<double>& values, double target) {
        return (1.0 - chance(values, target).value) * shortfall_when_missed(values, target).value;
    };
    CHECK_THAT(missing(narrow, 30.0), WithinAbs(10.0 / 3.0, 1e-9));
    CHECK_THAT(missing(narrow, 50.0), WithinAbs(40.0 / 3.0, 1e-9));
    CHECK_THAT(missing(wide, 30.0), WithinAbs(20.0 / 3.0, 1e-9));
    CHECK_THAT(missing(wide, 50.0), WithinAbs(50.0 / 3.0, 1e-9));
}

// Source: Rockafellar & Uryasev (2000), J. Risk 2(3):21-41, tables for the portfolio of three (ru-risk of the outside
// decision checks, tolerance 2e-6): loss quantiles and tail means at 0.90, 0.95, 0.99. Four million slices leave 1e-6.
TEST_CASE("quantiles and tail means of the published portfolio are the published ones", "[summary]") {
    const double weight[] = {0.452013, 0.115573, 0.432414};
    const double covariance[3][3] = {{0.00324625, 0.00022983, 0.00420395}, {0.00022983, 0.00049937, 0.00019247}, {0.00420395, 0.00019247, 0.00764097}};
    double variance = 0.0;
    for (int i = 0; i < 3; ++i) {
        for (int j = 0; j < 3; ++j) variance += weight[i] * weight[j] * covariance[i][j];
    }
    const auto values = slices(4'000'000, [&](double u) { return -0.011 + std::sqrt(variance) * normal_quantile(u); });
    const double share[] = {0.10, 0.05, 0.01};
    const double value_at_risk[] = {0.067848, 0.0902, 0.132128};
    const double tail_mean[] = {0.096975, 0.115908, 0.152977};
    for (int i = 0; i < 3; ++i) {
        CHECK_THAT(quantile(values, share[i]).value, WithinAbs(-value_at_risk[i], 2e-6));
        CHECK_THAT(worst_share_mean(values, share[i]).value, WithinAbs(-tail_mean[i], 2e-6));
    }
}
