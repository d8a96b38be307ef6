// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/season/run_up.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// The steps of a season day, from the weather to the gear left in the water.
namespace seasonrisk {

/// Month's rates of catch and price, worked out when the month or the week's price changes.
SEASONRISK_STEP void price_the_month(Workspace& work, int month) {
    const auto& outlet = work.plan.outlet[0];
    const Rates& rates = work.rates;
    const auto& month_factor = outlet.month_factor.by_month[static_cast<std::size_t>(month)];
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        const auto& species = work.plan.species[k];
        const auto& shape = species.month_shape.by_month[static_cast<std::size_t>(month)];
        SpeciesWork& state = work.species[k];
        const Lanes& base = *state.base_price;
        for (int i = 0; i < k_lanes; ++i) {
            state.fish.per_haul_now[i] = species.per_haul[i] * (shape ? (*shape)[i] : 1.0) * rates.crowding[i]
                                       * work.plan.boat[0].catching_power[i] * state.fish.year_factor[i];
            state.price_now[i] = base[i] * (month_factor ? (*month_factor)[i] : 1.0) * work.year.price_factor[k][i] * work.market.week_factor[i];
        }
    }
}

SEASONRISK_STEP void move_weather_and_market(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day) {
    const int days_before = static_cast<int>((*ready.plan.season.start - day.date).count());
    if (word_of(day.slot) == 0 || days_before == 0) draw_four_days(ready, work, at_batch, day.slot, DrawFor::season);
    move_daily_chains(ready, work, day, days_before);
    add(work.day.bad_weather_days, work.weather.bad);
    const bool new_price = ready.price_moves_weekly && day.monday && days_before < 0;
    if (new_price) {
        step_week_price(work.market, work.plan.outlet[0].week_persistence, week_normals(at_batch, day.slot));
        find_week_factor(work.market, work.plan.outlet[0].week_sd);
    }
    if (new_price || day.first_of_month) price_the_month(work, day.month);
    if (ready.any_soak) {
        for (std::size_t k = 0; k < work.species.size(); ++k) {
            if (ready.soaks[k]) soak_a_night(work.species[k].soak, work.gear.rotation_slots);
        }
    }
}

/// Out, or not and why: the first cause that holds.
SEASONRISK_STEP void decide_who_goes_out(Workspace& work, int today) {
    DayState& day = work.day;
    for (int i = 0; i < k_lanes; ++i) {
        const double broken = day.down_until[i] >= today ? 1.0 : 0.0;
        const double weather = (1.0 - broken) * work.weather.bad[i];
        const double out = (1.0 - broken) * (1.0 - work.weather.bad[i]);
        day.broken[i] = broken;
        day.out[i] = out;
        day.days_broken_down[i] += broken;
        day.days_weather[i] += weather;
        day.days_fished[i] += out;
    }
}

/// The gear goes in, or is hauled: who hauls how many.
SEASONRISK_STEP void set_or_haul(const PreparedPlan& ready, Workspace& work) {
    DayState& day = work.day;
    GearState& gear = work.gear;
    const auto& fishery = work.plan.boat[0].fishery[0];
    day.hauling = day.out;
    if (gear.still_setting) {
        Lanes all_set;
        set_gear(gear, day.out, fishery.count, fishery.setting_days, day.setting, all_set);
        for (int i = 0; i < k_lanes; ++i) day.hauling[i] = day.out[i] - day.setting[i];
        add(day.days_setting, day.setting);
        for (std::size_t k = 0; k < work.species.size(); ++k) {
            if (ready.soaks[k]) set_all_today(work.species[k].soak, all_set, gear.rotation_slots);
        }
    }
    if (gear.still_setting || ready.pots_dwindle) weigh_rotation(gear, fishery.hauls_per_day);
    if (gear.still_setting) gear.still_setting = any_setting_left(gear);
    for (int i = 0; i < k_lanes; ++i) {
        const double most = fishery.hauls_per_day[i];
        gear.hauls_today[i] = day.hauling[i] * (gear.in_water[i] < most ? gear.in_water[i] : most);
        day.hauls[i] += gear.hauls_today[i];
    }
}

SEASONRISK_STEP void land_the_catch(const PreparedPlan& ready, Workspace& work, const Day& day) {
    const Lanes no_soak(1.0);
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        const auto& species = work.plan.species[k];
        SpeciesWork& state = work.species[k];
        if (ready.soaks[k]) find_soak_factor(state.soak, work.gear);
        const Lanes& soak = ready.soaks[k] ? state.soak.factor : no_soak;
        const int item = work.draws.boat_item[k];
        const double* boat_normals = item < 0 ? nullptr : work.draws.normals[static_cast<std::size_t>(item) * k_days_in_block + word_of(day.slot)].v;
        if (ready.ground_moves[k] || ready.boat_moves[k]) {
            catch_with_luck(state.fish, work.gear.hauls_today, soak, species.day_sd, species.boat_day_sd, boat_normals);
        } else {
            catch_without_luck(state.fish, work.gear.hauls_today, soak);
        }
        if (ready.soaks[k]) haul_and_shift(state.soak, work.day.hauling, work.gear.rotation_slots);
        add(state.fish.caught, state.fish.caught_today);
    }
}

SEASONRISK_STEP void pay_for_the_trip(Workspace& work) {
    const Rates& rates = work.rates;
    EarnedBook& book = work.earned;
    for (int i = 0; i < k_lanes; ++i) {
        const double out = work.day.out[i];
        const double hauls = work.gear.hauls_today[i];
        const double fuel = out * rates.fuel_a_day_out[i] + hauls * rates.fuel_a_haul[i];
        const double bait = hauls * rates.bait_a_haul[i];
        const double costs = out * rates.costs_a_day_out[i];
        book.fuel[i] += fuel;
        book.bait[i] += bait;
        book.day_costs[i] += costs;
        work.crew.week_fuel_and_bait[i] += fuel + bait;
        work.crew.week_days_out[i] += out;
        work.cash.balance[i] -= fuel + bait + costs;
    }
}

/// All is sold the day it is landed; the money comes when the outlet pays.
SEASONRISK_STEP void sell_the_catch(const PreparedPlan& ready, Workspace& work, int today) {
    const auto& outlet = work.plan.outlet[0];
    const Lanes& levy = work.plan.prices.levy_fraction;
    Lanes& sales = work.day.sales_today;
    Lanes units(0.0);
    sales = Lanes(0.0);
    for (const SpeciesWork& state : work.species) {
        for (int i = 0; i < k_lanes; ++i) {
            sales[i] += state.fish.caught_today[i] * state.price_now[i];
            units[i] += state.fish.caught_today[i];
        }
    }
    for (int i = 0; i < k_lanes; ++i) {
        const double selling = levy[i] * sales[i] + outlet.cost_per_unit[i] * units[i];
        work.earned.sales[i] += sales[i];
        work.earned.selling_costs[i] += selling;
        work.crew.week_sales[i] += sales[i];
        work.cash.balance[i] -= selling;
    }
    if (ready.same_settlement_delay) expect_money(work.cash, sales, today, static_cast<int>(outlet.paid_after_days[0]));
    else expect_money(work.cash, sales, today, outlet.paid_after_days);
}

/// Repair, days lost and claim of one event in one history: rare, so it stands apart from the vector code.
void repair_one(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today, std::size_t kind, int lane);

/// On a day out, after its catch: each kind strikes by itself.
SEASONRISK_STEP void break_down(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, int today) {
    for (std::size_t kind = 0; kind < work.breakdown.size(); ++kind) {
        const double* uniforms = work.draws.uniforms[(1 + kind) * k_days_in_block + word_of(day.slot)].v;
        const Lanes& odds = work.breakdown[kind].odds_a_day_out;
        std::uint64_t hit[k_lanes];
        std::uint64_t any = 0;
        for (int i = 0; i < k_lanes; ++i) hit[i] = uniforms[i] < odds[i] * work.day.out[i] ? 1u : 0u;
        for (int i = 0; i < k_lanes; ++i) any |= hit[i];  // whole numbers: the compiler may reorder an or, not a sum
        if (any == 0) continue;
        for (int i = 0; i < k_lanes; ++i) {
            if (hit[i] != 0) repair_one(ready, work, at_batch, day, today, kind, i);
        }
    }
}

/// The share of the pots a day takes this month.
SEASONRISK_STEP void settle_gear_loss(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day) {
    const auto& loss = *work.plan.boat[0].gear_loss;
    const Lanes& odds = work.rates.daily_loss_odds;
    Lanes luck(1.0);
    if (loss.pots_per_string) {
        const std::chrono::year_month_day ymd{day.date};
        const DaySlot month = day_slot(Date{ymd.year() / ymd.month() / 1});
        const Lanes z = normals_at(at_batch.draw, at_batch.key, on_day(month, Purpose::gear_loss_month), at_batch.first_history);
        const double days = ready.calendar.season_days_in_month[static_cast<std::size_t>(day.month)];
        for (int i = 0; i < k_lanes; ++i) {
            const double sd = log_sd_of_month_loss(odds[i], days, work.plan.boat[0].fishery[0].count[i], (*loss.pots_per_string)[i]);
            luck[i] = exp(sd * z[i] - 0.5 * sd * sd);
        }
    }
    for (int i = 0; i < k_lanes; ++i) work.rates.loss_today[i] = odds[i] * luck[i] < 1.0 ? odds[i] * luck[i] : 1.0;
}

SEASONRISK_STEP void lose_gear(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day) {
    if (!ready.loses_gear) return;
    if (day.first_of_month) settle_gear_loss(ready, work, at_batch, day);
    const auto& loss = *work.plan.boat[0].gear_loss;
    GearState& gear = work.gear;
    for (int i = 0; i < k_lanes; ++i) {
        const double lost = gear.in_water[i] * work.rates.loss_today[i];
        const double cost = lost * loss.pot_cost[i];
        gear.lost[i] += lost;
        work.earned.pots_lost_cost[i] += cost;
        if (ready.pots_dwindle) {
            gear.in_water[i] -= lost;
            work.cash.owed_by_us[i] += cost;
        } else {
            work.cash.balance[i] -= cost;
        }
    }
}

}  // namespace seasonrisk
