// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <boost/math/distributions/chi_squared.hpp>

/// \file
/// Chances of a result at least as bad as the one seen, when the draws are right: for tests with a fixed seed.
namespace seasonrisk::tests {

/// A right generator fails one test in a million seeds: with the hundred or so tests here and one fixed seed,
/// a failure is a fault.
inline constexpr double k_false_alarm = 1e-6;

/// Kolmogorov's tail of sqrt(n) times the largest distance between sample and `cdf`, with Stephens' correction
/// for n (Stephens 1970, doi 10.1111/j.2517-6161.1970.tb00821.x, from memory; at n = 2^20 it is under 1 in 1,000).
template <typename Cdf>
double kolmogorov_tail(std::vector<double> sample, Cdf cdf) {
    std::sort(sample.begin(), sample.end());
    const double n = static_cast<double>(sample.size());
    double distance = 0.0;
    for (std::size_t i = 0; i < sample.size(); ++i) {
        const double expected = cdf(sample[i]);
        const double below = static_cast<double>(i) / n;
        distance = std::max({distance, expected - below, below + 1.0 / n - expected});
    }
    const double reach = (std::sqrt(n) + 0.12 + 0.11 / std::sqrt(n)) * distance;
    if (reach < 0.2) return 1.0;  // the series needs many terms there, and the tail is 1 to 12 digits
    double tail = 0.0;
    for (int k = 1; k <= 100; ++k) tail += (k % 2 == 1 ? 2.0 : -2.0) * std::exp(-2.0 * k * k * reach * reach);
    return tail;
}

/// Pearson's chi-square tail; `lost` = degrees of freedom taken by the expectation (1: its total).
inline double chi_square_tail(const std::vector<double>& seen, const std::vector<double>& expected, int lost = 1) {
    double sum = 0.0;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const double off = seen[i] - expected[i];
        sum += off * off / expected[i];
    }
    const boost::math::chi_squared law(static_cast<double>(seen.size()) - lost);
    return boost::math::cdf(boost::math::complement(law, sum));
}

}  // namespace seasonrisk::tests
