// SPDX-License-Identifier: MIT
#include "seasonrisk/season/simulate_batch.hpp"

#include "seasonrisk/season/ashore.hpp"
#include "seasonrisk/season/at_sea.hpp"
#include "seasonrisk/season/closing.hpp"
#include "seasonrisk/season/due.hpp"
#include "seasonrisk/season/family.hpp"
#include "seasonrisk/season/going_out.hpp"
#include "seasonrisk/season/machinery.hpp"
#include "seasonrisk/season/run_up.hpp"
#include "seasonrisk/season/selling.hpp"
#include "seasonrisk/season/settle.hpp"
#include "seasonrisk/season/year_luck.hpp"

namespace seasonrisk {
namespace {

struct NobodyWatches {
    static constexpr bool watches = false;
    void end_of_day(const Day&, int, const Workspace&) {}
};

/// A boat's day: out or not and why, the gear, the catch, what the trip costs.
SEASONRISK_STEP void work_the_boat(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today, std::size_t b) {
    BoatWork& boat = work.boat[b];
    // After the season only gear that is still in the water takes a boat out.
    const bool may_go = !day.nobody_goes() && (day.in_season || ready.gear_in);
    const bool only_gear = boat.fishery.size() == 1;
    boat.tried = may_go && has_work(boat, day);
    for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
        FisheryWork& fishery = boat.fishery[f];
        if (!fishery.worked_before && is_worked(fishery, day)) begin_fishery(work, b, f);
        if (fishery.worked_before) soak_overnight(fishery, may_go && only_gear);
    }
    if (may_go && !boat.tried) lie_ashore(boat, day);
    if (!boat.tried) return;
    muster_the_crew(ready, work, at_batch, day, b);
    if (ready.boat[b].more_causes) send_out(ready, work, calendar, day, today, b);
    else send_out_simply(boat, today);
    for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
        FisheryWork& fishery = boat.fishery[f];
        const bool worked = is_worked(fishery, day);
        if (worked || (fishery.comes_in && fishery.worked_before)) set_or_haul(ready, work, b, f, worked);
        else fishery.hauling = fishery.gear.hauls_today = Lanes(0.0);
    }
}

/// The catch comes up once it is known who hauls what: boats may share the ground.
SEASONRISK_STEP void land_the_boat(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, std::size_t b, const Day& day) {
    BoatWork& boat = work.boat[b];
    find_day_luck(work, at_batch, b, word_of(day.slot));
    boat.sales_today = Lanes(0.0);
    boat.units_today = Lanes(0.0);
    if (boat.fishery.size() == 1) {
        FisheryWork& fishery = boat.fishery[0];
        if (fishery.worked_before) land_the_catch<Landing::all>(ready, work, b, fishery);
        else land_nothing(boat);
        if (fishery.comes_in && fishery.worked_before) bring_ashore(work, b, fishery, work.plan.boat[b].fishery[0]);
    } else {
        land_nothing(boat);
        for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
            FisheryWork& fishery = boat.fishery[f];
            if (!fishery.worked_before) continue;
            land_the_catch<Landing::more>(ready, work, b, fishery);
            if (fishery.comes_in) bring_ashore(work, b, fishery, work.plan.boat[b].fishery[f]);
        }
    }
    pay_for_the_trip(work, boat);
}

/// Everything landed is sold the same day to the one outlet there is.
SEASONRISK_STEP void sell_at_once(const PreparedPlan& ready, Workspace& work, int today) {
    const auto& outlet = work.plan.outlet[0];
    const Lanes& levy = work.plan.prices.levy_fraction;
    for (BoatWork& boat : work.boat) {
        if (!boat.tried) continue;
        if (ready.costs_per_unit) {
            SEASONRISK_EACH_LANE {
                work.cash.balance[i] -= levy[i] * boat.sales_today[i] + outlet.cost_per_unit[i] * boat.units_today[i];
                boat.year.units[i] += boat.units_today[i];
            }
        } else {
            SEASONRISK_EACH_LANE work.cash.balance[i] -= levy[i] * boat.sales_today[i];
        }
        add(boat.year.sales, boat.sales_today);
        expect_payment(ready, work, boat.sales_today, today, 0);
    }
}

/// A day on which there may be something to do at sea or to sell.
SEASONRISK_STEP void tell_the_day(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today) {
    work.told_today = work.worked_this_week = true;
    const int days_before = static_cast<int>((calendar.season_start - day.date).count());
    if (word_of(day.slot) == 0 || days_before == 0) draw_four_days(ready, work, at_batch, day, DrawFor::season);
    if (today >= work.mishaps_until) foresee_mishaps(ready, work, at_batch, calendar, day, today);
    move_daily_chains(ready, work, day, days_before);      // weather and market move
    move_the_market(ready, work, at_batch, calendar, day);
    if (day.in_season) add(work.bad_weather_days, work.boat[0].weather.bad);
    if (!ready.sells_simply) settle_week_of_buyers(ready, work, at_batch, calendar, day);
    look_at_the_store(ready, work, at_batch, day);         // held stock loses its night's deaths

    call_on_the_owner(ready, work, at_batch, day, today);
    turn_limits(ready, work, calendar, day);
    for (std::size_t b = 0; b < work.boat.size(); ++b) {   // each boat: out or not, and why
        if (day.first_of_month) settle_month_catch(work, b, day.month);
        work_the_boat(ready, work, at_batch, calendar, day, today, b);
    }
    work.landing_today = !day.nobody_goes() && (day.in_season || ready.gear_in);
    if (work.landing_today) {                              // haul, catch, running costs of the day
        if (ready.shares_ground) share_the_ground(work);
        for (std::size_t b = 0; b < work.boat.size(); ++b) {
            if (work.boat[b].tried) land_the_boat(ready, work, at_batch, b, day);
        }
        keep_to_limits(ready, work, calendar, day);
        use_inputs(ready, work);
        count_both(work, day);
        if (ready.sells_simply) sell_at_once(ready, work, today);
    }
    if (!ready.sells_simply) sell_the_day(ready, work, at_batch, calendar, day, today);  // orders, outlets, store
    for (std::size_t b = 0; work.landing_today && b < work.boat.size(); ++b) break_down(ready, work, at_batch, day, today, b);
    if (!day.in_season) return;
    lose_gear_of_all(ready, work, at_batch, calendar, day, today);
    lose_people(ready, work, at_batch, day, today);
}

/// A day of the season with all gear ashore for good and nothing to sell: the weather goes on, and the day is lost.
SEASONRISK_STEP void idle_ashore(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today) {
    if (ready.weather_varies) {
        if (word_of(day.slot) == 0) draw_four_days(ready, work, at_batch, day, DrawFor::weather_alone);
        move_weather_a_day(ready, work, day, static_cast<int>((calendar.season_start - day.date).count()));
    }
    add(work.bad_weather_days, work.boat[0].weather.bad);
    for (BoatWork& boat : work.boat) {
        boat.tried = false;
        if (day.nobody_goes()) continue;
        SEASONRISK_EACH_LANE boat.year.days_ashore[i] += 1.0;
    }
    lose_people(ready, work, at_batch, day, today);
}

/// Last season's stock, when a new money year has begun: it is sold at last season's prices, which go on by month and week.
SEASONRISK_STEP void sell_from_the_store(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today) {
    work.told_today = work.worked_this_week = true;
    work.landing_today = false;
    for (BoatWork& boat : work.boat) boat.tried = false;
    move_the_market(ready, work, at_batch, calendar, day);
    look_at_the_store(ready, work, at_batch, day);
    sell_the_day(ready, work, at_batch, calendar, day, today);
}

/// A day of the money year, whatever it is.
template <class Watcher>
SEASONRISK_STEP void live_the_day(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar, const Day& day, int today, Watcher& watcher) {
    work.told_today = false;
    break_down_as_supposed(ready, work, calendar, day, today);
    meet_family_dates(ready, work, calendar, day);
    const bool after = day.date > calendar.season_end;
    if (day.date == calendar.season_start) run_up_to_the_season(ready, work, at_batch, calendar);  // chains that have forgotten their start
    const bool idle = !Watcher::watches && day.in_season && day.date > calendar.stop && ready.idles_ashore && is_all_ashore(ready, work);
    if (idle) idle_ashore(ready, work, at_batch, calendar, day, today);
    else if (day.in_season || (after && goes_on(ready, work, calendar, day))) tell_the_day(ready, work, at_batch, calendar, day, today);
    else if (work.store_holds) sell_from_the_store(ready, work, at_batch, calendar, day, today);
    if (day.date == calendar.stop) settle_early_stop(work, at_batch, calendar);
    meet_at_home(ready, work, calendar, day);
    if (day.sunday || &day == &calendar.days.back()) pay_the_crew(ready, work);
    move_the_cash(ready, work, day, today);            // money due today
    watcher.end_of_day(day, today, work);
}

/// The story of a history, for a batch of them at once; with endings beside it, each from the day it begins.
template <class Watcher>
SEASONRISK_STEP void tell_the_history(const PreparedPlan& ready, Workspace& season, BatchAddress at_batch, Watcher& watcher, EndingsBeside* endings) {
    settle_guesses(ready, season, at_batch);           // what the owner does not know exactly, drawn once
    open_the_books(season);
    for (const Calendar& calendar : ready.years) {
        season.year_now = calendar.year;
        grow(season.growth, season.plan.growth, calendar.year);
        draw_the_year(ready, season, at_batch, calendar);  // a good or a bad year for weather, catch, prices
        settle_weather(ready, season);
        settle_rates(ready, season);
        settle_people(ready, season, calendar);
        open_the_year(season, calendar);
        lay_out_dues(ready, season, at_batch, calendar);  // bills, loans, household: owed whatever happens
        draw_shocks(season, at_batch, calendar);

        const Leg whole_year{&season, 0, calendar.days.size()};
        for (const Leg& leg : endings != nullptr ? endings->legs_of(season) : std::span(&whole_year, 1)) {
            if (endings != nullptr && leg.ending >= 0) endings->begin(leg, season);
            Workspace& work = *leg.work;
            int today = calendar.first_today + static_cast<int>(leg.first);
            for (std::size_t n = leg.first; n < leg.last; ++n) live_the_day(ready, work, at_batch, calendar, calendar.days[n], today++, watcher);
            if (leg.last < calendar.days.size()) continue;
            close_the_year(ready, work, at_batch, calendar);  // the four rungs
            if (&calendar == &ready.years.back()) close_the_history(ready, work);  // what is owed both ways, and what is left
            if (endings != nullptr && leg.ending >= 0) endings->end(leg);
        }
    }
}

}  // namespace

// One source, one set of flags: everything above is inlined into each entry point, so no function exists
// twice under one name.
[[gnu::flatten]] void simulate_batch_baseline(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, EndingsBeside* endings) {
    at_batch.draw = draw_block_baseline;
    at_batch.to_normals = normal_rows_baseline;
    at_batch.to_exp = exp_rows_baseline;
    at_batch.lanes_below = lanes_below_baseline;
    NobodyWatches nobody;
    tell_the_history(ready, work, at_batch, nobody, endings);
}

#if defined(__x86_64__)
[[gnu::flatten, gnu::target("avx2")]] void simulate_batch_avx2(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, EndingsBeside* endings) {
    at_batch.draw = draw_block_avx2;
    at_batch.to_normals = normal_rows_avx2;
    at_batch.to_exp = exp_rows_avx2;
    at_batch.lanes_below = lanes_below_avx2;
    NobodyWatches nobody;
    tell_the_history(ready, work, at_batch, nobody, endings);
}

[[gnu::flatten, gnu::target("avx512f,avx512dq,avx512bw,avx512vl")]] void simulate_batch_avx512(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, EndingsBeside* endings) {
    at_batch.draw = draw_block_avx512;
    at_batch.to_normals = normal_rows_avx512;
    at_batch.to_exp = exp_rows_avx512;
    at_batch.lanes_below = lanes_below_avx512;
    NobodyWatches nobody;
    tell_the_history(ready, work, at_batch, nobody, endings);
}
#else
void simulate_batch_avx2(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, EndingsBeside* endings) { simulate_batch_baseline(ready, work, at_batch, endings); }
void simulate_batch_avx512(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, EndingsBeside* endings) { simulate_batch_baseline(ready, work, at_batch, endings); }
#endif

void simulate_batch_watched(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, DayWatcher& watcher) {
    tell_the_history(ready, work, at_batch, watcher, nullptr);
}

}  // namespace seasonrisk
