// SPDX-License-Identifier: MIT
#include "seasonrisk/summary/difference.hpp"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

#include "column.hpp"
#include "moments.hpp"
#include "pairs.hpp"
#include "rank.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {
namespace {

Estimate exactly(double value, std::size_t n) { return {value, 0.0, value, value, n, true}; }

/// The same for every history, so the same for whatever is made of them.
Estimate constant_of(const Pairs& pairs) { return exactly(pairs.none ? 0.0 : moments_of(pairs.difference).mean, pairs.difference.size()); }

template <class Seen>
Estimate share_where(std::size_t n, bool exact, Seen seen) {
    std::vector<double> is_it(n);
    for (std::size_t i = 0; i < n; ++i) is_it[i] = seen(i) ? 1.0 : 0.0;
    Estimate share = chance(is_it, 1.0);
    share.exact = exact;
    if (exact) share.low = share.high = share.value;
    return share;
}

/// The part of the histories that group `g` of `groups` holds, each within one history of the others.
std::span<const double> part_of(std::span<const double> values, std::size_t g, std::size_t groups) {
    const std::size_t begin = g * values.size() / groups;
    return values.subspan(begin, (g + 1) * values.size() / groups - begin);
}

double quantile_value(std::span<const double> values, double level) {
    std::vector<double> ordered(values.begin(), values.end());
    const auto place = ordered.begin() + static_cast<std::ptrdiff_t>(rank_of_share(values.size(), level) - 1);
    std::nth_element(ordered.begin(), place, ordered.end());
    return *place;
}

}  // namespace

Estimate mean_difference(std::span<const double> base, std::span<const double> choice) {
    const Pairs pairs = pairs_of(base, choice);
    return pairs.constant ? constant_of(pairs) : mean(pairs.difference);
}

Estimate chance_gained(std::span<const double> base, std::span<const double> choice, double at_least) {
    const bool none = pairs_of(base, choice).none;
    check_finite("at_least", at_least);
    return share_where(base.size(), none, [&](std::size_t i) { return base[i] < at_least && choice[i] >= at_least; });
}

Estimate chance_lost(std::span<const double> base, std::span<const double> choice, double at_least) {
    return chance_gained(choice, base, at_least);
}

Estimate chance_difference(std::span<const double> base, std::span<const double> choice, double at_least) {
    const Estimate gained = chance_gained(base, choice, at_least);
    const Estimate lost = chance_lost(base, choice, at_least);
    const auto n = static_cast<double>(base.size());
    const double value = gained.value - lost.value;
    if (gained.exact) return exactly(value, base.size());
    if (n < 2.0) return {value, k_unknown, k_unknown, k_unknown, base.size(), false};

    Estimate estimate{value, 0.0, -3.0 / n, 3.0 / n, base.size(), false};
    const double crossed = gained.value + lost.value;
    if (crossed == 0.0) return estimate;
    estimate.standard_error = std::sqrt((crossed - value * value) / (n - 1.0));
    // Half a history more in each cell: gained, lost, and the two that stay.
    const double gains = gained.value * n + 0.5;
    const double losses = lost.value * n + 0.5;
    const double centre = (gains - losses) / (n + 2.0);
    const double half = k_z_95 * std::sqrt(((gains + losses) / (n + 2.0) - centre * centre) / (n + 2.0));
    estimate.low = std::max(-1.0, centre - half);
    estimate.high = std::min(1.0, centre + half);
    // Where all that cross go one way, as under the same luck they often do, the difference is a rare chance by itself.
    if (gained.value == 0.0) {
        estimate.low = std::min(estimate.low, -lost.high);
        estimate.high = std::max(estimate.high, -lost.low);
    } else if (lost.value == 0.0) {
        estimate.low = std::min(estimate.low, gained.low);
        estimate.high = std::max(estimate.high, gained.high);
    }
    return estimate;
}

Estimate better_share(std::span<const double> base, std::span<const double> choice) {
    const Pairs pairs = pairs_of(base, choice);
    return share_where(base.size(), pairs.constant, [&](std::size_t i) { return pairs.difference[i] > pairs.rounding; });
}

Estimate worst_share_difference(std::span<const double> base, std::span<const double> choice, double share) {
    const Pairs pairs = pairs_of(base, choice);
    const Estimate of_base = worst_share_mean(base, share);
    const Estimate of_choice = worst_share_mean(choice, share);
    if (pairs.constant) return constant_of(pairs);

    const double value = of_choice.value - of_base.value;
    const std::uint64_t tail = rank_of_share(base.size(), share);
    if (tail < 2) return {value, k_unknown, k_unknown, k_unknown, tail, false};
    const double edge_of_base = quantile_value(base, share < 1.0 ? share : 1.0);
    const double edge_of_choice = quantile_value(choice, share < 1.0 ? share : 1.0);
    std::vector<double> influence(base.size());
    for (std::size_t i = 0; i < base.size(); ++i) {
        influence[i] = (std::max(0.0, edge_of_base - base[i]) - std::max(0.0, edge_of_choice - choice[i])) / share;
    }
    Estimate estimate = mean(influence);
    estimate = with_normal_interval(value, estimate.standard_error, tail);
    return estimate;
}

Estimate ratio_of_means(std::span<const double> top, std::span<const double> bottom) {
    pairs_of(top, bottom);
    constexpr std::size_t groups = 50;
    constexpr double t_95_49_degrees = 2.009575234489209;
    const auto plain = [](double one) { return one; };
    const double all_top = sum_of(top, plain);
    const double all_bottom = sum_of(bottom, plain);
    if (all_bottom == 0.0) return {k_unknown, k_unknown, k_unknown, k_unknown, top.size(), false};
    if (all_equal(top) && all_equal(bottom)) return exactly(top[0] / bottom[0], top.size());
    const double value = all_top / all_bottom;
    if (top.size() < groups) return {value, k_unknown, k_unknown, k_unknown, top.size(), false};
    std::vector<double> without;
    for (std::size_t g = 0; g < groups; ++g) {
        without.push_back((all_top - sum_of(part_of(top, g, groups), plain)) / (all_bottom - sum_of(part_of(bottom, g, groups), plain)));
    }
    constexpr auto n = static_cast<double>(groups);
    const double standard_error = std::sqrt((n - 1.0) / n * moments_of(without).squares);
    return {value, standard_error, value - t_95_49_degrees * standard_error, value + t_95_49_degrees * standard_error, top.size(), false};
}

double histories_to_tell(const Estimate& difference, double amount) {
    if (!(amount > 0.0)) throw std::invalid_argument("amount=" + std::to_string(amount) + ": must be above 0");
    constexpr double z_9_in_10 = 1.281551565544600;
    const double errors = (k_z_95 + z_9_in_10) * difference.standard_error / amount;
    return static_cast<double>(difference.n) * errors * errors;
}

}  // namespace seasonrisk
