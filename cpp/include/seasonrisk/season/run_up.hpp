// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// Chains of weather, catch and price, started far enough before the season to have forgotten their start,
/// so that another start date meets the same days; and the draws they and the day live on.
namespace seasonrisk {

enum class DrawFor { run_up, season };

/// All daily draws of the four days that hold `slot`, in one go; the normals in one call.
SEASONRISK_STEP void draw_four_days(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, DaySlot slot, DrawFor what) {
    DayDraws& draws = work.draws;
    const DaySlot group = group_of(slot);
    const auto block = [&](Lanes* four_days, Purpose purpose, std::size_t item) {
        at_batch.draw(four_days->v, at_batch.key, on_day(group, purpose, {0, static_cast<std::uint32_t>(item)}), at_batch.first_history);
    };
    if (ready.weather_varies) block(draws.uniforms.data(), Purpose::weather_day, 0);
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        if (draws.ground_item[k] >= 0) block(&draws.normals[static_cast<std::size_t>(draws.ground_item[k]) * k_days_in_block], Purpose::ground_day, k);
        if (draws.boat_item[k] >= 0 && what == DrawFor::season) block(&draws.normals[static_cast<std::size_t>(draws.boat_item[k]) * k_days_in_block], Purpose::boat_day, k);
    }
    if (what == DrawFor::season) {
        for (std::size_t kind = 0; kind < work.breakdown.size(); ++kind) {
            block(&draws.uniforms[(1 + kind) * k_days_in_block], Purpose::breakdown_happens, kind);
        }
    }
    const int items = what == DrawFor::season ? draws.normal_items : draws.ground_items;
    constexpr int most_at_once = 8;  // keeps the buffer of the tails small
    for (int first = 0; first < items; first += most_at_once) {
        const int count = items - first < most_at_once ? items - first : most_at_once;
        normal_quantile_many(draws.normals[static_cast<std::size_t>(first) * k_days_in_block].v, count * static_cast<int>(k_days_in_block) * k_lanes);
    }
}

/// Weather and ground chains move one calendar day. `days_before` the season: 0 on its first day, below 0 after.
SEASONRISK_STEP void move_daily_chains(const PreparedPlan& ready, Workspace& work, const Day& day, int days_before) {
    const std::size_t word = word_of(day.slot);
    if (ready.weather_varies && days_before <= ready.lead_of_weather) {
        const double* uniforms = work.draws.uniforms[word].v;
        if (days_before == ready.lead_of_weather) start_weather(work.weather, day.month, uniforms);
        else step_weather(work.weather, work.plan.weather.persistence, day.month, uniforms);
    }
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        if (work.draws.ground_item[k] < 0 || days_before > ready.lead_of_ground[k]) continue;
        const double* normals = work.draws.normals[static_cast<std::size_t>(work.draws.ground_item[k]) * k_days_in_block + word].v;
        if (days_before == ready.lead_of_ground[k]) start_ground(work.species[k].fish, normals);
        else step_ground(work.species[k].fish, work.plan.species[k].day_persistence, normals);
    }
}

SEASONRISK_STEP Lanes week_normals(BatchAddress at_batch, DaySlot monday) {
    return normals_at(at_batch.draw, at_batch.key, on_day(monday, Purpose::price_week), at_batch.first_history);
}

SEASONRISK_STEP void run_up_to_the_season(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    work.weather.bad = Lanes(0.0);
    int days_before = static_cast<int>(ready.lead_days.size());
    for (const Day& day : ready.lead_days) {
        if (word_of(day.slot) == 0 || &day == ready.lead_days.data()) draw_four_days(ready, work, at_batch, day.slot, DrawFor::run_up);
        move_daily_chains(ready, work, day, days_before);
        --days_before;
    }
    if (!ready.price_moves_weekly) return;
    start_week_price(work.market, week_normals(at_batch, ready.lead_weeks.front()));
    for (std::size_t week = 1; week < ready.lead_weeks.size(); ++week) {
        step_week_price(work.market, work.plan.outlet[0].week_persistence, week_normals(at_batch, ready.lead_weeks[week]));
    }
    find_week_factor(work.market, work.plan.outlet[0].week_sd);
}

}  // namespace seasonrisk
