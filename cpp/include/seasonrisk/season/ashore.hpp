// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// The account: opened before the first day, moved every day; the crew is paid for every week.
namespace seasonrisk {

SEASONRISK_STEP void open_the_books(Workspace& work) {
    CashBook& cash = work.cash;
    cash.balance = work.plan.business.opening_cash;
    cash.interest_due = Lanes(0.0);
    cash.last_incoming = -1;
    cash.loan_balance = Lanes(0.0);
    cash.pots_to_replace = Lanes(0.0);
    cash.loss_forward = Lanes(0.0);
    for (std::vector<Lanes>* months : {&cash.due, &cash.loan_due}) {
        for (Lanes& month : *months) month = Lanes(0.0);
    }
    work.owner.laid_up_until = Lanes(-1.0);
    work.owner.busy_until = Lanes(-1.0);
    for (BoatWork& boat : work.boat) {
        boat.down_until = Lanes(-1.0);
        boat.gap_until = Lanes(-1.0);
    }
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        for (std::size_t kind = 0; kind < work.boat[b].breakdown.size(); ++kind) {
            BreakdownWork& state = work.boat[b].breakdown[kind];
            state.hours = work.plan.boat[b].breakdown[kind].hours;
            state.days_saved = Lanes(0.0);
            for (const auto& spare : work.plan.boat[b].spare) {
                if (spare.for_kind == work.plan.boat[b].breakdown[kind].kind) add(state.days_saved, spare.days_saved);
            }
        }
    }
    work.hours_so_far = Lanes(0.0);
    work.loan_so_far = Lanes(0.0);
    work.store_holds = false;
    for (GoodWork& good : work.goods) {
        good.held = Lanes(0.0);
        for (std::vector<Lanes>& cohort : good.kept) {
            for (Lanes& part : cohort) part = Lanes(0.0);
        }
    }
}

/// A new money year: everything that is counted by the year begins again; what it carries over is left alone.
SEASONRISK_STEP void open_the_year(Workspace& work, const Calendar& calendar) {
    work.earned = EarnedBook{};
    work.all_ashore = false;
    work.mishaps_until = calendar.first_today;
    for (Lanes* total : {&work.bad_weather_days, &work.days_both, &work.claims_paid, &work.hours}) *total = Lanes(0.0);
    for (BoatWork& boat : work.boat) {
        boat.year = BoatYear{};
        boat.year.days_rest = Lanes(calendar.rest_days);
        boat.year.days_off = Lanes(calendar.days_off);
        boat.week = WeekBefore{};
        boat.tried = false;
        for (HandWork& hand : boat.hand) hand.pay = hand.days_missed = hand.days_missed_before = Lanes(0.0);
        for (BreakdownWork& kind : boat.breakdown) kind.events = Lanes(0.0);
        for (BoatSpecies& species : boat.species) species.caught = Lanes(0.0);
        for (FisheryWork& fishery : boat.fishery) {
            fishery.worked_before = false;
            fishery.take_dates(static_cast<std::size_t>(calendar.year));
            fishery.gear.lost = fishery.gear.lifted = fishery.gear.in_water = fishery.gear.hauls_today = Lanes(0.0);
            fishery.gear.gear_in_days_left = Lanes(0.0);
        }
    }
    for (GoodWork& good : work.goods) good.died = good.forced = good.unsold = Lanes(0.0);
    for (OutletWork& outlet : work.outlet) {
        outlet.open_days = outlet.unpaid_week = Lanes(0.0);
        for (Lanes& sold : outlet.sold) sold = Lanes(0.0);
    }
    for (OrderWork& order : work.order) {
        order.state = Lanes(1.0);
        order.ordered = order.delivered = order.short_of = order.last_ordered = Lanes(0.0);
        order.week = {};
        order.weeks_due = order.weeks_kept = order.kept_this_week = Lanes(0.0);
    }
    for (LimitWork& limit : work.limit) limit.landed = limit.reached = limit.reached_today = Lanes(0.0);
    for (Lanes& date : work.family) date = Lanes(0.0);
    work.cash.missed_payments = Lanes(0.0);
    pay(work.cash, work.cash.pots_to_replace);
    work.cash.pots_to_replace = Lanes(0.0);
}

/// The week is what the year's totals of the boat have grown by since the last one was closed.
SEASONRISK_STEP WeekFigures close_the_week(const PreparedPlan& ready, const Workspace& work, BoatWork& boat) {
    WeekBefore& before = boat.week;
    const BoatYear& year = boat.year;
    const BoatRates& rates = boat.rates;
    const Lanes& days_out = boat.prepared->more_causes ? year.days_out : year.days_fished;
    WeekFigures week;
    SEASONRISK_EACH_LANE {
        const double hauls = year.hauls[i] - before.hauls[i];
        week.days_out[i] = days_out[i] - before.days_out[i];
        week.sales[i] = year.sales[i] - before.sales[i];
        week.fuel_and_bait[i] = week.days_out[i] * rates.fuel_a_day_out[i] + hauls * rates.trip_a_haul[i];
    }
    if (ready.gear_in) {
        SEASONRISK_EACH_LANE week.fuel_and_bait[i] -= (year.hauls_without_bait[i] - before.hauls_without_bait[i]) * rates.bait_a_haul[i];
    }
    if (ready.turns_back) {
        SEASONRISK_EACH_LANE
            week.fuel_and_bait[i] += (year.days_weather[i] - before.days_weather[i]) * work.plan.weather.turned_back_fraction[i] * rates.fuel_a_day_out[i];
    }
    before.sales = year.sales;
    before.hauls = year.hauls;
    before.days_out = days_out;
    if (ready.gear_in) before.hauls_without_bait = year.hauls_without_bait;
    if (ready.turns_back) before.days_weather = year.days_weather;
    return week;
}

/// Sunday ends the week: every hand is paid on the week's own figures. Nothing is owed for a week without work.
SEASONRISK_STEP void pay_the_crew(const PreparedPlan& ready, Workspace& work) {
    if (!work.worked_this_week) return;
    work.worked_this_week = false;
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        const auto& crew = work.plan.boat[b].crew;
        BoatWork& boat = work.boat[b];
        if (crew.empty()) continue;
        const WeekFigures week = close_the_week(ready, work, boat);
        for (std::size_t hand = 0; hand < crew.size(); ++hand) {
            HandWork& state = boat.hand[hand];
            Lanes due;
            if (ready.boat[b].hands_miss && crew[hand].pay == PayKind::day_wage) {
                WeekFigures present = week;
                SEASONRISK_EACH_LANE present.days_out[i] -= state.days_missed[i] - state.days_missed_before[i];
                state.days_missed_before = state.days_missed;
                find_week_pay(present, crew[hand].pay, state.rate, due);
            } else {
                find_week_pay(week, crew[hand].pay, state.rate, due);
            }
            add(state.pay, due);
            add(boat.year.crew_pay, due);
            add(work.earned.crew_pay, due);
            pay(work.cash, due);
        }
    }
}

/// Money that falls due today, the month's bills on its last day, and interest on what is overdrawn.
SEASONRISK_STEP void move_the_cash(const PreparedPlan& ready, Workspace& work, const Day& day, int today) {
    CashBook& cash = work.cash;
    if (day.last_of_month) pay(cash, cash.due[static_cast<std::size_t>(day.money_month)]);
    if (today > cash.last_incoming) {
        if (ready.overdraft_costs) accrue(cash, work.overdraft_a_day);
    } else if (ready.overdraft_costs) {
        receive_money_and_accrue(cash, today, work.overdraft_a_day);
    } else {
        receive_money(cash, today);
    }
    if (!day.last_of_month) return;
    if (ready.overdraft_costs) charge_overdraft(cash, work.earned);
    close_month(cash, day.money_month, work.plan.business.overdraft_limit);
}

}  // namespace seasonrisk
