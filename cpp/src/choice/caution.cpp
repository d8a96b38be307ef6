// SPDX-License-Identifier: MIT
#include "seasonrisk/choice/caution.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/summary/difference.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {
namespace {

constexpr double k_one_chance_in = 20.0;
constexpr double k_fewest_histories = 50.0;
constexpr double k_z_95 = 1.959963984540054;

void check_above_zero(const char* name, double value) {
    if (!(value > 0.0 && std::isfinite(value))) throw std::invalid_argument(std::string(name) + "=" + std::to_string(value) + ": must be above 0 and finite");
}

/// What each history weighs, exp(-(x - worst) / R): counted from the worst, none is above 1.
struct Weights {
    double worst = 0.0;
    std::vector<double> of{};
    Estimate mean{};

    Weights(std::span<const double> values, double tolerance) {
        check_above_zero("tolerance", tolerance);
        seasonrisk::mean(values);  // refuses what is no column
        worst = *std::ranges::min_element(values);
        of.reserve(values.size());
        for (const double value : values) of.push_back(exp((worst - value) / tolerance));
        mean = seasonrisk::mean(of);
    }
    double certainty_equivalent(double tolerance) const { return worst - tolerance * log(mean.value); }

    /// Histories that the mean rests on, n (mean w)^2 / mean (w^2), against half of them, which is where the weights
    /// spread as wide as their mean. Beyond that the worst decide, and no number of histories makes up for it: repair
    /// bills have no upper end, so what decides is mostly what has not been seen, and those runs that look surest are the
    /// ones that saw least of it.
    bool rests_on_few() const {
        double sum = 0.0;
        double squares = 0.0;
        for (const double weight : of) {
            sum += weight;
            squares += weight * weight;
        }
        return sum * sum < std::max(k_fewest_histories, 0.5 * static_cast<double>(of.size())) * squares;
    }
};

/// ln(wealth + x) of each history.
struct LogWealth {
    std::vector<double> of{};
    Estimate mean{};

    LogWealth(std::span<const double> values, double wealth) {
        seasonrisk::mean(values);  // refuses what is no column
        const double worst = *std::ranges::min_element(values);
        if (!(std::isfinite(wealth) && wealth + worst > 0.0))
            throw std::invalid_argument("wealth=" + std::to_string(wealth) + ": must be finite and above " + std::to_string(-worst) + ", which the worst history takes");
        of.reserve(values.size());
        for (const double value : values) of.push_back(log(wealth + value));
        mean = seasonrisk::mean(of);
    }
    double left() const { return exp(mean.value); }
};

/// Whether an error from these terms, whose mean is `centre`, rests on fewer than 50 of them: (sum d^2)^2 / sum d^4.
bool rests_on_few(std::span<const double> terms, double centre) {
    double squares = 0.0;
    double fourths = 0.0;
    for (const double term : terms) {
        const double square = (term - centre) * (term - centre);
        squares += square;
        fourths += square * square;
    }
    return squares * squares < k_fewest_histories * fourths;
}

Estimate with_interval(double value, double standard_error, std::size_t n, bool is_known) {
    if (!is_known) standard_error = std::numeric_limits<double>::quiet_NaN();
    return {value, standard_error, value - k_z_95 * standard_error, value + k_z_95 * standard_error, n, false};
}

}  // namespace

double tolerance_of(double largest_loss) {
    check_above_zero("largest_loss", largest_loss);
    return largest_loss / log(k_one_chance_in);
}

Estimate certainty_equivalent(std::span<const double> values, double tolerance) {
    const Weights weights(values, tolerance);
    Estimate estimate = with_interval(weights.certainty_equivalent(tolerance), tolerance * weights.mean.standard_error / weights.mean.value, values.size(), weights.mean.exact || !weights.rests_on_few());
    estimate.exact = weights.mean.exact;
    return estimate;
}

Estimate certainty_equivalent_difference(std::span<const double> base, std::span<const double> choice, double tolerance) {
    const Estimate plain = mean_difference(base, choice);
    const Weights of_base(base, tolerance);
    const Weights of_choice(choice, tolerance);
    if (plain.exact) return plain;
    std::vector<double> influence(base.size());
    for (std::size_t i = 0; i < base.size(); ++i) {
        influence[i] = tolerance * (of_base.of[i] / of_base.mean.value - of_choice.of[i] / of_choice.mean.value);
    }
    return with_interval(of_choice.certainty_equivalent(tolerance) - of_base.certainty_equivalent(tolerance), mean(influence).standard_error, base.size(), !of_base.rests_on_few() && !of_choice.rests_on_few());
}

Estimate certainty_equivalent_of_wealth(std::span<const double> values, double wealth) {
    const LogWealth logs(values, wealth);
    const bool exact = logs.mean.exact;
    Estimate estimate = with_interval(logs.left() - wealth, logs.left() * logs.mean.standard_error, values.size(), exact || !rests_on_few(logs.of, logs.mean.value));
    estimate.exact = exact;
    return estimate;
}

Estimate certainty_equivalent_of_wealth_difference(std::span<const double> base, std::span<const double> choice, double wealth) {
    const Estimate plain = mean_difference(base, choice);
    const LogWealth of_base(base, wealth);
    const LogWealth of_choice(choice, wealth);
    if (plain.exact && plain.value == 0.0) return plain;
    std::vector<double> influence(base.size());
    for (std::size_t i = 0; i < base.size(); ++i) influence[i] = of_choice.left() * of_choice.of[i] - of_base.left() * of_base.of[i];
    const Estimate mean_influence = mean(influence);
    return with_interval(of_choice.left() - of_base.left(), mean_influence.standard_error, base.size(), !rests_on_few(influence, mean_influence.value));
}

}  // namespace seasonrisk
