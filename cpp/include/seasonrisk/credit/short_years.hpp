// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

/// \file
/// Years that run short, and who makes good for them.
namespace seasonrisk {

/// Columns of one money year, one value per history; money.
struct YearForHousehold {
    std::span<const double> household{};        ///< what is left after everything: below 0 the year runs short
    std::span<const double> draw{};
    std::span<const double> other_income{};
    std::span<const double> opening_cash{};     ///< in the account when the year begins
    std::span<const double> overdraft_limit{};  ///< 0 or more
};

/// What a short year asks for, and who gives it, in this order; the parts add up to the shortage in every history.
struct WhoCovers {
    std::vector<double> shortage{};      ///< -household, or 0
    std::vector<double> reserve{};       ///< up to what is in the account when the year begins
    std::vector<double> overdraft{};     ///< up to what is then left of the overdraft
    std::vector<double> household{};     ///< up to what the draw takes beyond other income: the family lives on that
    std::vector<double> other_income{};  ///< up to the rest of the draw: other income goes to the boat too
    std::vector<double> nobody{};        ///< what is still short
};

/// \throws std::invalid_argument unless all columns are of one length
WhoCovers who_covers(const YearForHousehold& year);

}  // namespace seasonrisk
