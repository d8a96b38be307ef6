// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "seasonrisk/math/lanes.hpp"

/// \file
/// Two books: what is earned and owed when it happens (the rungs), and cash when it moves.
namespace seasonrisk {

/// Earned: totals of the year.
struct EarnedBook {
    Lanes sales, fuel, bait, day_costs, selling_costs, order_shortfalls, repairs, claims, pots_lost_cost, crew_pay;
    Lanes quota_lease, switch_costs, missed_settlements, rehire;
    Lanes standing_costs, inputs, loan_payments, loan_interest, loan_principal, loan_repaid_early, overdraft_interest, tax, draw, other_income;
    Lanes running, standing, loan, household;
};

/// Cash: the account day by day, over all years of a history.
struct CashBook {
    Lanes balance;
    Lanes interest_due;          ///< accrued on overdrawn days, charged on the month's last day
    std::vector<Lanes> due{};    ///< [month] bills, loan payments, tax and draw less other income, paid on its last day
    std::vector<Lanes> loan_due{};   ///< [month] loan payments among them
    std::vector<Lanes> month_end{};
    Lanes lowest, lowest_month, room;
    Lanes missed_payments;       ///< month ends of this year beyond the overdraft at which a loan payment falls due
    std::vector<Lanes> lowest_of_year{}, shortfall_of_year{}, loan_balance_of_year{};  ///< [year of the history]
    Lanes shortfall;             ///< how far the lowest month end of all lies beyond the overdraft
    Lanes end_position, owed_to_us, owed_by_us, loan_balance, assets;
    Lanes pots_to_replace;       ///< money for pots that are replaced next season
    Lanes loss_forward;          ///< loss brought forward for the tax
    std::vector<Lanes> incoming{};  ///< [day of the history] money that falls due; the last row: after it
    int last_incoming = -1;         ///< last row that may hold any
};

/// Row of `incoming` for money due `delay_days` after `today`. Compared as doubles: a guessed delay can, once in
/// a great while, be longer than an int counts.
SEASONRISK_STEP int row_of(CashBook& cash, int today, double delay_days) {
    const int after = static_cast<int>(cash.incoming.size()) - 1;
    const double due = today + delay_days;
    const int row = due < after ? static_cast<int>(due) : after;
    cash.last_incoming = row > cash.last_incoming ? row : cash.last_incoming;
    return row;
}

/// Money of `amount` arrives `delay_days` after day `today` of the history.
SEASONRISK_STEP void expect_money(CashBook& cash, const Lanes& amount, int today, const Lanes& delay_days) {
    SEASONRISK_EACH_LANE {
        cash.incoming[static_cast<std::size_t>(row_of(cash, today, delay_days[i]))][i] += amount[i];
    }
}

/// The same where every history has the same delay.
SEASONRISK_STEP void expect_money(CashBook& cash, const Lanes& amount, int today, int delay_days) {
    Lanes& row = cash.incoming[static_cast<std::size_t>(row_of(cash, today, delay_days))];
    SEASONRISK_EACH_LANE row[i] += amount[i];
}

/// What falls due today comes in, and the row is ready for the next batch.
SEASONRISK_STEP void receive_money(CashBook& cash, int today) {
    Lanes& row = cash.incoming[static_cast<std::size_t>(today)];
    SEASONRISK_EACH_LANE {
        cash.balance[i] += row[i];
        row[i] = 0.0;
    }
}

SEASONRISK_STEP void pay(CashBook& cash, const Lanes& amount) {
    SEASONRISK_EACH_LANE cash.balance[i] -= amount[i];
}

SEASONRISK_STEP void add(Lanes& total, const Lanes& amount) {
    SEASONRISK_EACH_LANE total[i] += amount[i];
}

/// A day's interest on a balance that stays below zero, when nothing comes in.
SEASONRISK_STEP void accrue(CashBook& cash, const Lanes& rate_a_day) {
    SEASONRISK_EACH_LANE cash.interest_due[i] += cash.balance[i] < 0.0 ? -cash.balance[i] * rate_a_day[i] : 0.0;
}

/// What falls due today comes in, and a day's interest on a balance that stays below zero.
SEASONRISK_STEP void receive_money_and_accrue(CashBook& cash, int today, const Lanes& rate_a_day) {
    Lanes& row = cash.incoming[static_cast<std::size_t>(today)];
    SEASONRISK_EACH_LANE {
        const double balance = cash.balance[i] + row[i];
        row[i] = 0.0;
        cash.balance[i] = balance;
        // Overdrawn or nothing, then the rate: with the product inside the choice g++ makes a branch of it.
        cash.interest_due[i] += (balance < 0.0 ? -balance : 0.0) * rate_a_day[i];
    }
}

SEASONRISK_STEP void charge_overdraft(CashBook& cash, EarnedBook& earned) {
    SEASONRISK_EACH_LANE {
        cash.balance[i] -= cash.interest_due[i];
        earned.overdraft_interest[i] += cash.interest_due[i];
        cash.interest_due[i] = 0.0;
    }
}

/// Note the month end: the path, the lowest of it, and how far above the overdraft's end it was.
SEASONRISK_STEP void close_month(CashBook& cash, int money_month, const Lanes& overdraft_limit) {
    cash.month_end[static_cast<std::size_t>(money_month)] = cash.balance;
    SEASONRISK_EACH_LANE {
        const double room = cash.balance[i] + overdraft_limit[i];
        const bool lower = money_month == 0 || cash.balance[i] < cash.lowest[i];
        cash.lowest[i] = lower ? cash.balance[i] : cash.lowest[i];
        cash.lowest_month[i] = lower ? static_cast<double>(money_month) : cash.lowest_month[i];
        cash.room[i] = money_month == 0 || room < cash.room[i] ? room : cash.room[i];
    }
    const Lanes& loan_due = cash.loan_due[static_cast<std::size_t>(money_month)];
    Lanes& lowest = cash.lowest_of_year[static_cast<std::size_t>(money_month / 12)];
    Lanes& shortfall = cash.shortfall_of_year[static_cast<std::size_t>(money_month / 12)];
    const bool first_of_year = money_month % 12 == 0;
    SEASONRISK_EACH_LANE {
        const double beyond = -cash.balance[i] - overdraft_limit[i];
        cash.missed_payments[i] += beyond > 0.0 && loan_due[i] > 0.0 ? 1.0 : 0.0;
        lowest[i] = first_of_year || cash.balance[i] < lowest[i] ? cash.balance[i] : lowest[i];
        const double so_far = first_of_year ? 0.0 : shortfall[i];
        shortfall[i] = beyond > so_far ? beyond : so_far;
    }
}

/// The four rungs, from the totals of the year. `loss_forward` comes in with what earlier years lost before tax.
SEASONRISK_STEP void climb_rungs(EarnedBook& book, const Lanes& tax_fraction, const Lanes& wear_allowance, Lanes& loss_forward) {
    SEASONRISK_EACH_LANE {
        const double running_costs = book.fuel[i] + book.bait[i] + book.day_costs[i] + book.crew_pay[i] + book.selling_costs[i]
                                   + book.order_shortfalls[i] + book.repairs[i] - book.claims[i] + book.pots_lost_cost[i]
                                   + book.quota_lease[i] + book.switch_costs[i] + book.missed_settlements[i] + book.rehire[i];
        book.running[i] = book.sales[i] - running_costs;
        book.standing[i] = book.running[i] - book.standing_costs[i] - book.inputs[i];
        book.loan[i] = book.standing[i] - book.loan_payments[i] - book.overdraft_interest[i];
        const double taxable = book.standing[i] - book.loan_interest[i] - wear_allowance[i] - loss_forward[i];
        book.tax[i] = taxable > 0.0 ? tax_fraction[i] * taxable : 0.0;
        loss_forward[i] = taxable < 0.0 ? -taxable : 0.0;
        book.household[i] = book.loan[i] - book.tax[i] - book.draw[i] + book.other_income[i];
    }
}

}  // namespace seasonrisk
