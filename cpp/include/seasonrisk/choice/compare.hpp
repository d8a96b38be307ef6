// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "seasonrisk/ensemble/outcomes.hpp"
#include "seasonrisk/summary/estimate.hpp"

/// \file
/// Two plans side by side, season by season under the same luck: what a choice changes at each rung, how surely, and
/// where the difference comes from.
namespace seasonrisk {

/// A step of money on the way from sales to what the household has left: a column, the rung it counts in first, and
/// whether it adds (+1) or takes (-1).
struct MoneyStep {
    std::string_view column;
    std::string_view rung;
    double sign;
};
/// All of them, in order: their signed sum is `household`.
inline constexpr std::array<MoneyStep, 21> k_money_steps{{
    {"sales", "running", 1.0}, {"fuel", "running", -1.0}, {"bait", "running", -1.0}, {"day_costs", "running", -1.0},
    {"crew_pay", "running", -1.0}, {"selling_costs", "running", -1.0}, {"repairs", "running", -1.0}, {"claims", "running", 1.0},
    {"pots_lost_cost", "running", -1.0}, {"order_shortfalls", "running", -1.0}, {"quota_lease", "running", -1.0},
    {"switch_costs", "running", -1.0}, {"missed_settlements", "running", -1.0}, {"rehire", "running", -1.0},
    {"standing_costs", "standing", -1.0}, {"inputs", "standing", -1.0},
    {"loan_payments", "loan", -1.0}, {"overdraft_interest", "loan", -1.0},
    {"tax", "household", -1.0}, {"draw", "household", -1.0}, {"other_income", "household", 1.0},
}};

/// What a choice does to a quantity of which 0 or more is good: a rung, or the room above the overdraft's end.
struct RungChange {
    Estimate base_chance, choice_chance;
    Estimate mean, chance, gained, lost;     ///< choice less base; gained and lost: turned from missed to cleared, and back
    Estimate better, worse;                  ///< share of histories
    Estimate bad, middling, good;            ///< differences of the 0.1, 0.5 and 0.9 quantiles
    Estimate worst_tenth;                    ///< difference of the means of the worst tenth
};

/// \throws std::invalid_argument unless both hold the same histories, finite
RungChange compare_rung(std::span<const double> base, std::span<const double> choice);

/// 1 where a rung is missed (below 0) in two years running, one column a year.
/// \throws std::invalid_argument unless there are years, all of one length
std::vector<double> missed_twice(const std::vector<std::span<const double>>& by_year);

/// How often the loan rung is missed in two years running.
struct TwoBadYears {
    Estimate base, choice, difference;
};

/// Columns by name, one value per history.
using NamedColumns = std::vector<std::pair<std::string, std::span<const double>>>;

/// What is compared; a quantity that one of the two did not keep is left out.
struct Comparison {
    std::vector<std::pair<std::string, RungChange>> rungs{};    ///< running, standing, loan, household, cash_room
    std::optional<Estimate> end_position{};                     ///< mean difference
    std::optional<TwoBadYears> two_bad_years{};                 ///< where histories have several years
    std::vector<std::pair<std::string, Estimate>> steps{};      ///< mean difference of each step, signed as it counts; empty unless all are kept
};

/// \throws std::invalid_argument when a column that both kept differs in length
Comparison compare(const NamedColumns& base, const NamedColumns& choice);
/// The same of two runs. \throws std::invalid_argument unless they have the same key and histories
Comparison compare(const Outcomes& base, const Outcomes& choice);

}  // namespace seasonrisk
