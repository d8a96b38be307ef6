// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Dense>

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

#include "seasonrisk/summary/spread_share.hpp"

/// \file
/// Least squares on Hermite polynomials of normals, for several outcomes at once.
namespace seasonrisk {

/// The constant (degree 0), a polynomial of `first` (degree 1 to 3), or the product of `first` and `second` (k_pair).
struct HermiteTerm {
    static constexpr int k_pair = 4;
    int degree = 0;
    std::size_t first = 0;
    std::size_t second = 0;
};

/// He_1, He_2, He_3 over the roots of 1, 2, 6: variance one, uncorrelated under the standard normal.
double hermite(int degree, double z);

struct HermiteFit {
    std::size_t n = 0;
    std::vector<HermiteTerm> terms{};
    std::size_t pairs_left_out = 0;
    Eigen::MatrixXd coefficients{};  ///< a row a term, a column an outcome
    Eigen::MatrixXd inverse{};       ///< of (terms' terms / n)

    std::size_t pairs() const;
    /// Histories over degrees of freedom: what squared residuals are short of, for having been fitted.
    double stretch() const { return static_cast<double>(n) / static_cast<double>(n - terms.size()); }
    /// Place of the first of the three single terms of an input.
    static Eigen::Index place_of(std::size_t input) { return 1 + 3 * static_cast<Eigen::Index>(input); }
};

/// \throws std::invalid_argument as `spread_shares` does
HermiteFit fit_hermite(const std::vector<NormalInput>& inputs, const std::vector<std::span<const double>>& outcomes);

/// The terms of the histories from `first` on, a row each.
void fill_terms(const std::vector<NormalInput>& inputs, const std::vector<HermiteTerm>& terms, std::size_t first, Eigen::MatrixXd& rows);

/// Calls `see(first history, values of the terms)` for one block of histories after the other.
void walk_terms(const std::vector<NormalInput>& inputs, const std::vector<HermiteTerm>& terms, std::size_t n, const auto& see) {
    constexpr std::size_t block = 512;
    Eigen::MatrixXd rows;
    for (std::size_t first = 0; first < n; first += block) {
        rows.resize(static_cast<Eigen::Index>(std::min(block, n - first)), static_cast<Eigen::Index>(terms.size()));
        fill_terms(inputs, terms, first, rows);
        see(first, rows);
    }
}

/// A stretch of a column as Eigen sees it.
inline Eigen::Map<const Eigen::VectorXd> stretch_of(std::span<const double> values, std::size_t first, Eigen::Index count) {
    return {values.data() + first, count};
}

}  // namespace seasonrisk
