// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// The books: opened before the first day, moved every day, closed at the end of the money year.
namespace seasonrisk {

SEASONRISK_STEP void open_the_books(const PreparedPlan& ready, Workspace& work) {
    work.earned = EarnedBook{};
    work.day = DayState{};
    work.day.days_rest = Lanes(ready.calendar.rest_days);
    work.day.days_off = Lanes(ready.calendar.days_off);
    work.day.down_until = Lanes(-1.0);
    for (BreakdownWork& kind : work.breakdown) kind.events = Lanes(0.0);
    for (Lanes& pay_of_hand : work.hand_pay) pay_of_hand = Lanes(0.0);
    open_week(work.crew);

    CashBook& cash = work.cash;
    cash.balance = work.plan.business.opening_cash;
    cash.interest_due = Lanes(0.0);
    cash.owed_by_us = Lanes(0.0);
    cash.loan_balance = Lanes(0.0);
}

/// Pots in the water, or still on the quay with the setting to do. Without setting days they were all set
/// the day before the season.
SEASONRISK_STEP void lay_out_the_gear(const PreparedPlan& ready, Workspace& work) {
    const auto& fishery = work.plan.boat[0].fishery[0];
    GearState& gear = work.gear;
    gear.lost = Lanes(0.0);
    gear.setting_days_left = fishery.setting_days;
    gear.in_water = fishery.count;
    gear.rotation_slots = rotation_groups(fishery.count, fishery.hauls_per_day);
    weigh_rotation(gear, fishery.hauls_per_day);
    gear.still_setting = ready.sets_gear;
    if (ready.sets_gear) {
        for (int i = 0; i < k_lanes; ++i) gear.in_water[i] = fishery.setting_days[i] > 0.0 ? 0.0 : fishery.count[i];
    }
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        work.species[k].fish.caught = Lanes(0.0);
        if (ready.soaks[k]) set_all_today(work.species[k].soak, Lanes(1.0), gear.rotation_slots);
    }
}

/// Sunday ends the week: every hand is paid on the week's own figures.
SEASONRISK_STEP void pay_the_crew(Workspace& work) {
    const auto& crew = work.plan.boat[0].crew;
    for (std::size_t hand = 0; hand < crew.size(); ++hand) {
        Lanes due;
        find_week_pay(work.crew, crew[hand].pay, crew[hand].pay == PayKind::day_wage ? *crew[hand].per_day : *crew[hand].share_fraction, due);
        add(work.hand_pay[hand], due);
        add(work.earned.crew_pay, due);
        pay(work.cash, due);
    }
    open_week(work.crew);
}

/// Money that falls due today, the month's bills on its last day, and interest on what is overdrawn.
SEASONRISK_STEP void move_the_cash(const PreparedPlan& ready, Workspace& work, const Day& day, int today) {
    CashBook& cash = work.cash;
    receive_money(cash, today);
    if (day.last_of_month) pay(cash, work.bills.out[day.money_month]);
    if (ready.overdraft_costs) accrue_overdraft(cash, work.rates.overdraft_a_day);
    if (!day.last_of_month) return;
    if (ready.overdraft_costs) charge_overdraft(cash, work.earned);
    close_month(cash, day.money_month, work.plan.business.overdraft_limit);
}

SEASONRISK_STEP void close_the_books(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    CashBook& cash = work.cash;
    climb_rungs(work.earned, work.plan.household.tax_fraction, work.plan.household.wear_allowance);
    cash.owed_to_us = cash.incoming.back();
    cash.incoming.back() = Lanes(0.0);
    cash.closing = cash.balance;
    for (int i = 0; i < k_lanes; ++i) {
        cash.owed_by_us[i] += work.earned.tax[i];
        cash.end_position[i] = cash.closing[i] + cash.owed_to_us[i] - cash.owed_by_us[i] - cash.loan_balance[i];
    }
    if (ready.may_be_lost) {
        const Lanes uniforms = uniforms_at(at_batch.draw, at_batch.key, in_year(ready.calendar.season_year, Purpose::total_loss), at_batch.first_history);
        const Lanes& odds = work.plan.boat[0].insurance->total_loss_odds_per_year;
        for (int i = 0; i < k_lanes; ++i) work.day.total_loss[i] = uniforms[i] < odds[i] ? 1.0 : 0.0;
    }
}

}  // namespace seasonrisk
