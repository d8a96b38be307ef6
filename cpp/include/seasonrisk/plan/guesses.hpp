// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "seasonrisk/math/spread.hpp"
#include "seasonrisk/plan/plan.hpp"

namespace seasonrisk {

/// One guessed number of a plan.
struct Guess {
    std::string path{};       ///< key path in the plan, "species.0.per_haul"
    std::uint32_t hash = 0;   ///< FNV-1a-32 of the path: the guess's own address
    Number number{};
    Rule rule{};
};

/// FNV-1a, 32 bits (Fowler, Noll, Vo), of the bytes of a key path.
std::uint32_t path_hash(std::string_view path);

/// How a guess, or the size of an event, is spread: on the scale its rule names.
/// \pre the three points are sound for the rule (see `check_plan`)
Spread spread_of(const Number& number, const Rule& rule);
Spread spread_of(const EventSize& size, const Rule& rule);

/// Every guess of the plan, in the order of the plan's keys.
std::vector<Guess> guesses_of(const Plan& plan);

/// One number of the plan as the rule book sees it, for tables of assumptions.
struct PlanEntry {
    std::string path{};
    Number number{};
    Rule rule{};
};

/// Every number of the plan with its path, value and rule, defaults included, in key order.
std::vector<PlanEntry> numbers_of(const Plan& plan);

}  // namespace seasonrisk
