// SPDX-License-Identifier: MIT
#include "seasonrisk/season/simulate_batch.hpp"

#include "seasonrisk/season/ashore.hpp"
#include "seasonrisk/season/at_sea.hpp"
#include "seasonrisk/season/due.hpp"
#include "seasonrisk/season/run_up.hpp"
#include "seasonrisk/season/settle.hpp"

namespace seasonrisk {
namespace {

struct NobodyWatches {
    void end_of_day(const Day&, int, const Workspace&) {}
};

/// The story of a money year, for a batch of histories at once.
template <class Watcher>
SEASONRISK_STEP void tell_the_year(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, Watcher& watcher) {
    settle_guesses(ready, work, at_batch);         // what the owner does not know exactly, drawn once
    draw_the_year(ready, work, at_batch);          // a good or a bad year for weather, catch, prices
    settle_weather(ready, work);
    settle_rates(ready, work);
    open_the_books(ready, work);
    lay_out_dues(ready, work);                     // bills, loans, household: owed whatever happens
    lay_out_the_gear(ready, work);
    run_up_to_the_season(ready, work, at_batch);   // chains that have forgotten their start

    const int days = static_cast<int>(ready.calendar.days.size());
    for (int today = 0; today < days; ++today) {
        const Day& day = ready.calendar.days[static_cast<std::size_t>(today)];
        if (day.in_season) {
            move_weather_and_market(ready, work, at_batch, day);
            soak_overnight(ready, work, day);
            if (!day.rest_day && !day.day_off) {
                decide_who_goes_out(work, today);
                set_or_haul(ready, work);
                land_the_catch(ready, work, day);
                pay_for_the_trip_and_sell(ready, work, today);
                break_down(ready, work, at_batch, day, today);
            }
            lose_gear(ready, work, at_batch, day);
        }
        if (day.sunday || today == days - 1) pay_the_crew(work);
        move_the_cash(ready, work, day, today);
        watcher.end_of_day(day, today, work);
    }
    close_the_books(ready, work, at_batch);        // the four rungs, and what is owed both ways
}

}  // namespace

// One source, one set of flags: everything above is inlined into each entry point, so no function exists
// twice under one name.
[[gnu::flatten]] void simulate_batch_baseline(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    at_batch.draw = draw_block_baseline;
    NobodyWatches nobody;
    tell_the_year(ready, work, at_batch, nobody);
}

#if defined(__x86_64__)
[[gnu::flatten, gnu::target("avx2")]] void simulate_batch_avx2(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    at_batch.draw = draw_block_avx2;
    NobodyWatches nobody;
    tell_the_year(ready, work, at_batch, nobody);
}

[[gnu::flatten, gnu::target("avx512f,avx512dq,avx512bw,avx512vl")]] void simulate_batch_avx512(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    at_batch.draw = draw_block_avx512;
    NobodyWatches nobody;
    tell_the_year(ready, work, at_batch, nobody);
}
#else
void simulate_batch_avx2(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) { simulate_batch_baseline(ready, work, at_batch); }
void simulate_batch_avx512(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) { simulate_batch_baseline(ready, work, at_batch); }
#endif

void simulate_batch_watched(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, DayWatcher& watcher) {
    tell_the_year(ready, work, at_batch, watcher);
}

}  // namespace seasonrisk
