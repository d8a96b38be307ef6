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
    work.crew = CrewState{};

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
    gear.rotation_slots = rotation_groups(fishery.count, work.rates.one_over_hauls);
    weigh_rotation(gear, work.rates.one_over_hauls);
    gear.still_setting = ready.sets_gear;
    if (ready.sets_gear) {
        for (int i = 0; i < k_lanes; ++i) gear.in_water[i] = fishery.setting_days[i] > 0.0 ? 0.0 : fishery.count[i];
    }
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        work.species[k].fish.caught = Lanes(0.0);
        work.species[k].soak.factor = Lanes(1.0);
        if (ready.soaks[k]) set_all_today(work.species[k].soak, Lanes(1.0), gear.rotation_slots);
    }
}

/// The week is what the year's totals have grown by since the last one was closed.
SEASONRISK_STEP WeekFigures close_the_week(Workspace& work) {
    CrewState& before = work.crew;
    const Rates& rates = work.rates;
    WeekFigures week;
    for (int i = 0; i < k_lanes; ++i) {
        const double hauls = work.day.hauls[i] - before.hauls_before[i];
        week.days_out[i] = work.day.days_fished[i] - before.days_out_before[i];
        week.sales[i] = work.earned.sales[i] - before.sales_before[i];
        week.fuel_and_bait[i] = week.days_out[i] * rates.fuel_a_day_out[i] + hauls * rates.trip_a_haul[i];
    }
    before = {work.earned.sales, work.day.hauls, work.day.days_fished};
    return week;
}

/// Sunday ends the week: every hand is paid on the week's own figures.
SEASONRISK_STEP void pay_the_crew(Workspace& work) {
    const auto& crew = work.plan.boat[0].crew;
    if (crew.empty()) return;
    const WeekFigures week = close_the_week(work);
    for (std::size_t hand = 0; hand < crew.size(); ++hand) {
        Lanes due;
        find_week_pay(week, crew[hand].pay, crew[hand].pay == PayKind::day_wage ? *crew[hand].per_day : *crew[hand].share_fraction, due);
        add(work.hand_pay[hand], due);
        add(work.earned.crew_pay, due);
        pay(work.cash, due);
    }
}

/// Money that falls due today, the month's bills on its last day, and interest on what is overdrawn.
SEASONRISK_STEP void move_the_cash(const PreparedPlan& ready, Workspace& work, const Day& day, int today) {
    CashBook& cash = work.cash;
    if (day.last_of_month) pay(cash, work.bills.out[day.money_month]);
    if (ready.overdraft_costs) receive_money_and_accrue(cash, today, work.rates.overdraft_a_day);
    else receive_money(cash, today);
    if (!day.last_of_month) return;
    if (ready.overdraft_costs) charge_overdraft(cash, work.earned);
    close_month(cash, day.money_month, work.plan.business.overdraft_limit);
}

/// What was not added up day by day follows from days out, hauls, sales and pots lost.
SEASONRISK_STEP void total_the_year(const PreparedPlan& ready, Workspace& work) {
    const Rates& rates = work.rates;
    const DayState& day = work.day;
    EarnedBook& book = work.earned;
    const double days_meant = ready.calendar.season_days - ready.calendar.rest_days - ready.calendar.days_off;
    const Lanes& levy = work.plan.prices.levy_fraction;
    const Lanes& cost_per_unit = work.plan.outlet[0].cost_per_unit;
    for (int i = 0; i < k_lanes; ++i) {
        book.fuel[i] = day.days_fished[i] * rates.fuel_a_day_out[i] + day.hauls[i] * rates.fuel_a_haul[i];
        book.bait[i] = day.hauls[i] * rates.bait_a_haul[i];
        book.day_costs[i] = day.days_fished[i] * rates.costs_a_day_out[i];
        book.selling_costs[i] = levy[i] * book.sales[i] + cost_per_unit[i] * day.units[i];
        work.day.days_weather[i] = days_meant - day.days_fished[i] - day.days_broken_down[i];
    }
    if (!ready.loses_gear) return;
    const Lanes& pot_cost = work.plan.boat[0].gear_loss->pot_cost;
    for (int i = 0; i < k_lanes; ++i) {
        book.pots_lost_cost[i] = work.gear.lost[i] * pot_cost[i];
        work.cash.owed_by_us[i] += ready.pots_dwindle ? book.pots_lost_cost[i] : 0.0;
    }
}

SEASONRISK_STEP void close_the_books(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    CashBook& cash = work.cash;
    total_the_year(ready, work);
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
