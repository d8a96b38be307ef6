// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/bills.hpp"
#include "seasonrisk/season/books_year.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// Loans: what each asks for in a money year, laid out before its first day.
namespace seasonrisk {

/// A payment clears what is owed over the payments left, after those of interest alone.
SEASONRISK_STEP void settle_level(LoanWork& state, double per_year) {
    SEASONRISK_EACH_LANE {
        const double alone = state.interest_only[i] > state.payments_made[i] ? state.interest_only[i] - state.payments_made[i] : 0.0;
        const double level_payments = state.payments_left[i] - alone;
        state.level[i] = level_payment(state.owed[i], state.rate[i] / per_year, level_payments < 1.0 ? 1.0 : level_payments);
    }
}

SEASONRISK_STEP void open_loan(LoanWork& state, const Loan<Lanes>& loan, double per_year) {
    state.owed = loan.balance;
    state.rate = loan.rate_fraction;
    state.payments_made = Lanes(0.0);
    SEASONRISK_EACH_LANE {
        const double payments = std::floor(loan.years_left[i] * per_year + 0.5);
        state.payments_left[i] = payments < 1.0 ? 1.0 : payments;  // the rule book keeps it there but for wild guesses
        state.interest_only[i] = std::floor(loan.interest_only_months[i] / 12.0 * per_year + 0.5);
    }
    settle_level(state, per_year);
}

/// With a new money year the rate moves, and the payment is worked out anew over what is left of the term.
SEASONRISK_STEP void move_rate(LoanWork& state, const Loan<Lanes>& loan, BatchAddress at_batch, int season_year, std::size_t n, double per_year) {
    const Lanes z = normals_at(at_batch.draw, at_batch.to_normals, at_batch.key, in_year(season_year, Purpose::loan_rate, {0, static_cast<std::uint32_t>(n)}), at_batch.first_history);
    SEASONRISK_EACH_LANE {
        const double rate = state.rate[i] + loan.rate_change_sd_per_year_fraction[i] * z[i];
        state.rate[i] = rate > 0.0 ? rate : 0.0;
    }
    settle_level(state, per_year);
}

/// Repaid early at the end of the month, after its payment, and no more than is owed. The payments afterwards are as
/// large as before, until nothing is owed.
SEASONRISK_STEP void repay_early(Workspace& work, LoanWork& state, const Loan<Lanes>& loan, BooksYear books, std::size_t month) {
    for (const Repayment<Lanes>& repayment : loan.repay) {
        if (books.month_of_history(*repayment.date) != static_cast<long>(month)) continue;
        SEASONRISK_EACH_LANE {
            const double amount = repayment.amount[i] < state.owed[i] ? repayment.amount[i] : state.owed[i];
            state.owed[i] -= amount;
            work.cash.due[month][i] += amount;
            work.earned.loan_repaid_early[i] += amount;
        }
    }
}

/// A loan's payments of the year: interest alone at first where agreed, then level, k a year at rate / k, until it
/// is paid off.
SEASONRISK_STEP void lay_out_loan(const PreparedPlan& ready, Workspace& work, std::size_t n, BatchAddress at_batch, const Calendar& calendar) {
    const Loan<Lanes>& loan = work.plan.loan[n];
    LoanWork& state = work.loan[n];
    const BooksYear books = books_year(calendar);
    const double per_year = loan.months.empty() ? 12.0 : static_cast<double>(loan.months.size());
    BoatYear* whose = nullptr;  // the boat that stands for it
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        if (work.plan.boat[b].name == loan.secured_on) whose = &work.boat[b].year;
    }
    if (books.year == 0) open_loan(state, loan, per_year);
    else if (ready.rate_moves[n]) move_rate(state, loan, at_batch, calendar.season_year, n, per_year);
    const bool may_end_early = !loan.repay.empty();
    for (unsigned step = 0; step < 12; ++step) {
        const unsigned calendar_month = (books.books_month - 1 + step) % 12 + 1;
        const std::size_t month = books.first + step;
        const bool pays = loan.months.empty() || std::ranges::find(loan.months, calendar_month) != loan.months.end();
        if (pays) {
            SEASONRISK_EACH_LANE {
                const auto [due, interest] = payment_due(state.owed[i], state.rate[i] / per_year, state.level[i], state.payments_left[i],
                                                         state.payments_made[i] < state.interest_only[i], may_end_early);
                state.owed[i] -= due - interest;
                state.payments_left[i] -= 1.0;
                state.payments_made[i] += 1.0;
                work.cash.due[month][i] += due;
                work.cash.loan_due[month][i] += due;
                work.earned.loan_payments[i] += due;
                work.earned.loan_interest[i] += interest;
                work.earned.loan_principal[i] += due - interest;
                if (whose != nullptr) whose->loan_payments[i] += due;
            }
        }
        if (may_end_early) repay_early(work, state, loan, books, month);
    }
}

}  // namespace seasonrisk
