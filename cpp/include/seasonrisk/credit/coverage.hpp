// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

/// \file
/// Two forms of the same question of a lender: how far does a year's money go round its loan payments?
namespace seasonrisk {

/// Columns of one money year, one value per history; money, as the columns of a run of the same names.
struct YearForLender {
    std::span<const double> standing{};            ///< left after running costs, bills and what is bought ahead
    std::span<const double> loan_payments{};       ///< interest and principal
    std::span<const double> loan_interest{};
    std::span<const double> overdraft_interest{};
    std::span<const double> tax{};
    std::span<const double> draw{};
    std::span<const double> other_income{};
    std::span<const double> overdrawn_before{};    ///< how far the account is below nothing when the year begins
    double wear = 0.0;                             ///< a year's wear of the assets: to be put by to replace them
};

/// One value per history, but for the ratios: those of the histories that have payments in the year alone, in order.
struct Coverage {
    /// Commercial form: cash available before the owner's living and tax = earnings before interest, tax and wear.
    std::vector<double> available{};
    /// available / payments.
    std::vector<double> before_household{};
    /// Farm-finance form, capital debt repayment capacity: net income (standing - all interest - wear) + other income
    /// of the household + wear + interest on loans - draw - tax. Interest on the overdraft is not added back: it is
    /// none of a loan's.
    std::vector<double> capacity{};
    /// capacity / payments.
    std::vector<double> after_household{};
    /// capacity - payments - overdraft carried into the year.
    std::vector<double> repayment_margin{};
    /// repayment margin - wear: above 0 there is something left to replace what wears, and to grow.
    std::vector<double> replacement_margin{};
};

/// Formulas of the farm-finance form: Farm Financial Standards Council, as an extension service prints them;
/// repayment capacity less payments and unpaid prior operating debt, then less replacement.
/// \throws std::invalid_argument unless all columns are of one length
Coverage coverage(const YearForLender& year);

}  // namespace seasonrisk
