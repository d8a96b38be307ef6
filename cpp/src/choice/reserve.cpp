// SPDX-License-Identifier: MIT
#include "seasonrisk/choice/reserve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

namespace seasonrisk {
namespace {

void check_length(const char* name, std::size_t length, std::size_t histories) {
    if (length != histories) throw std::invalid_argument(std::string(name) + ": has " + std::to_string(length) + " histories, not " + std::to_string(histories));
}

void check_years(const std::vector<std::span<const double>>& needs_by_year, const char* name, double amount) {
    if (needs_by_year.empty()) throw std::invalid_argument("needs_by_year: has no years");
    for (const std::span<const double> year : needs_by_year) check_length("needs_by_year", year.size(), needs_by_year[0].size());
    if (!std::isfinite(amount) || amount < 0.0) throw std::invalid_argument(std::string(name) + "=" + std::to_string(amount) + ": must be 0 or more");
}

/// Contribution of one day, of all histories together.
double mean_of_a_day(const YearOfNeed& year) {
    double money = 0.0, days = 0.0;
    for (std::size_t i = 0; i < year.contribution.size(); ++i) {
        money += year.contribution[i];
        days += year.days_left[i];
    }
    return days > 0.0 ? money / days : 0.0;
}

}  // namespace

std::vector<double> need_of(const YearOfNeed& year) {
    const std::size_t histories = year.repairs.size();
    if (!year.claims.empty()) check_length("claims", year.claims.size(), histories);
    check_length("contribution", year.contribution.size(), histories);
    check_length("days_broken_down", year.days_broken_down.size(), histories);
    check_length("days_left", year.days_left.size(), histories);
    const double usual_day = mean_of_a_day(year);
    std::vector<double> need(histories);
    for (std::size_t i = 0; i < histories; ++i) {
        const double a_day = year.days_left[i] > 0.0 ? year.contribution[i] / year.days_left[i] : usual_day;
        const double lost = std::max(0.0, a_day) * year.days_broken_down[i];
        need[i] = year.repairs[i] - (year.claims.empty() ? 0.0 : year.claims[i]) + lost;
    }
    return need;
}

std::vector<double> start_needed(const std::vector<std::span<const double>>& needs_by_year, double refill_a_year) {
    check_years(needs_by_year, "refill_a_year", refill_a_year);
    std::vector<double> most(needs_by_year[0].size(), 0.0);
    std::vector<double> used(most.size(), 0.0);
    for (const std::span<const double> year : needs_by_year) {
        for (std::size_t i = 0; i < most.size(); ++i) {
            used[i] += year[i];
            most[i] = std::max(most[i], used[i]);
            used[i] = std::max(0.0, used[i] - refill_a_year);
        }
    }
    return most;
}

std::vector<double> refill_needed(const std::vector<std::span<const double>>& needs_by_year, double start) {
    check_years(needs_by_year, "start", start);
    std::vector<double> least(needs_by_year[0].size(), 0.0);
    for (std::size_t i = 0; i < least.size(); ++i) {
        for (std::size_t first = 0; first < needs_by_year.size(); ++first) {
            double over = -start;
            for (std::size_t last = first; last < needs_by_year.size(); ++last) {
                over += needs_by_year[last][i];
                if (over <= 0.0) continue;
                const double refills = static_cast<double>(last - first);
                least[i] = std::max(least[i], refills > 0.0 ? over / refills : std::numeric_limits<double>::infinity());
            }
        }
    }
    return least;
}

}  // namespace seasonrisk
