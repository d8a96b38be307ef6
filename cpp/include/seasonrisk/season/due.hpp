// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/season/workspace.hpp"

/// \file
/// What falls due at the money year's month ends whatever the season does, laid out before the first day.
namespace seasonrisk {

/// Add an amount to every month of the money year in which calendar month `month` (1 = January) falls.
SEASONRISK_STEP void bill_in_month(Workspace& work, unsigned month, unsigned books_month, const Lanes& amount) {
    add(work.bills.out[(month + 12u - books_month) % 12u], amount);
}

SEASONRISK_STEP void lay_out_bill(Workspace& work, const Standing<Lanes>& bill, unsigned books_month) {
    Lanes amount = bill.amount ? *bill.amount : *bill.amount_per_pot;
    if (!bill.amount) {
        for (int i = 0; i < k_lanes; ++i) amount[i] *= work.plan.boat[0].fishery[0].count[i];
    }
    for (unsigned month = 1; month <= 12; ++month) {
        if (!bill.every_month && month != bill.month) continue;
        bill_in_month(work, month, books_month, amount);
        add(work.earned.standing_costs, amount);
    }
}

SEASONRISK_STEP void lay_out_input(Workspace& work, const Input<Lanes>& input, unsigned books_month) {
    Lanes cost = input.quantity ? *input.quantity : *input.quantity_per_pot;
    for (int i = 0; i < k_lanes; ++i) {
        if (!input.quantity) cost[i] *= work.plan.boat[0].fishery[0].count[i];
        cost[i] *= input.unit_cost[i];
    }
    bill_in_month(work, input.pay_month, books_month, cost);
    add(work.earned.inputs, cost);
}

/// A loan's payments of the year: level, k a year at rate / k, until it is paid off.
SEASONRISK_STEP void lay_out_loan(Workspace& work, const Loan<Lanes>& loan, unsigned books_month) {
    const double per_year = loan.months.empty() ? 12.0 : static_cast<double>(loan.months.size());
    Lanes owed = loan.balance;
    Lanes level, rate, payments_left;
    for (int i = 0; i < k_lanes; ++i) {
        rate[i] = loan.rate_fraction[i] / per_year;
        const double payments = std::floor(loan.years_left[i] * per_year + 0.5);
        payments_left[i] = payments < 1.0 ? 1.0 : payments;  // the rule book keeps it there but for wild guesses
        level[i] = level_payment(owed[i], rate[i], payments_left[i]);
    }
    for (unsigned step = 0; step < 12; ++step) {
        const unsigned month = (books_month - 1 + step) % 12 + 1;
        if (!loan.months.empty() && std::ranges::find(loan.months, month) == loan.months.end()) continue;
        for (int i = 0; i < k_lanes; ++i) {
            const double due = payments_left[i] > 0.0 ? level[i] : 0.0;
            const double interest = payments_left[i] > 0.0 ? owed[i] * rate[i] : 0.0;
            owed[i] -= due - interest;
            payments_left[i] -= 1.0;
            work.bills.out[step][i] += due;
            work.earned.loan_payments[i] += due;
            work.earned.loan_interest[i] += interest;
        }
    }
    add(work.cash.loan_balance, owed);
}

SEASONRISK_STEP void lay_out_household(Workspace& work, unsigned books_month) {
    const auto& household = work.plan.household;
    for (unsigned step = 0; step < 12; ++step) {
        const auto month = static_cast<std::size_t>((books_month - 1 + step) % 12);
        if (const auto& draw = household.draw_per_month.by_month[month]) {
            add(work.earned.draw, *draw);
            add(work.bills.out[step], *draw);
        }
        if (const auto& income = household.other_income_per_month.by_month[month]) {
            add(work.earned.other_income, *income);
            for (int i = 0; i < k_lanes; ++i) work.bills.out[step][i] -= (*income)[i];
        }
    }
}

SEASONRISK_STEP void lay_out_dues(const PreparedPlan& ready, Workspace& work) {
    const auto books_month = static_cast<unsigned>(std::chrono::year_month_day{ready.calendar.books_start}.month());
    const auto& boat = work.plan.boat[0];
    for (Lanes& month : work.bills.out) month = Lanes(0.0);
    for (const auto& bill : work.plan.standing) lay_out_bill(work, bill, books_month);
    for (const auto& bill : boat.standing) lay_out_bill(work, bill, books_month);
    if (boat.insurance) {
        bill_in_month(work, boat.insurance->pay_month, books_month, boat.insurance->premium);
        add(work.earned.standing_costs, boat.insurance->premium);
    }
    for (const auto& input : work.plan.input) lay_out_input(work, input, books_month);
    for (const auto& loan : work.plan.loan) lay_out_loan(work, loan, books_month);
    lay_out_household(work, books_month);
}

}  // namespace seasonrisk
