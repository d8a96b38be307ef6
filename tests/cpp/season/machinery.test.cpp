// SPDX-License-Identifier: MIT
#include "seasonrisk/season/machinery.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "catch.hpp"
#include "seasonrisk/season/simulate_batch.hpp"
#include "shipped_plan.hpp"

using namespace seasonrisk;
using tests::shipped_plan;

namespace {

Breakdown<Lanes> kind_that_wears(double per_100_days, double shape) {
    Breakdown<Lanes> kind;
    kind.per_100_days = Lanes(per_100_days);
    kind.wear_shape = Lanes(shape);
    kind.wear_reference_hours = Lanes(6000.0);
    return kind;
}

/// Works out on each evening, one draw after the other, what should have broken that day.
struct LooksForBreakdowns : DayWatcher {
    const PreparedPlan& ready;
    std::uint64_t key, first_history;
    struct Kind {
        Lanes events{0.0}, hours{0.0};
    };
    std::vector<std::vector<Kind>> before{};   ///< [boat][kind] as the day began
    std::vector<Lanes> repairs_before{};
    int expected = 0, different = 0;
    bool begun = false;

    LooksForBreakdowns(const PreparedPlan& plan, std::uint64_t the_key, std::uint64_t first) : ready(plan), key(the_key), first_history(first) {}

    void end_of_day(const Day& day, int today, const Workspace& work) override {
        if (!begun) {
            for (std::size_t b = 0; b < work.boat.size(); ++b) {
                before.emplace_back(work.boat[b].breakdown.size());
                for (std::size_t kind = 0; kind < before[b].size(); ++kind) before[b][kind].hours = work.plan.boat[b].breakdown[kind].hours;
            }
            repairs_before.assign(work.boat.size(), Lanes(0.0));
            begun = true;
        }
        for (const Calendar& year : ready.years) {
            if (today != year.first_today) continue;
            for (auto& kinds : before) {
                for (Kind& kind : kinds) kind.events = Lanes(0.0);
            }
            repairs_before.assign(work.boat.size(), Lanes(0.0));
        }
        for (std::size_t b = 0; b < work.boat.size(); ++b) look_at(day, work, b);
    }

    void look_at(const Day& day, const Workspace& work, std::size_t b) {
        const BoatWork& boat = work.boat[b];
        Lanes repairs = repairs_before[b];
        for (std::size_t kind = 0; kind < boat.breakdown.size(); ++kind) {
            const BreakdownWork& now = boat.breakdown[kind];
            Kind& then = before[b][kind];
            const PreparedBreakdown& sizes = ready.boat[b].breakdowns[kind];
            const Who who{static_cast<std::uint32_t>(b), static_cast<std::uint32_t>(kind)};
            for (int i = 0; i < k_lanes; ++i) {
                const std::uint64_t history = first_history + static_cast<std::uint64_t>(i);
                const double uniform = uniform_at(key, on_day(group_of(day.slot), Purpose::breakdown_happens, who), history, word_of(day.slot));
                const double odds = sizes.wears ? worn_odds(work.plan.boat[b].breakdown[kind], then.hours, i) : now.odds_a_day_out[i];
                const bool strikes = work.told_today && boat.tried && boat.out[i] != 0.0 && uniform < odds;
                if (strikes) repairs[i] += at(sizes.repair, normal_at(key, on_day(day.slot, Purpose::repair_size, who), history));
                expected += strikes;
                different += now.events[i] != then.events[i] + strikes;
            }
            then.events = now.events;
            then.hours = now.hours;
        }
        for (int i = 0; i < k_lanes; ++i) different += std::abs(boat.year.repairs[i] - repairs[i]) > 1e-9 * (1.0 + repairs[i]);
        repairs_before[b] = boat.year.repairs;
    }
};

}  // namespace

TEST_CASE("breakdowns foreseen for weeks are those of one draw after the other on each day", "[machinery]") {
    // An identity: no outside source. One boat for a year; three boats over five, with setting up, early ends and wear.
    for (const std::string name : {"one_boat", "three_boats_five_years"}) {
        CAPTURE(name);
        Plan plan = shipped_plan(name);
        plan.boat[0].breakdown[0].wear_shape.typical = 1.7;
        plan.boat[0].breakdown[0].wear_reference_hours = Number{};
        plan.boat[0].breakdown[0].wear_reference_hours->typical = 500.0;
        plan.boat[0].breakdown[0].hours.typical = 300.0;
        plan.boat[0].hours_per_day.typical = 9.0;
        const PreparedPlan ready = prepare(plan);
        Workspace work(ready);
        LooksForBreakdowns watcher(ready, 11, 64);
        simulate_batch_watched(ready, work, {11, 64}, watcher);
        CHECK(watcher.expected > 40);
        CHECK(watcher.different == 0);
    }
}

TEST_CASE("no day of a year has more odds of a breakdown than the year's most", "[machinery]") {
    constexpr double hours_a_day = 9.0;
    for (const double shape : {0.6, 0.99, 1.0, 1.001, 1.8, 6.0, 20.0}) {
        for (const double hours_before : {0.0, 3.0, 2400.0, 5200.0, 30000.0}) {
            const Breakdown<Lanes> kind = kind_that_wears(0.06, shape);
            const Lanes most = most_worn_odds(kind, Lanes(hours_before), Lanes(hours_a_day));
            double highest = 0.0;
            for (int day = 0; day < 366; ++day) highest = std::max(highest, worn_odds(kind, Lanes(hours_before + hours_a_day * day), 0));
            for (int day = 0; day < 366; ++day) highest = std::max(highest, worn_odds(kind, Lanes(hours_a_day * day), 0));  // set back by a repair
            CAPTURE(shape, hours_before);
            CHECK(highest <= most[0]);
        }
    }
}

TEST_CASE("what grows with the hours has its most odds at the year's end", "[machinery]") {
    // The hazard of the plan's own definition: per_100_days / 100 (hours / reference)^(shape - 1) a day out.
    const double end = 1.0 - std::exp(-0.06 / 100.0 * std::pow((5200.0 + 366.0 * 9.0) / 6000.0, 0.8));
    const Lanes most = most_worn_odds(kind_that_wears(0.06, 1.8), Lanes(5200.0), Lanes(9.0));
    CHECK(most[0] >= end);
    CHECK(most[0] <= end * (1.0 + 1e-8));
}
