// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/books_year.hpp"
#include "seasonrisk/season/loans.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// What falls due at a money year's month ends whatever the season does, laid out before its first day.
namespace seasonrisk {

/// A bill of a boat stands in her own part of the books too.
SEASONRISK_STEP void lay_out_bill(Workspace& work, const Standing<Lanes>& bill, BooksYear books, const Lanes& pots, BoatYear* whose = nullptr) {
    Lanes amount = bill.amount ? *bill.amount : *bill.amount_per_pot;
    SEASONRISK_EACH_LANE amount[i] *= (bill.amount ? 1.0 : pots[i]) * work.growth.costs[i];
    for (unsigned month = 1; month <= 12; ++month) {
        if (!bill.every_month && month != bill.month) continue;
        add(work.cash.due[books.month(month)], amount);
        add(work.earned.standing_costs, amount);
        if (whose != nullptr) add(whose->standing_costs, amount);
    }
}

SEASONRISK_STEP void lay_out_input(Workspace& work, std::size_t n, BooksYear books, const Lanes& pots) {
    const Input<Lanes>& input = work.plan.input[n];
    Lanes& left = work.input[n].left;
    Lanes cost = input.quantity ? *input.quantity : *input.quantity_per_pot;
    SEASONRISK_EACH_LANE {
        if (!input.quantity) cost[i] *= pots[i];
        left[i] = cost[i] * (1.0 - input.spoil_fraction[i]);
        cost[i] *= input.unit_cost[i] * work.growth.costs[i];
    }
    add(work.cash.due[books.month(input.pay_month)], cost);
    add(work.earned.inputs, cost);
}

SEASONRISK_STEP void lay_out_household(Workspace& work, BooksYear books) {
    const auto& household = work.plan.household;
    for (unsigned step = 0; step < 12; ++step) {
        const auto month = static_cast<std::size_t>((books.books_month - 1 + step) % 12);
        Lanes& due = work.cash.due[books.first + step];
        if (const auto& draw = household.draw_per_month.by_month[month]) {
            SEASONRISK_EACH_LANE {
                const double amount = (*draw)[i] * work.growth.costs[i];
                work.earned.draw[i] += amount;
                due[i] += amount;
            }
        }
        if (const auto& income = household.other_income_per_month.by_month[month]) {
            SEASONRISK_EACH_LANE {
                const double amount = (*income)[i] * work.growth.wages[i];
                work.earned.other_income[i] += amount;
                due[i] -= amount;
            }
        }
        if (const auto& hours = household.hours.by_month[month]) add(work.hours, *hours);
    }
}

/// An asset is paid from the account at the end of the month in which it is bought; what was bought before is there.
SEASONRISK_STEP void lay_out_assets(Workspace& work, const Calendar& calendar) {
    for (const Asset<Lanes>& asset : work.plan.asset) {
        for (const Day& day : calendar.days) {
            if (day.date == *asset.bought) add(work.cash.due[static_cast<std::size_t>(day.money_month)], asset.cost);
        }
    }
}

/// Pots that bills, inputs and the hours of preparing are counted by: those of the boat's first pot fishery, for the
/// same pots may serve another.
SEASONRISK_STEP Lanes pots_of(const Boat<Lanes>& boat) {
    for (const Fishery<Lanes>& fishery : boat.fishery) {
        if (fishery.gear == Gear::pots) return fishery.count;
    }
    return Lanes(0.0);
}

SEASONRISK_STEP void lay_out_dues(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar) {
    const BooksYear books = books_year(calendar);
    Lanes all_pots(0.0);
    for (const auto& boat : work.plan.boat) add(all_pots, pots_of(boat));
    for (const auto& bill : work.plan.standing) lay_out_bill(work, bill, books, all_pots);
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        const auto& boat = work.plan.boat[b];
        BoatYear& hers = work.boat[b].year;
        const Lanes pots = pots_of(boat);
        for (const auto& bill : boat.standing) lay_out_bill(work, bill, books, pots, &hers);
        if (boat.insurance) {
            SEASONRISK_EACH_LANE {
                const double premium = boat.insurance->premium[i] * work.growth.costs[i];
                work.cash.due[books.month(boat.insurance->pay_month)][i] += premium;
                work.earned.standing_costs[i] += premium;
                hers.standing_costs[i] += premium;
            }
        }
        if (boat.gear_loss) {
            SEASONRISK_EACH_LANE work.hours[i] += boat.gear_loss->prepare_hours_per_pot[i] * pots[i];
        }
        if (calendar.year != 0) continue;
        for (const auto& spare : boat.spare) {
            add(work.cash.due[books.first], spare.cost);
            add(work.earned.inputs, spare.cost);
            add(hers.inputs, spare.cost);
        }
    }
    if (calendar.year == 0) {
        add(work.cash.due[books.first], work.plan.business.spend_now);
        add(work.earned.inputs, work.plan.business.spend_now);
    }
    for (std::size_t n = 0; n < work.plan.input.size(); ++n) lay_out_input(work, n, books, all_pots);
    for (std::size_t n = 0; n < work.plan.loan.size(); ++n) lay_out_loan(ready, work, n, at_batch, calendar);
    lay_out_household(work, books);
    lay_out_assets(work, calendar);
}

/// What stopping before the season's end costs and saves; it happens on the last day of fishing.
SEASONRISK_STEP void settle_early_stop(Workspace& work, BatchAddress at_batch, const Calendar& calendar) {
    if (calendar.stop >= calendar.season_end) return;
    const auto& ending = work.plan.ending;
    const auto days = static_cast<double>((calendar.season_end - calendar.stop).count());
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        const auto& boat = work.plan.boat[b];
        bool has_come = false;
        for (const FisheryWork& fishery : work.boat[b].fishery) has_come = has_come || fishery.worked_before;
        if (!has_come) continue;
        Lanes leaves(0.0);
        if (!boat.crew.empty()) {
            const Lanes uniforms = uniforms_at(at_batch.draw, at_batch.key,
                                               in_year(calendar.season_year, Purpose::crew_leaves, {static_cast<std::uint32_t>(b)}), at_batch.first_history);
            SEASONRISK_EACH_LANE leaves[i] = uniforms[i] < ending.crew_leaves_odds[i] ? ending.rehire_cost[i] : 0.0;
        }
        add(work.earned.rehire, leaves);
        add(work.boat[b].year.rehire, leaves);
        pay(work.cash, leaves);
        for (std::size_t hand = 0; hand < boat.crew.size(); ++hand) {
            if (boat.crew[hand].pay != PayKind::day_wage) continue;
            SEASONRISK_EACH_LANE {
                const double notice = ending.crew_notice_days[i] * work.boat[b].hand[hand].rate[i];
                work.boat[b].hand[hand].pay[i] += notice;
                work.boat[b].year.crew_pay[i] += notice;
                work.earned.crew_pay[i] += notice;
                work.cash.balance[i] -= notice;
            }
        }
    }
    SEASONRISK_EACH_LANE {
        const double standing = ending.yard_change_fee[i] - ending.lay_up_refund_per_day[i] * days;
        work.earned.standing_costs[i] += standing;
        work.cash.balance[i] -= standing;
    }
    for (const Day& day : calendar.days) {
        if (day.date <= calendar.stop || day.date > calendar.season_end) continue;
        Lanes& due = work.cash.due[static_cast<std::size_t>(day.money_month)];
        SEASONRISK_EACH_LANE {
            const double earned = ending.shore_job_per_week[i] / 7.0;
            work.earned.other_income[i] += earned;
            due[i] -= earned;
        }
    }
}

}  // namespace seasonrisk
