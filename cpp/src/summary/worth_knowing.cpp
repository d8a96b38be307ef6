// SPDX-License-Identifier: MIT
#include "seasonrisk/summary/worth_knowing.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "column.hpp"
#include "hermite_fit.hpp"
#include "seasonrisk/math/elementary.hpp"

namespace seasonrisk {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Equally likely values of a normal: enough for a mean over it to 1 in 1,000 of its spread.
constexpr std::size_t k_places = 4000;
constexpr int k_terms = 4;  // of a cubic
using Cubic = std::array<double, k_terms>;

Cubic terms_at(double z) { return {1.0, hermite(1, z), hermite(2, z), hermite(3, z)}; }

double density(double z) { return exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi); }

/// The choices as one guess moves them: how far the mean of each lies above that of the first, a cubic each.
struct Race {
    std::vector<Cubic> ahead{};   ///< the first is all 0
    std::size_t best_now = 0;

    double at(std::size_t choice, const Cubic& terms) const {
        double sum = 0.0;
        for (int k = 0; k < k_terms; ++k) sum += ahead[choice][static_cast<std::size_t>(k)] * terms[static_cast<std::size_t>(k)];
        return sum;
    }
    std::size_t best_at(const Cubic& terms) const {
        std::size_t best = best_now;
        for (std::size_t choice = 0; choice < ahead.size(); ++choice) best = at(choice, terms) > at(best, terms) ? choice : best;
        return best;
    }
};

/// Value and chance, and how each answers to the coefficients (a row a term of the cubic, a column a choice).
struct Answer {
    double value = 0.0, would_change = 0.0;
    MatrixXd value_slope{}, change_slope{};
};

void add_terms(MatrixXd& slope, std::size_t choice, const Cubic& terms, double times) {
    for (int k = 0; k < k_terms; ++k) slope(k, static_cast<Index>(choice)) += times * terms[static_cast<std::size_t>(k)];
}

Answer run_the_race(const Race& race, const std::vector<double>& places) {
    const auto choices = static_cast<Index>(race.ahead.size());
    Answer answer{0.0, 0.0, MatrixXd::Zero(k_terms, choices), MatrixXd::Zero(k_terms, choices)};
    const double weight = 1.0 / static_cast<double>(places.size());
    std::size_t before = 0;
    for (std::size_t q = 0; q < places.size(); ++q) {
        const Cubic terms = terms_at(places[q]);
        const std::size_t best = race.best_at(terms);
        if (best != race.best_now) {
            answer.value += weight * (race.at(best, terms) - race.at(race.best_now, terms));
            answer.would_change += weight;
            add_terms(answer.value_slope, best, terms, weight);
            add_terms(answer.value_slope, race.best_now, terms, -weight);
        }
        if (q > 0 && (best == race.best_now) != (before == race.best_now)) {
            // Where the lead changes: a coefficient moves the crossing, and with it the chance on one side.
            const std::size_t other = best == race.best_now ? before : best;
            const Cubic terms_before = terms_at(places[q - 1]);
            const double lead = race.at(other, terms) - race.at(race.best_now, terms);
            const double lead_before = race.at(other, terms_before) - race.at(race.best_now, terms_before);
            const double steepness = std::abs(lead - lead_before) / (places[q] - places[q - 1]);
            const double per_lead = steepness > 0.0 ? density(places[q]) / steepness : 0.0;
            add_terms(answer.change_slope, other, terms, per_lead);
            add_terms(answer.change_slope, race.best_now, terms, -per_lead);
        }
        before = best;
    }
    return answer;
}

/// A column a choice but the first: the slope laid where the coefficients of this input stand.
MatrixXd spread_out(const MatrixXd& slope, std::size_t input, Index terms) {
    MatrixXd out = MatrixXd::Zero(terms, slope.cols() - 1);
    out.row(0) = slope.row(0).rightCols(slope.cols() - 1);
    out.middleRows(HermiteFit::place_of(input), 3) = slope.bottomRows(3).rightCols(slope.cols() - 1);
    return out;
}

std::vector<std::vector<double>> differences_of(const std::vector<std::span<const double>>& outcomes) {
    if (outcomes.size() < 2) throw std::invalid_argument("outcomes: knowing is worth something for a choice between two or more");
    for (const auto& outcome : outcomes) {
        check_column(outcome);
        if (outcome.size() != outcomes[0].size()) throw std::invalid_argument("outcomes: have " + std::to_string(outcome.size()) + " and " + std::to_string(outcomes[0].size()) + " histories");
    }
    std::vector<std::vector<double>> differences(outcomes.size() - 1, std::vector<double>(outcomes[0].size()));
    for (std::size_t d = 0; d < differences.size(); ++d) {
        for (std::size_t i = 0; i < outcomes[0].size(); ++i) differences[d][i] = outcomes[d + 1][i] - outcomes[0][i];
    }
    return differences;
}

}  // namespace

std::vector<WorthKnowing> worth_knowing(const std::vector<std::span<const double>>& outcomes, const std::vector<NormalInput>& inputs) {
    const std::vector<std::vector<double>> differences = differences_of(outcomes);
    const std::vector<std::span<const double>> fitted(differences.begin(), differences.end());
    const HermiteFit fit = fit_hermite(inputs, fitted);
    const auto p = static_cast<Index>(fit.terms.size());

    std::vector<double> places(k_places);
    for (std::size_t q = 0; q < k_places; ++q) places[q] = normal_quantile((static_cast<double>(q) + 0.5) / k_places);

    std::vector<Answer> answers;
    std::vector<MatrixXd> pulls;  // of a history on the value and on the chance, for each guess: terms x choices
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        if (!inputs[i].is_guess) continue;
        Race race{{Cubic{}}};
        double most = 0.0;
        for (Index d = 0; d < fit.coefficients.cols(); ++d) {
            const auto own = fit.coefficients.col(d).segment(HermiteFit::place_of(i), 3);
            race.ahead.push_back({fit.coefficients(0, d), own[0], own[1], own[2]});
            if (fit.coefficients(0, d) > most) {
                most = fit.coefficients(0, d);
                race.best_now = static_cast<std::size_t>(d) + 1;
            }
        }
        answers.push_back(run_the_race(race, places));
        pulls.push_back(fit.inverse * spread_out(answers.back().value_slope, i, p));
        pulls.push_back(fit.inverse * spread_out(answers.back().change_slope, i, p));
    }

    VectorXd squares = VectorXd::Zero(static_cast<Index>(pulls.size()));
    walk_terms(inputs, fit.terms, fit.n, [&](std::size_t first, const MatrixXd& rows) {
        MatrixXd left = -rows * fit.coefficients;
        for (std::size_t d = 0; d < fitted.size(); ++d) left.col(static_cast<Index>(d)) += stretch_of(fitted[d], first, rows.rows());
        for (std::size_t a = 0; a < pulls.size(); ++a) squares[static_cast<Index>(a)] += (rows * pulls[a]).cwiseProduct(left).rowwise().sum().squaredNorm();
    });
    const VectorXd errors = (squares * fit.stretch()).cwiseSqrt() / static_cast<double>(fit.n);

    std::vector<WorthKnowing> worth;
    for (std::size_t a = 0; a < answers.size(); ++a) {
        WorthKnowing& told = worth.emplace_back();
        told.value = with_normal_interval(answers[a].value, errors[static_cast<Index>(2 * a)], fit.n);
        told.value.low = std::max(0.0, told.value.low);
        told.would_change = with_normal_interval(answers[a].would_change, errors[static_cast<Index>(2 * a + 1)], fit.n);
        told.would_change.low = std::max(0.0, told.would_change.low);
        told.would_change.high = std::min(1.0, told.would_change.high);
    }
    return worth;
}

}  // namespace seasonrisk
