// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "seasonrisk/plan/money_plan.hpp"

/// \file
/// A loan from the first day of the money year until it is paid off, without luck.
namespace seasonrisk {

/// One payment, on the last day of its month.
struct LoanPayment {
    int month = 0;           ///< of the account, 0 first
    double interest = 0.0;
    double principal = 0.0;
    double balance = 0.0;    ///< still owed after it
};

/// The payments of one money year together.
struct LoanYear {
    double interest = 0.0;
    double principal = 0.0;
    double balance = 0.0;    ///< owed at the year's end
};

struct LoanSchedule {
    std::vector<LoanPayment> payments{};
    std::vector<LoanYear> years{};  ///< money years up to that of the last payment
};

/// Every payment of `loan`: interest alone at first where agreed, then level payments, at rate / payments a year, in
/// the named months or in all twelve. The same as a history of the season pays, to the bit.
/// \param loan balance owed on the first day of the money year [money]; rate a year; years left
/// \param books_month month in which the money year begins, 1 = January
/// \throws std::invalid_argument unless balance and rate are 0 or more, the years left are above 0, and the months
/// are 1 to 12, all of it finite
LoanSchedule loan_schedule(const Loan<double>& loan, unsigned books_month);

}  // namespace seasonrisk
