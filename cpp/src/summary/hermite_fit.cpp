// SPDX-License-Identifier: MIT
#include "hermite_fit.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <string>

#include "column.hpp"

namespace seasonrisk {
namespace {

constexpr double k_histories_a_pair = 20.0;      // fewer, and products are mostly noise
constexpr double k_most_work = 2e10;             // histories x terms^2: some seconds
constexpr std::size_t k_histories_a_term = 4;    // below this single terms alone are mostly noise

void check_inputs(const std::vector<NormalInput>& inputs, std::size_t n) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        if (inputs[i].normals.size() == n) continue;
        throw std::invalid_argument("inputs[" + std::to_string(i) + "]: has " + std::to_string(inputs[i].normals.size()) + " histories, and the outcome has " + std::to_string(n));
    }
    const std::size_t terms = 3 * inputs.size() + 1;
    if (n >= k_histories_a_term * terms) return;
    throw std::invalid_argument("histories=" + std::to_string(n) + ": too few to share the spread out between " + std::to_string(inputs.size()) + " guesses and series of luck, which takes "
                                + std::to_string(terms) + " terms; simulate " + std::to_string(k_histories_a_term * terms) + " or more (10,000 give shares to a point or two)");
}

std::vector<HermiteTerm> single_terms(std::size_t inputs) {
    std::vector<HermiteTerm> terms{{}};
    for (std::size_t i = 0; i < inputs; ++i) {
        for (int degree = 1; degree <= 3; ++degree) terms.push_back({degree, i, 0});
    }
    return terms;
}

void solve(HermiteFit& fit, const std::vector<NormalInput>& inputs, const std::vector<std::span<const double>>& outcomes) {
    const auto p = static_cast<Eigen::Index>(fit.terms.size());
    const auto m = static_cast<Eigen::Index>(outcomes.size());
    Eigen::MatrixXd products = Eigen::MatrixXd::Zero(p, p);
    Eigen::MatrixXd with_outcomes = Eigen::MatrixXd::Zero(p, m);
    walk_terms(inputs, fit.terms, fit.n, [&](std::size_t first, const Eigen::MatrixXd& rows) {
        products.selfadjointView<Eigen::Lower>().rankUpdate(rows.transpose());
        for (Eigen::Index c = 0; c < m; ++c) with_outcomes.col(c) += rows.transpose() * stretch_of(outcomes[static_cast<std::size_t>(c)], first, rows.rows());
    });
    const auto n = static_cast<double>(fit.n);
    products /= n;
    const Eigen::LLT<Eigen::MatrixXd, Eigen::Lower> factor(products);
    // Of uncorrelated terms no pivot is near 0; two copies of one input leave none of the second.
    const bool sound = factor.info() == Eigen::Success && factor.matrixLLT().diagonal().minCoeff() > 1e-5;
    if (!sound) throw std::invalid_argument("inputs: two of them, or of their products, are copies of each other");
    fit.inverse = factor.solve(Eigen::MatrixXd::Identity(p, p));
    fit.coefficients = factor.solve(with_outcomes / n);
}

/// Inputs by what their single terms explain, the largest first.
std::vector<std::size_t> by_weight(const HermiteFit& singles, std::size_t inputs) {
    std::vector<double> weight(inputs, 0.0);
    for (std::size_t i = 0; i < inputs; ++i) weight[i] = singles.coefficients.middleRows(HermiteFit::place_of(i), 3).squaredNorm();
    std::vector<std::size_t> order(inputs);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, std::ranges::greater{}, [&](std::size_t i) { return weight[i]; });
    return order;
}

}  // namespace

double hermite(int degree, double z) {
    switch (degree) {
        case 1: return z;
        case 2: return (z * z - 1.0) / std::sqrt(2.0);
        case 3: return (z * z - 3.0) * z / std::sqrt(6.0);
        default: return 1.0;
    }
}

void fill_terms(const std::vector<NormalInput>& inputs, const std::vector<HermiteTerm>& terms, std::size_t first, Eigen::MatrixXd& rows) {
    for (Eigen::Index t = 0; t < rows.cols(); ++t) {
        const HermiteTerm& term = terms[static_cast<std::size_t>(t)];
        if (term.degree == 0) {
            rows.col(t).setOnes();
            continue;
        }
        const auto z = stretch_of(inputs[term.first].normals, first, rows.rows());
        if (term.degree == HermiteTerm::k_pair) {
            rows.col(t) = z.cwiseProduct(stretch_of(inputs[term.second].normals, first, rows.rows()));
        } else {
            for (Eigen::Index row = 0; row < rows.rows(); ++row) rows(row, t) = hermite(term.degree, z[row]);
        }
    }
}

std::size_t HermiteFit::pairs() const {
    return static_cast<std::size_t>(std::ranges::count(terms, HermiteTerm::k_pair, &HermiteTerm::degree));
}

HermiteFit fit_hermite(const std::vector<NormalInput>& inputs, const std::vector<std::span<const double>>& outcomes) {
    const std::size_t n = outcomes.front().size();
    check_inputs(inputs, n);
    HermiteFit fit;
    fit.n = n;
    fit.terms = single_terms(inputs.size());

    const std::size_t all_pairs = inputs.size() * (inputs.size() - 1) / 2;
    const double allowed = std::min(static_cast<double>(n) / k_histories_a_pair, std::sqrt(k_most_work / static_cast<double>(n)));
    const auto room = static_cast<std::size_t>(std::max(0.0, allowed - static_cast<double>(fit.terms.size())));
    std::vector<std::size_t> order(inputs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (inputs.size() > 1 && room < all_pairs) {
        // Products of the weightiest first. Their size is not looked at, so that none is picked for its noise.
        solve(fit, inputs, outcomes);
        order = by_weight(fit, inputs.size());
    }
    std::size_t pairs = 0;
    for (std::size_t later = 1; later < order.size(); ++later) {
        for (std::size_t earlier = 0; earlier < later && pairs < room; ++earlier, ++pairs) {
            const auto [low, high] = std::minmax(order[earlier], order[later]);
            fit.terms.push_back({HermiteTerm::k_pair, low, high});
        }
    }
    fit.pairs_left_out = inputs.size() > 1 ? all_pairs - pairs : 0;
    solve(fit, inputs, outcomes);
    return fit;
}

}  // namespace seasonrisk
