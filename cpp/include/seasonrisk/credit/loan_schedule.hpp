// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "seasonrisk/plan/plan.hpp"

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
    double repaid_early = 0.0;  ///< beside the payments
    double balance = 0.0;       ///< owed at the year's end
};

struct LoanSchedule {
    std::vector<LoanPayment> payments{};
    std::vector<LoanYear> years{};  ///< money years up to that of the last payment
};

/// Every payment of `loan`: interest alone at first where agreed, then level payments, at rate / payments a year, in
/// the named months or in all twelve, until nothing is owed. An early repayment is made at the end of its month and
/// leaves the payments as large as they were. The same as a history of the season pays while the rate does not move.
/// \param loan balance owed on the first day of the money year [money]; rate a year; years left
/// \param books_start first day of the first money year
/// \throws std::invalid_argument unless balance and rate are 0 or more, the years left are above 0, and the months
/// are 1 to 12, all of it finite
LoanSchedule loan_schedule(const Loan<double>& loan, Date books_start);

/// Of every loan of a plan, in its order; of a guess the typical value.
std::vector<LoanSchedule> loan_schedules(const Plan& plan);

}  // namespace seasonrisk
