// SPDX-License-Identifier: MIT
#pragma once

#include <iterator>

#include "seasonrisk/season/run_up.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// Prices of the month, the week and the day.
namespace seasonrisk {

/// What an outlet pays this month and week.
SEASONRISK_STEP void settle_prices(const PreparedPlan& ready, Workspace& work, std::size_t o, int month) {
    const auto& outlet = work.plan.outlet[o];
    OutletWork& state = work.outlet[o];
    const auto& month_factor = outlet.month_factor.by_month[static_cast<std::size_t>(month)];
    for (std::size_t g = 0; g < work.goods.size(); ++g) {
        if (state.base_price[g] == nullptr) continue;
        const Lanes& base = *state.base_price[g];
        const Lanes& year = state.season_factor[ready.goods[g].species];
        SEASONRISK_EACH_LANE
            state.price_now[g][i] = base[i] * (month_factor ? (*month_factor)[i] : 1.0) * year[i] * state.market.week_factor[i];
    }
}

/// Where all is sold at once to one outlet the grades of a species make one price a unit of catch.
SEASONRISK_STEP void blend_prices(const PreparedPlan& ready, Workspace& work) {
    OutletWork& state = work.outlet[0];
    for (std::size_t k = 0; k < work.ground.size(); ++k) {
        const std::vector<std::size_t>& goods = ready.goods_of[k];
        Lanes& price = state.price_of_catch[k];
        price = Lanes(0.0);
        for (const std::size_t g : goods) {
            SEASONRISK_EACH_LANE price[i] += work.goods[g].share[i] * state.price_now[g][i];
        }
    }
}

/// Weekly prices step on Mondays after the season's first day; months and weeks settle what is paid.
SEASONRISK_STEP void move_the_market(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day) {
    bool any = false;
    for (std::size_t o = 0; o < work.outlet.size(); ++o) {
        const bool new_week = ready.price_moves_weekly[o] && day.monday && day.date != calendar.season_start;
        if (new_week) {
            MarketState& market = work.outlet[o].market;
            // Last season's stock may be sold on Mondays before this season's, and after it: those are drawn singly.
            const auto week = (day.date - monday_of(calendar.season_start)).count() / 7;
            const Lanes normals = week > 0 && week <= std::ssize(market.ahead) ? market.ahead[static_cast<std::size_t>(week - 1)]
                : normals_at(at_batch.draw, at_batch.to_normals, at_batch.key, week_address(day.date, o), at_batch.first_history);
            step_week_price(market, work.plan.outlet[o].week_persistence, normals.v);
            find_week_factor(market, work.plan.outlet[o].week_sd);
        }
        if (!new_week && !day.first_of_month) continue;
        settle_prices(ready, work, o, day.month);
        any = true;
    }
    if (any && ready.sells_simply) blend_prices(ready, work);
}

/// Is the outlet open on this day?
SEASONRISK_STEP bool is_open(const Outlet<Number>& outlet, const Day& day) {
    return outlet.open_days.empty() || on_weekday(day.date, outlet.open_days);
}

/// Own landings move the price: (landed / usual)^e, kept within half and double.
SEASONRISK_STEP void answer_landings(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day, std::size_t o) {
    OutletWork& state = work.outlet[o];
    const Outlet<Number>& outlet = ready.plan.outlet[o];
    const bool answers = !ready.usual_landing.empty() && (outlet.own_landings_flexibility.is_guess || outlet.own_landings_flexibility.typical != 0.0);
    for (std::size_t g = 0; g < work.goods.size(); ++g) {
        if (state.base_price[g] == nullptr) continue;
        state.price_today[g] = state.price_now[g];
        if (!answers) continue;
        const double usual = ready.usual_landing[g][static_cast<std::size_t>(12 * calendar.year + day.month)];
        if (usual <= 0.0) continue;
        const Lanes& landed = work.goods[g].landed_today;
        const Lanes& flexibility = work.plan.outlet[o].own_landings_flexibility;
        SEASONRISK_EACH_LANE {
            const double factor = landed[i] > 0.0 ? power(landed[i] / usual, flexibility[i]) : 1.0;
            state.price_today[g][i] *= factor < 0.5 ? 0.5 : factor > 2.0 ? 2.0 : factor;
        }
    }
}

/// Most that a sale in a hurry can hope for is a part of the lowest price among the outlets open today that take the
/// good; of all that take it when none is open.
SEASONRISK_STEP Lanes lowest_price(const PreparedPlan& ready, const Workspace& work, const Day& day, std::size_t g) {
    bool some_open = false;
    for (std::size_t o = 0; o < work.outlet.size(); ++o)
        some_open = some_open || (work.outlet[o].base_price[g] != nullptr && is_open(ready.plan.outlet[o], day));
    Lanes lowest(0.0);
    bool first = true;
    for (std::size_t o = 0; o < work.outlet.size(); ++o) {
        const OutletWork& outlet = work.outlet[o];
        if (outlet.base_price[g] == nullptr || (some_open && !is_open(ready.plan.outlet[o], day))) continue;
        SEASONRISK_EACH_LANE {
            const double price = outlet.price_today[g][i];
            lowest[i] = first || price < lowest[i] ? price : lowest[i];
        }
        first = false;
    }
    return lowest;
}

}  // namespace seasonrisk
