// SPDX-License-Identifier: MIT
#include "seasonrisk/credit/loan_schedule.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <stdexcept>
#include <string>

#include "seasonrisk/season/bills.hpp"
#include "seasonrisk/season/calendar.hpp"

namespace seasonrisk {
namespace {

void check_loan(const Loan<double>& loan) {
    const auto check = [](const char* name, double value, bool sound, const char* allowed) {
        if (!std::isfinite(value) || !sound) throw std::invalid_argument(std::string(name) + "=" + std::to_string(value) + ": must be " + allowed);
    };
    check("balance", loan.balance, loan.balance >= 0.0, "0 or more");
    check("rate_fraction", loan.rate_fraction, loan.rate_fraction >= 0.0, "0 or more");
    check("years_left", loan.years_left, loan.years_left > 0.0 && loan.years_left <= 60.0, "above 0 and at most 60");
    check("interest_only_months", loan.interest_only_months, loan.interest_only_months >= 0.0, "0 or more");
    for (const Repayment<double>& repayment : loan.repay) check("repay.amount", repayment.amount, repayment.amount >= 0.0 && repayment.date, "0 or more, with a date");
    for (const unsigned month : loan.months) check("months", month, month >= 1 && month <= 12, "from 1 to 12");
}

/// Month of the account in which a day falls, 0 first.
int month_of_books(Date day, Date books_start) {
    const std::chrono::year_month_day then{day}, start{books_start};
    return static_cast<int>((then.year() / then.month() - start.year() / start.month()).count());
}

Loan<double> typical_of(const Loan<Number>& loan) {
    Loan<double> typical;
    typical.balance = loan.balance.typical;
    typical.rate_fraction = loan.rate_fraction.typical;
    typical.years_left = loan.years_left.typical;
    typical.interest_only_months = loan.interest_only_months.typical;
    typical.months = loan.months;
    for (const Repayment<Number>& repayment : loan.repay) typical.repay.push_back({repayment.date, repayment.amount.typical});
    return typical;
}

}  // namespace

LoanSchedule loan_schedule(const Loan<double>& loan, Date books_start) {
    check_loan(loan);
    const auto books_month = static_cast<unsigned>(std::chrono::year_month_day{books_start}.month());
    const double per_year = loan.months.empty() ? 12.0 : static_cast<double>(loan.months.size());
    const double rate = loan.rate_fraction / per_year;
    const double interest_only = std::floor(loan.interest_only_months / 12.0 * per_year + 0.5);
    const double payments = std::max(1.0, std::floor(loan.years_left * per_year + 0.5));
    const double level = level_payment(loan.balance, rate, std::max(1.0, payments - interest_only));

    LoanSchedule schedule;
    double owed = loan.balance;
    const double settled = 1e-9 * loan.balance;  // what rounding may leave when a loan is paid off early
    for (int month = 0; static_cast<double>(schedule.payments.size()) < payments && (schedule.payments.empty() || owed > settled); ++month) {
        if (month % 12 == 0) schedule.years.push_back({.balance = owed});
        LoanYear& year = schedule.years.back();
        const unsigned of_year = (books_month - 1 + static_cast<unsigned>(month)) % 12 + 1;
        if (loan.months.empty() || std::ranges::find(loan.months, of_year) != loan.months.end()) {
            const auto made = static_cast<double>(schedule.payments.size());
            const PaymentDue payment = payment_due(owed, rate, level, payments - made, made < interest_only, !loan.repay.empty());
            const double principal = payment.due - payment.interest;
            owed -= principal;
            schedule.payments.push_back({month, payment.interest, principal, owed});
            year.interest += payment.interest;
            year.principal += principal;
        }
        for (const Repayment<double>& repayment : loan.repay) {
            if (month_of_books(*repayment.date, books_start) != month) continue;
            const double amount = std::min(repayment.amount, owed);
            owed -= amount;
            year.repaid_early += amount;
        }
        year.balance = owed;
    }
    return schedule;
}

std::vector<LoanSchedule> loan_schedules(const Plan& plan) {
    const Date books_start = plan.business.books_start.value_or(default_books_start(*plan.season.start));
    std::vector<LoanSchedule> schedules;
    for (const Loan<Number>& loan : plan.loan) schedules.push_back(loan_schedule(typical_of(loan), books_start));
    return schedules;
}

}  // namespace seasonrisk
