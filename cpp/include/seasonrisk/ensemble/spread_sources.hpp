// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "seasonrisk/plan/plan.hpp"

/// \file
/// What the spread of a run comes from: the normals of its guesses and of its years, drawn again from their
/// addresses without simulating anything.
namespace seasonrisk {

/// One standard normal in each history, independent of all others.
struct SpreadSource {
    std::string part{};             ///< of a guess its key path; of luck "weather", "catch", "price", "fuel", "bait", "grades"
    bool is_guess = false;
    std::vector<double> normals{};  ///< one per history
};

/// Every guess of the plan in the order of its keys, then the luck of its years wherever the plan gives it a spread:
/// the very normals that histories first_history, first_history + 1, ... of the run with this key are made of.
/// Of the year luck there is one source a year and series; together they are the part.
/// \throws PlanError when the plan is not sound, std::invalid_argument when there are no histories
std::vector<SpreadSource> spread_sources(const Plan& plan, std::uint64_t key, std::uint64_t first_history, std::uint64_t histories);

}  // namespace seasonrisk
