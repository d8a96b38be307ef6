// SPDX-License-Identifier: MIT
#include "seasonrisk/credit/loan_schedule.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "seasonrisk/season/bills.hpp"

namespace seasonrisk {
namespace {

void check_loan(const Loan<double>& loan, unsigned books_month) {
    const auto check = [](const char* name, double value, bool sound, const char* allowed) {
        if (!std::isfinite(value) || !sound) throw std::invalid_argument(std::string(name) + "=" + std::to_string(value) + ": must be " + allowed);
    };
    check("balance", loan.balance, loan.balance >= 0.0, "0 or more");
    check("rate_fraction", loan.rate_fraction, loan.rate_fraction >= 0.0, "0 or more");
    check("years_left", loan.years_left, loan.years_left > 0.0 && loan.years_left <= 60.0, "above 0 and at most 60");
    check("interest_only_months", loan.interest_only_months, loan.interest_only_months >= 0.0, "0 or more");
    check("books_month", books_month, books_month >= 1 && books_month <= 12, "from 1 to 12");
    for (const unsigned month : loan.months) check("months", month, month >= 1 && month <= 12, "from 1 to 12");
}

}  // namespace

LoanSchedule loan_schedule(const Loan<double>& loan, unsigned books_month) {
    check_loan(loan, books_month);
    const double per_year = loan.months.empty() ? 12.0 : static_cast<double>(loan.months.size());
    const double rate = loan.rate_fraction / per_year;
    const double interest_only = std::floor(loan.interest_only_months / 12.0 * per_year + 0.5);
    const double payments = std::max(1.0, std::floor(loan.years_left * per_year + 0.5));
    const double level = level_payment(loan.balance, rate, std::max(1.0, payments - interest_only));

    LoanSchedule schedule;
    double owed = loan.balance;
    for (int month = 0; static_cast<double>(schedule.payments.size()) < payments; ++month) {
        if (month % 12 == 0) schedule.years.push_back({0.0, 0.0, owed});
        const unsigned of_year = (books_month - 1 + static_cast<unsigned>(month)) % 12 + 1;
        if (!loan.months.empty() && std::ranges::find(loan.months, of_year) == loan.months.end()) continue;
        const auto made = static_cast<double>(schedule.payments.size());
        const double interest = owed * rate;
        const double principal = made < interest_only && made + 1.0 < payments ? 0.0 : level - interest;
        owed -= principal;
        schedule.payments.push_back({month, interest, principal, owed});
        LoanYear& year = schedule.years.back();
        year.interest += interest;
        year.principal += principal;
        year.balance = owed;
    }
    return schedule;
}

}  // namespace seasonrisk
