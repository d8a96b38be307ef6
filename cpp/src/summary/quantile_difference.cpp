// SPDX-License-Identifier: MIT
#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <string>
#include <vector>

#include "column.hpp"
#include "moments.hpp"
#include "pairs.hpp"
#include "rank.hpp"
#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/summary/difference.hpp"

namespace seasonrisk {
namespace {

/// A column in order, and the place of each history in it.
struct Ordered {
    std::vector<double> values{};
    std::vector<std::size_t> history{};  ///< by rank
    std::vector<std::size_t> rank{};     ///< by history

    explicit Ordered(std::span<const double> column) : history(column.size()), rank(column.size()) {
        std::iota(history.begin(), history.end(), std::size_t{0});
        std::ranges::stable_sort(history, {}, [&](std::size_t i) { return column[i]; });
        values.reserve(column.size());
        for (std::size_t r = 0; r < history.size(); ++r) {
            values.push_back(column[history[r]]);
            rank[history[r]] = r;
        }
    }
};

/// Ranks around the level over which slopes and crossings are averaged: the bandwidth of Bofinger (1975, Austral. J.
/// Statist. 17:1-7) for the slope of a quantile function, kept off the ends.
struct Window {
    std::size_t low = 0, middle = 0, high = 0;

    Window(std::size_t n, double level) : middle(rank_of_share(n, level) - 1) {
        constexpr double one_over_root_two_pi = 0.3989422804014327;
        const double z = normal_quantile(level);
        const double density = one_over_root_two_pi * exp(-0.5 * z * z);
        const double squared = density * density;
        const double bend = (2.0 * z * z + 1.0) * (2.0 * z * z + 1.0);
        const double share = power(4.5 * squared * squared / bend / static_cast<double>(n), 0.2);
        const double most = 0.9 * std::min(level, 1.0 - level);
        const auto reach = std::max<std::size_t>(1, static_cast<std::size_t>(std::min(share, most) * static_cast<double>(n)));
        low = middle > reach ? middle - reach : 0;
        high = std::min(middle + reach, n - 1);
    }
    double width() const { return static_cast<double>(high - low); }
};

/// How many histories stand on one side of a rank in one column and on the other side in the other, on average over the
/// ranks of the window.
double crossings(const Ordered& base, const Ordered& choice, const Window& window) {
    double passed = 0.0;
    for (std::size_t i = 0; i < base.rank.size(); ++i) {
        const auto [first, last] = std::minmax(base.rank[i], choice.rank[i]);
        passed += static_cast<double>(std::clamp(last, window.low, window.high) - std::clamp(first, window.low, window.high));
    }
    return passed / window.width();
}

/// Variance of the differences about their straight line on the base's value, of the histories that are near the level
/// in both columns: those whose own luck is all that parts the two quantiles.
double spread_about_line(const Ordered& base, const Ordered& choice, const Window& window) {
    std::vector<double> values, differences;
    for (std::size_t r = window.low; r <= window.high; ++r) {
        const std::size_t other = choice.rank[base.history[r]];
        if (other < window.low || other > window.high) continue;
        values.push_back(base.values[r]);
        differences.push_back(choice.values[other] - base.values[r]);
    }
    if (values.size() < 3) return 0.0;
    const double mean_value = moments_of(values).mean;
    const Moments apart = moments_of(differences);
    double squares = 0.0, products = 0.0;
    for (std::size_t n = 0; n < values.size(); ++n) {
        squares += (values[n] - mean_value) * (values[n] - mean_value);
        products += (values[n] - mean_value) * (differences[n] - apart.mean);
    }
    const double explained = squares > 0.0 ? products * products / squares : 0.0;
    return std::max(0.0, apart.squares - explained) / static_cast<double>(values.size());
}

// To first order a quantile errs by (share of histories below it - level) x slope of the quantile function (Bahadur
// 1966), so the difference errs by the histories that crossed from one side to the other times the slope, and by what
// the slopes differ. Where fewer than one history crosses, the two quantiles are those of one and the same history, and
// its own luck remains.
Estimate at_level(const Ordered& base, const Ordered& choice, double level) {
    const std::size_t histories = base.values.size();
    const auto n = static_cast<double>(histories);
    const Window window(histories, level);
    const double value = choice.values[window.middle] - base.values[window.middle];
    constexpr double fewest_beyond = 20.0;
    if (n * std::min(level, 1.0 - level) < fewest_beyond) return {value, k_unknown, k_unknown, k_unknown, histories, false};

    const auto slope = [&](const Ordered& column) { return (column.values[window.high] - column.values[window.low]) / window.width() * n; };
    const double mean_slope = 0.5 * (slope(base) + slope(choice));
    const double apart = slope(choice) - slope(base);
    const double crossed = crossings(base, choice, window);
    const double variance = crossed * mean_slope * mean_slope / (n * n) + apart * apart * level * (1.0 - level) / n
                          + spread_about_line(base, choice, window) / ((1.0 + crossed) * (1.0 + crossed));
    return with_normal_interval(value, std::sqrt(variance), histories);
}

}  // namespace

std::vector<Estimate> quantile_differences(std::span<const double> base, std::span<const double> choice, std::span<const double> levels) {
    const Pairs pairs = pairs_of(base, choice);
    for (const double level : levels) {
        if (!(level > 0.0 && level < 1.0)) throw std::invalid_argument("level=" + std::to_string(level) + ": must be above 0 and below 1");
    }
    if (pairs.constant) return std::vector<Estimate>(levels.size(), mean_difference(base, choice));
    const Ordered ordered_base(base);
    const Ordered ordered_choice(choice);
    std::vector<Estimate> found;
    for (const double level : levels) found.push_back(at_level(ordered_base, ordered_choice, level));
    return found;
}

Estimate quantile_difference(std::span<const double> base, std::span<const double> choice, double level) {
    return quantile_differences(base, choice, std::span(&level, 1)).front();
}

}  // namespace seasonrisk
