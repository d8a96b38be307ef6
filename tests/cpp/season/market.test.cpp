// SPDX-License-Identifier: MIT
#include "seasonrisk/season/market.hpp"

#include <algorithm>
#include <chrono>
#include <vector>

#include "catch.hpp"
#include "seasonrisk/season/run_up.hpp"
#include "seasonrisk/season/simulate_batch.hpp"
#include "shipped_plan.hpp"

using namespace seasonrisk;
using tests::shipped_plan;

namespace {

/// Looks on each evening whether the weekly price of an outlet moved, and whether by its own Monday's draw.
struct LooksAtWeeks : DayWatcher {
    const PreparedPlan& ready;
    std::uint64_t key;
    std::size_t outlet;
    Lanes before{0.0};
    int moved = 0, different = 0;
    std::vector<Date> mondays{};

    LooksAtWeeks(const PreparedPlan& plan, std::uint64_t the_key, std::size_t o) : ready(plan), key(the_key), outlet(o) {}

    void end_of_day(const Day& day, int, const Workspace& work) override {
        const MarketState& market = work.outlet[outlet].market;
        const bool starts = day.date == ready.years[0].season_start || (ready.years.size() > 1 && day.date == ready.years[1].season_start);
        if (!starts && market.week[0] != before[0]) {
            ++moved;
            mondays.push_back(day.date);
            for (int i = 0; i < k_lanes; ++i) {
                const double z = normal_at(key, week_address(day.date, outlet), static_cast<std::uint64_t>(i));
                different += market.week[i] != work.plan.outlet[outlet].week_persistence[i] * before[i] + market.week_kick[i] * z;
            }
        }
        before = market.week;
    }
};

}  // namespace

TEST_CASE("each Monday moves the weekly price by its own draw, in the season and while last season's stock is sold", "[market]") {
    // An identity: no outside source. The store holds from one season to the next, so that the Monday before a season
    // that begins in mid-week is told too.
    using namespace std::chrono;
    Plan plan = shipped_plan("crab_by_the_bushel");
    plan.business.years = 2;
    plan.business.books_start = 2027y / April / 1;
    plan.season.start = 2027y / April / 8;
    plan.season.end = 2028y / March / 25;
    plan.holding[0].longest_days.typical = 60;
    plan.holding[0].capacity.typical = 5000;
    plan.holding[0].keep_fraction.typical = 0.95;
    const PreparedPlan ready = prepare(plan);
    Workspace work(ready);
    LooksAtWeeks watcher(ready, 5, 1);
    simulate_batch_watched(ready, work, {5, 0}, watcher);
    CHECK(watcher.different == 0);
    CHECK(watcher.moved > 80);
    const Date before_the_second = monday_of(ready.years[1].season_start);
    CHECK(before_the_second < ready.years[1].season_start);
    CHECK(std::ranges::find(watcher.mondays, before_the_second) != watcher.mondays.end());
}
