// SPDX-License-Identifier: MIT
#include "seasonrisk/summary/spread_share.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

#include "column.hpp"
#include "hermite_fit.hpp"
#include "moments.hpp"
#include "seasonrisk/math/spread.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// An outcome whose fit is known, and how its coefficients answer to a history.
struct Explained {
    const HermiteFit& fit;
    MatrixXd residuals{};                ///< of the outcome: after the terms, after the first event, ... after the last
    MatrixXd surprises{};                ///< of each event, variance one, uncorrelated with the terms and each other
    VectorXd event_coefficients{};
    double left = 0.0;                   ///< variance of the last residuals
};

/// What is left of each outcome, a column each.
MatrixXd residuals_of(const HermiteFit& fit, const std::vector<NormalInput>& inputs, const std::vector<std::span<const double>>& outcomes) {
    MatrixXd left(static_cast<Index>(fit.n), static_cast<Index>(outcomes.size()));
    walk_terms(inputs, fit.terms, fit.n, [&](std::size_t first, const MatrixXd& rows) {
        auto block = left.middleRows(static_cast<Index>(first), rows.rows());
        block = -rows * fit.coefficients;
        for (std::size_t c = 0; c < outcomes.size(); ++c) block.col(static_cast<Index>(c)) += stretch_of(outcomes[c], first, rows.rows());
    });
    return left;
}

Explained explain(const HermiteFit& fit, const std::vector<NormalInput>& inputs, const std::vector<std::span<const double>>& outcomes) {
    const MatrixXd left = residuals_of(fit, inputs, outcomes);
    Explained found{fit, MatrixXd(left.rows(), left.cols()), left.rightCols(left.cols() - 1), VectorXd::Zero(left.cols() - 1)};
    found.residuals.col(0) = left.col(0);
    const auto n = static_cast<double>(fit.n);
    for (Index j = 0; j < found.surprises.cols(); ++j) {
        auto surprise = found.surprises.col(j);
        for (Index before = 0; before < j; ++before) surprise -= found.surprises.col(before).dot(surprise) / n * found.surprises.col(before);
        const double size = std::sqrt(surprise.squaredNorm() / n);
        // An event that the inputs tell wholly, or that never happens, has no surprise.
        const double whole = standard_deviation(outcomes[static_cast<std::size_t>(j) + 1]).value;
        surprise *= size > 1e-9 * whole ? 1.0 / size : 0.0;
        found.event_coefficients[j] = surprise.dot(found.residuals.col(j)) / n;
        found.residuals.col(j + 1) = found.residuals.col(j) - found.event_coefficients[j] * surprise;
    }
    found.left = found.residuals.rightCols(1).squaredNorm() / n * fit.stretch();
    return found;
}

/// A sum of squared coefficients: of which terms and which events.
struct Bundle {
    std::vector<bool> terms{};
    std::vector<bool> events{};
};

/// Sums over the histories that the errors of the shares are made of.
struct ShareSums {
    VectorXd own_squares, own_with_all;   ///< a bundle each: its pull on a history, squared; and times that of the whole variance
    double all_squares = 0.0;
    VectorXd left_squares_with_all = VectorXd::Zero(2);  ///< the same two sums for what is left
    VectorXd term_noise, event_noise;     ///< sums of (term x its residual)^2
    VectorXd effect_squares;
};

/// Where the wanted sums of squares and effects are worked out.
class Shares {
public:
    Shares(const Explained& found, const std::vector<NormalInput>& inputs, std::vector<Bundle> bundles, const MatrixXd& effects)
        : found_(found), bundles_(std::move(bundles)), effects_(effects) {
        add_up(inputs);
        const HermiteFit& fit = found.fit;
        const auto n = static_cast<double>(fit.n);
        // A squared coefficient is too large by its own error squared, on average.
        term_error_ = fit.inverse.diagonal().cwiseAbs2().cwiseProduct(sums_.term_noise) / (n * n) * fit.stretch();
        event_error_ = sums_.event_noise / (n * n) * fit.stretch();
        whole_ = found.left + squares(all()).first;
    }

    Estimate share(std::size_t bundle) const {
        const auto [sum, error_fourths] = squares(bundles_[bundle]);
        const auto b = static_cast<Index>(bundle);
        return estimate(sum / whole_, 4.0 * sums_.own_squares[b], 2.0 * sums_.own_with_all[b], error_fourths);
    }
    Estimate left() const { return estimate(found_.left / whole_, sums_.left_squares_with_all[0], sums_.left_squares_with_all[1], 0.0); }

    Estimate effect(Index column) const {
        const auto n = static_cast<double>(found_.fit.n);
        const double value = effects_.col(column).dot(found_.fit.coefficients.col(0));
        return with_normal_interval(value, std::sqrt(sums_.effect_squares[column] * found_.fit.stretch()) / n, found_.fit.n);
    }

private:
    Bundle all() const {
        Bundle bundle{std::vector<bool>(found_.fit.terms.size(), true), std::vector<bool>(static_cast<std::size_t>(found_.event_coefficients.size()), true)};
        bundle.terms[0] = false;  // the constant is no spread
        return bundle;
    }

    VectorXd coefficients_of(const Bundle& bundle) const {
        VectorXd of = found_.fit.coefficients.col(0);
        for (Index t = 0; t < of.size(); ++t) of[t] = bundle.terms[static_cast<std::size_t>(t)] ? of[t] : 0.0;
        return of;
    }
    VectorXd event_coefficients_of(const Bundle& bundle) const {
        VectorXd of = found_.event_coefficients;
        for (Index j = 0; j < of.size(); ++j) of[j] = bundle.events[static_cast<std::size_t>(j)] ? of[j] : 0.0;
        return of;
    }

    /// The sum of squares without what noise adds to it, and the variance that noise alone gives it.
    std::pair<double, double> squares(const Bundle& bundle) const {
        double sum = coefficients_of(bundle).squaredNorm() + event_coefficients_of(bundle).squaredNorm();
        double fourths = 0.0;
        const auto take_off = [&](const std::vector<bool>& taken, const VectorXd& errors) {
            for (std::size_t t = 0; t < taken.size(); ++t) {
                if (!taken[t]) continue;
                const double error = errors[static_cast<Index>(t)];
                sum -= error;
                fourths += 2.0 * error * error;
            }
        };
        take_off(bundle.terms, term_error_);
        take_off(bundle.events, event_error_);
        return {sum, fourths};
    }

    void add_up(const std::vector<NormalInput>& inputs) {
        const HermiteFit& fit = found_.fit;
        const auto count = static_cast<Index>(bundles_.size());
        MatrixXd terms_of(static_cast<Index>(fit.terms.size()), count + 1);
        MatrixXd events_of(found_.event_coefficients.size(), count + 1);
        for (Index b = 0; b <= count; ++b) {
            const Bundle bundle = b < count ? bundles_[static_cast<std::size_t>(b)] : all();
            terms_of.col(b) = coefficients_of(bundle);
            events_of.col(b) = event_coefficients_of(bundle);
        }
        const MatrixXd pull = fit.inverse * terms_of;
        const MatrixXd effect_pull = fit.inverse * effects_;
        sums_.own_squares = sums_.own_with_all = VectorXd::Zero(count);
        sums_.term_noise = VectorXd::Zero(static_cast<Index>(fit.terms.size()));
        sums_.event_noise = VectorXd::Zero(found_.event_coefficients.size());
        sums_.effect_squares = VectorXd::Zero(effects_.cols());
        walk_terms(inputs, fit.terms, fit.n, [&](std::size_t first, const MatrixXd& rows) {
            // A coefficient errs by all that is not told before or by itself: events come after terms.
            const auto residuals = found_.residuals.middleRows(static_cast<Index>(first), rows.rows());
            const VectorXd after_terms = residuals.col(0);
            const auto surprises = found_.surprises.middleRows(static_cast<Index>(first), rows.rows());
            const MatrixXd event_errors = surprises.cwiseProduct(residuals.rightCols(surprises.cols()));
            // Of a normal the variance is known; of an event it is what these histories show, and pulls too.
            const MatrixXd own = after_terms.asDiagonal() * (rows * pull) + event_errors * events_of
                                 + 0.5 * MatrixXd(surprises.array().square() - 1.0) * events_of.cwiseAbs2();
            const VectorXd of_left = residuals.rightCols(1).array().square() - found_.left;
            const VectorXd of_all = 2.0 * own.col(count) + of_left;
            sums_.own_squares += own.leftCols(count).cwiseAbs2().colwise().sum().transpose();
            sums_.own_with_all += own.leftCols(count).transpose() * of_all;
            sums_.all_squares += of_all.squaredNorm();
            sums_.left_squares_with_all[0] += of_left.squaredNorm();
            sums_.left_squares_with_all[1] += of_left.dot(of_all);
            sums_.term_noise += rows.cwiseAbs2().transpose() * after_terms.cwiseAbs2();
            sums_.event_noise += event_errors.cwiseAbs2().colwise().sum().transpose();
            sums_.effect_squares += (after_terms.asDiagonal() * (rows * effect_pull)).cwiseAbs2().colwise().sum().transpose();
        });
    }

    /// A history pulls a share by (its pull on the part - share x its pull on the whole) / whole.
    Estimate estimate(double share, double own_squares, double own_with_all, double noise) const {
        const auto n = static_cast<double>(found_.fit.n);
        const double pulled = (own_squares - 2.0 * share * own_with_all + share * share * sums_.all_squares) / (n * n);
        const double variance = (std::max(0.0, pulled) * found_.fit.stretch() + noise) / (whole_ * whole_);
        return with_normal_interval(share, std::sqrt(variance), found_.fit.n);
    }

    const Explained& found_;
    std::vector<Bundle> bundles_;
    const MatrixXd& effects_;
    ShareSums sums_{};
    VectorXd term_error_{}, event_error_{};
    double whole_ = 0.0;
};

/// Bundles in a fixed order: alone and total of each row, then guesses, their pairs, pairs of luck.
std::vector<Bundle> bundles_of(const HermiteFit& fit, const std::vector<NormalInput>& inputs, const std::vector<EventInput>& events, std::size_t parts) {
    const Bundle none{std::vector<bool>(fit.terms.size(), false), std::vector<bool>(events.size(), false)};
    std::vector<Bundle> bundles(2 * parts + 3, none);
    for (std::size_t t = 1; t < fit.terms.size(); ++t) {
        const HermiteTerm& term = fit.terms[t];
        const bool pair = term.degree == HermiteTerm::k_pair;
        const NormalInput& first = inputs[term.first];
        const NormalInput& second = pair ? inputs[term.second] : first;
        const bool of_guesses = first.is_guess && second.is_guess;
        if (of_guesses) bundles[2 * parts].terms[t] = true;
        bundles[2 * first.part + 1].terms[t] = bundles[2 * second.part + 1].terms[t] = true;
        if (first.part == second.part) bundles[2 * first.part].terms[t] = true;
        else bundles[2 * parts + (of_guesses ? 1 : 2)].terms[t] = true;
    }
    for (std::size_t j = 0; j < events.size(); ++j) bundles[2 * events[j].part].events[j] = bundles[2 * events[j].part + 1].events[j] = true;
    return bundles;
}

/// How coefficients make the effect of a row that is one normal: its terms at a 1-in-10 high less those at a low.
MatrixXd effects_of(const HermiteFit& fit, const std::vector<NormalInput>& inputs, std::size_t parts) {
    MatrixXd effects = MatrixXd::Zero(static_cast<Index>(fit.terms.size()), static_cast<Index>(parts));
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        for (int degree = 1; degree <= 3; ++degree) {
            effects(HermiteFit::place_of(i) + degree - 1, static_cast<Index>(inputs[i].part)) = hermite(degree, k_one_in_ten_z) - hermite(degree, -k_one_in_ten_z);
        }
    }
    return effects;
}

void check_lengths(std::size_t n, std::size_t other, const std::string& name) {
    if (n != other) throw std::invalid_argument(name + ": has " + std::to_string(other) + " histories, and values has " + std::to_string(n));
}

void check_outcome(std::span<const double> values) {
    check_column(values);
    if (values.size() > 1 && !all_equal(values)) return;
    throw std::invalid_argument("values: every history gives the same, so there is no spread to share out");
}

}  // namespace

SpreadShares spread_shares(std::span<const double> values, const std::vector<NormalInput>& inputs, const std::vector<EventInput>& events, std::size_t parts) {
    check_outcome(values);
    std::vector<std::span<const double>> outcomes{values};
    for (const EventInput& event : events) {
        check_column(event.values);
        check_lengths(values.size(), event.values.size(), "events");
        outcomes.push_back(event.values);
    }
    const HermiteFit fit = fit_hermite(inputs, outcomes);
    const Explained found = explain(fit, inputs, outcomes);
    const MatrixXd effects = effects_of(fit, inputs, parts);
    const Shares shares(found, inputs, bundles_of(fit, inputs, events, parts), effects);

    SpreadShares result;
    result.guess = shares.share(2 * parts);
    result.luck = with_normal_interval(1.0 - result.guess.value, result.guess.standard_error, fit.n);
    result.guess_pairs = shares.share(2 * parts + 1);
    result.luck_pairs = shares.share(2 * parts + 2);
    result.left = shares.left();
    result.terms = fit.terms.size() - 1;
    result.pairs = fit.pairs();
    result.pairs_left_out = fit.pairs_left_out;
    for (std::size_t part = 0; part < parts; ++part) {
        const auto normals = std::ranges::count(inputs, part, &NormalInput::part);
        const Estimate unknown{k_unknown, k_unknown, k_unknown, k_unknown, fit.n, false};
        result.parts.push_back({shares.share(2 * part), shares.share(2 * part + 1), normals == 1 ? shares.effect(static_cast<Index>(part)) : unknown});
    }
    return result;
}

Estimate share_in_common(std::span<const double> values, std::span<const double> with_other_luck) {
    check_outcome(values);
    check_column(with_other_luck);
    check_lengths(values.size(), with_other_luck.size(), "with_other_luck");
    const auto n = static_cast<double>(values.size());
    const double centre = 0.5 * (moments_of(values).mean + moments_of(with_other_luck).mean);
    double common = 0.0;
    double whole = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double a = values[i] - centre;
        const double b = with_other_luck[i] - centre;
        common += a * b;
        whole += 0.5 * (a * a + b * b);
    }
    const double share = common / whole;
    double squares = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double a = values[i] - centre;
        const double b = with_other_luck[i] - centre;
        const double pull = a * b - share * 0.5 * (a * a + b * b);
        squares += pull * pull;
    }
    return with_normal_interval(share, std::sqrt(squares) / (whole / n) / n, values.size());
}

}  // namespace seasonrisk
