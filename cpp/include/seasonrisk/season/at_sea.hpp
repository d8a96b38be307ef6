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
}

/// A night in the water. On a day of plain hauling it is part of the catch's own pass over the lanes; on a day
/// ashore, while gear is being set, and for long rotations it stands by itself.
SEASONRISK_STEP void soak_overnight(const PreparedPlan& ready, Workspace& work, const Day& day) {
    const bool with_the_catch = !day.rest_day && !day.day_off && !work.gear.still_setting && work.gear.rotation_slots <= 2;
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        work.species[k].soaked_tonight = !with_the_catch;
        if (ready.soaks[k] && !with_the_catch) soak_a_night(work.species[k].soak, work.gear.rotation_slots);
    }
}

/// Out, or not and why: the first cause that holds.
SEASONRISK_STEP void decide_who_goes_out(Workspace& work, int today) {
    DayState& day = work.day;
    for (int i = 0; i < k_lanes; ++i) {
        const double broken = day.down_until[i] >= today ? 1.0 : 0.0;
        const double out = (1.0 - broken) * (1.0 - work.weather.bad[i]);
        day.out[i] = out;
        day.days_broken_down[i] += broken;
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
    if (gear.still_setting || ready.pots_dwindle) weigh_rotation(gear, work.rates.one_over_hauls);
    if (gear.still_setting) gear.still_setting = any_setting_left(gear);
    for (int i = 0; i < k_lanes; ++i) {
        const double most = fishery.hauls_per_day[i];
        gear.hauls_today[i] = day.hauling[i] * (gear.in_water[i] < most ? gear.in_water[i] : most);
        day.hauls[i] += gear.hauls_today[i];
    }
}

/// One species' catch by the way its soak is found and whether its days have luck.
template <Soak how>
SEASONRISK_STEP void catch_of_species(const PreparedPlan& ready, Workspace& work, std::size_t k, std::size_t word) {
    const auto& species = work.plan.species[k];
    SpeciesWork& state = work.species[k];
    const int item = work.draws.boat_item[k];
    const double* boat_normals = item < 0 ? work.rates.no_luck.v : work.draws.normals[static_cast<std::size_t>(item) * k_days_in_block + word].v;
    DayState& day = work.day;
    if (ready.ground_moves[k] || ready.boat_moves[k]) {
        catch_and_price<how, DayLuck::some>(state.fish, state.soak, work.gear, day.hauling, species.day_sd, species.boat_day_sd, boat_normals, state.price_now, day.sales_today, day.units_today);
    } else {
        catch_and_price<how, DayLuck::none>(state.fish, state.soak, work.gear, day.hauling, species.day_sd, species.boat_day_sd, boat_normals, state.price_now, day.sales_today, day.units_today);
    }
}

SEASONRISK_STEP void land_the_catch(const PreparedPlan& ready, Workspace& work, const Day& day) {
    const std::size_t word = word_of(day.slot);
    work.day.sales_today = Lanes(0.0);
    work.day.units_today = Lanes(0.0);
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        SpeciesWork& state = work.species[k];
        if (ready.soaks[k] && !state.soaked_tonight) {
            if (work.gear.rotation_slots == 1) catch_of_species<Soak::one_group>(ready, work, k, word);
            else catch_of_species<Soak::two_groups>(ready, work, k, word);
            continue;
        }
        if (ready.soaks[k]) find_soak_factor(state.soak, work.gear);
        catch_of_species<Soak::given>(ready, work, k, word);
        if (ready.soaks[k]) haul_and_shift(state.soak, work.day.hauling, work.gear.rotation_slots);
    }
}

/// The trip is paid for; the catch is sold the day it is landed, and its money comes when the outlet pays.
SEASONRISK_STEP void pay_for_the_trip_and_sell(const PreparedPlan& ready, Workspace& work, int today) {
    const auto& outlet = work.plan.outlet[0];
    const Lanes& levy = work.plan.prices.levy_fraction;
    const Rates& rates = work.rates;
    DayState& day = work.day;
    for (int i = 0; i < k_lanes; ++i) {
        const double trip = day.out[i] * rates.trip_a_day_out[i] + work.gear.hauls_today[i] * rates.trip_a_haul[i];
        const double selling = levy[i] * day.sales_today[i] + outlet.cost_per_unit[i] * day.units_today[i];
        work.cash.balance[i] -= trip + selling;
        work.earned.sales[i] += day.sales_today[i];
        day.units[i] += day.units_today[i];
    }
    if (ready.same_settlement_delay) expect_money(work.cash, day.sales_today, today, static_cast<int>(outlet.paid_after_days[0]));
    else expect_money(work.cash, day.sales_today, today, outlet.paid_after_days);
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
    const Lanes& share = work.rates.loss_today;
    if (ready.pots_dwindle) {
        for (int i = 0; i < k_lanes; ++i) {
            const double lost = gear.in_water[i] * share[i];
            gear.lost[i] += lost;
            gear.in_water[i] -= lost;
        }
    } else {
        for (int i = 0; i < k_lanes; ++i) {
            const double lost = gear.in_water[i] * share[i];
            gear.lost[i] += lost;
            work.cash.balance[i] -= lost * loss.pot_cost[i];
        }
    }
}

}  // namespace seasonrisk
