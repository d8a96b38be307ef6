// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// Chains of weather, catch and price, started far enough before the season to have forgotten their start,
/// so that another start date meets the same days; and the draws they and the day live on.
namespace seasonrisk {

SEASONRISK_STEP bool fishes_this_year(const BoatWork& boat) {
    return std::ranges::any_of(boat.fishery, [](const FisheryWork& fishery) { return fishery.from <= fishery.to; });
}

enum class DrawFor { run_up, season, weather_alone };

/// All daily draws of the four days that hold `day`, in one go. The ground moves every day, but a boat's own luck is
/// asked for on days on which it may go out only, and a quantile costs more than its draw.
SEASONRISK_STEP void draw_four_days(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Day& day, DrawFor what) {
    DayDraws& draws = work.draws;
    const DaySlot group = group_of(day.slot);
    const auto block = [&](Lanes* four_days, Purpose purpose, std::size_t boat, std::size_t item) {
        const Who who{static_cast<std::uint32_t>(boat), static_cast<std::uint32_t>(item)};
        at_batch.draw(four_days->v, at_batch.key, on_day(group, purpose, who), at_batch.first_history);
    };
    draws.wanted.clear();
    const auto normals = [&](int item, Purpose purpose, std::size_t boat, std::size_t k, unsigned days) {
        Lanes* four_days = &draws.normals[static_cast<std::size_t>(item) * k_days_in_block];
        block(four_days, purpose, boat, k);
        for (std::size_t word = 0; word < k_days_in_block; ++word) {
            if ((days >> word & 1u) != 0) draws.wanted.push_back(four_days[word].v);
        }
    };
    constexpr unsigned every_day = 15u;
    if (ready.weather_varies) block(draws.uniforms.data(), Purpose::weather_day, 0, 0);
    if (what == DrawFor::weather_alone) return;
    for (std::size_t k = 0; k < work.ground.size(); ++k) {
        if (work.ground[k].luck_item >= 0) normals(work.ground[k].luck_item, Purpose::ground_day, 0, k, every_day);
    }
    if (what == DrawFor::season) {
        for (std::size_t b = 0; b < work.boat.size(); ++b) {
            const BoatWork& boat = work.boat[b];
            if (!fishes_this_year(boat)) continue;  // she lies ashore
            for (std::size_t k = 0; k < boat.luck_item.size(); ++k) {
                if (boat.luck_item[k] >= 0) normals(boat.luck_item[k], Purpose::boat_day, b, k, day.boat_days);
            }
        }
    }
    const int rows = static_cast<int>(draws.wanted.size());
    for (int first = 0; first < rows; first += k_most_rows)
        at_batch.to_normals(draws.wanted.data() + first, std::min(rows - first, k_most_rows));
}

/// The weather of a day, for every boat from the one uniform.
SEASONRISK_STEP void move_weather(Workspace& work, int month, const double* uniforms) {
    const int yesterday = work.harbour.month_yesterday;
    const Lanes& persistence = work.plan.weather.persistence;
    if (month == yesterday) {
        for (BoatWork& boat : work.boat) step_weather(boat.weather, persistence, month, uniforms);
        return;
    }
    Lanes tie = persistence;
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        const BoatWeather& boat = work.boat[b].weather;
        loosen_tie(tie, boat.marginal[yesterday], boat.marginal[month]);
        for (std::size_t other = 0; other < b; ++other) loosen_tie_between(tie, boat, work.boat[other].weather, yesterday, month);
    }
    for (BoatWork& boat : work.boat) step_weather_over_months(boat.weather, tie, yesterday, month, uniforms);
    work.harbour.month_yesterday = month;
}

SEASONRISK_STEP void move_weather_a_day(const PreparedPlan& ready, Workspace& work, const Day& day, int days_before) {
    const double* uniforms = work.draws.uniforms[word_of(day.slot)].v;
    if (days_before == ready.lead_of_weather) {
        for (BoatWork& boat : work.boat) start_weather(boat.weather, day.month, uniforms);
        work.harbour.month_yesterday = day.month;
    } else {
        move_weather(work, day.month, uniforms);
    }
}

/// Weather and ground chains move one calendar day. `days_before` the season: 0 on its first day, below 0 after.
SEASONRISK_STEP void move_daily_chains(const PreparedPlan& ready, Workspace& work, const Day& day, int days_before) {
    const std::size_t word = word_of(day.slot);
    if (ready.weather_varies && days_before <= ready.lead_of_weather) move_weather_a_day(ready, work, day, days_before);
    for (std::size_t k = 0; k < work.ground.size(); ++k) {
        GroundWork& ground = work.ground[k];
        if (ground.luck_item < 0 || days_before > ready.lead_of_ground[k]) continue;
        const double* normals = work.draws.normals[static_cast<std::size_t>(ground.luck_item) * k_days_in_block + word].v;
        if (days_before == ready.lead_of_ground[k]) start_ground(ground.fish, normals);
        else step_ground(ground.fish, work.plan.species[k].day_persistence, normals);
    }
}

SEASONRISK_STEP Address week_address(Date monday, std::size_t outlet) {
    return on_day(day_slot(monday), Purpose::price_week, {0, static_cast<std::uint32_t>(outlet)});
}

/// An outlet's weekly price, from a start that the season's first week has forgotten; and the draws of the season's
/// other weeks.
SEASONRISK_STEP void run_up_the_price(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, std::size_t o) {
    alignas(64) double normals[k_most_quantiles + 3 * k_lanes];
    MarketState& market = work.outlet[o].market;
    const int before = ready.lead_of_week[o] + 1;
    const Date first_monday = monday_of(calendar.season_start) - std::chrono::days{7 * ready.lead_of_week[o]};
    const int weeks = static_cast<int>((monday_of(calendar.season_end) - first_monday).count() / 7) + 1;
    market.ahead.resize(static_cast<std::size_t>(weeks - before));
    for (int first = 0; first < weeks; first += k_most_rows) {
        const int count = std::min(weeks - first, k_most_rows);
        const auto address = [&](int row) { return week_address(first_monday + std::chrono::days{7 * (first + row)}, o); };
        normals_at_each(at_batch.draw, at_batch.to_normals, at_batch.key, at_batch.first_history, count, address, normals);
        for (int row = 0; row < count; ++row) {
            const double* of_week = normals + row * k_lanes;
            if (first + row == 0) start_week_price(market, of_week);
            else if (first + row < before) step_week_price(market, work.plan.outlet[o].week_persistence, of_week);
            else std::copy_n(of_week, k_lanes, market.ahead[static_cast<std::size_t>(first + row - before)].v);
        }
    }
    find_week_factor(market, work.plan.outlet[o].week_sd);
}

SEASONRISK_STEP void run_up_to_the_season(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar) {
    for (BoatWork& boat : work.boat) boat.weather.bad = Lanes(0.0);
    for (int days_before = ready.longest_lead; days_before > 0; --days_before) {
        const Day& day = calendar.lead_days[static_cast<std::size_t>(ready.longest_lead - days_before)];
        if (word_of(day.slot) == 0 || days_before == ready.longest_lead) draw_four_days(ready, work, at_batch, day, DrawFor::run_up);
        move_daily_chains(ready, work, day, days_before);
    }
    for (std::size_t o = 0; o < work.outlet.size(); ++o) {
        OutletWork& outlet = work.outlet[o];
        for (std::size_t k = 0; k < outlet.year_factor.size(); ++k) {
            SEASONRISK_EACH_LANE outlet.season_factor[k][i] = outlet.year_factor[k][i] * work.growth.prices[i];
        }
        if (ready.price_moves_weekly[o]) run_up_the_price(ready, work, at_batch, calendar, o);
    }
}

}  // namespace seasonrisk
