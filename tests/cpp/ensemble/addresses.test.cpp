// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "catch.hpp"
#include "hash_of.hpp"
#include "shipped_plan.hpp"
#include "varied_plan.hpp"

#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/season/simulate_batch.hpp"

using Catch::Matchers::WithinRel;
using namespace seasonrisk;
using namespace seasonrisk::tests;

namespace {

using Counter = std::tuple<std::uint32_t, std::uint32_t, std::uint32_t, std::uint32_t>;
std::vector<Counter>* noted = nullptr;  // a DrawBlock is a plain function, so what it notes stands here

void note_and_draw(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history) {
    noted->push_back({address.word0, address.word1, address.family, address.inner});
    draw_block_baseline(out, key, address, first_history);
}

struct LooksAway : DayWatcher {
    void end_of_day(const Day&, int, const Workspace&) override {}
};

/// Every address that a batch draws from, sorted. Sizes of breakdowns and claims are drawn one history at a
/// time and not seen here; their purposes stand in the same table.
std::vector<Counter> addresses_of(const Plan& plan) {
    std::vector<Counter> counters;
    noted = &counters;
    const PreparedPlan ready = prepare(plan);
    Workspace work(ready);
    LooksAway nobody;
    simulate_batch_watched(ready, work, {7, 0, note_and_draw}, nobody);
    noted = nullptr;
    std::ranges::sort(counters);
    return counters;
}

Outcomes run(const Plan& plan) {
    RunOptions options;
    options.histories = 640;
    options.key = 11;
    options.keep = {"all"};
    return simulate(plan, options);
}

void check_unchanged(const Outcomes& before, const Outcomes& after, const std::vector<std::string>& names) {
    for (const std::string& name : names) {
        INFO(name);
        CHECK(same_bits(before.column(name), after.column(name)));
    }
}

bool differ(const Outcomes& before, const Outcomes& after, const std::string& name) {
    return !std::ranges::equal(before.column(name), after.column(name));
}

const std::vector<std::string> k_at_sea{"days_fished", "days_setting", "days_broken_down", "days_weather", "bad_weather_days", "hauls", "pots_lost", "pots_left"};

std::vector<std::string> at_sea_and(std::vector<std::string> more) {
    more.insert(more.end(), k_at_sea.begin(), k_at_sea.end());
    return more;
}

std::string with_third_species() {
    std::string text = with(k_invented_plan, "[together]", "[[species]]\nname = \"whelk\"\nunit = \"kg\"\nper_haul = 0.2\nyear_sd = 0.3\nday_sd = 0.2\nday_persistence = 0.3\nboat_day_sd = 0.1\n[together]");
    text = with(text, "crab = 2.6", "crab = 2.6, whelk = 1.5");
    return with(text, "species = [\"lobster\", \"crab\"]", "species = [\"lobster\", \"crab\", \"whelk\"]");
}

}  // namespace

// Source of all tests in this file: the rules of addresses in random/address.hpp (the engine's own promise).

TEST_CASE("no address is drawn from twice by three boats over five years, nor by grades, stores and orders", "[ensemble][random]") {
    const std::vector<Plan> plans{shipped_plan("three_boats_five_years"), shipped_plan("two_boats_whelk"), shipped_plan("crab_by_the_bushel"), plan_of(every_key())};
    for (const Plan& plan : plans) {
        INFO(plan.business.name);
        std::vector<Counter> counters = addresses_of(plan);
        // The four days around a season's first may be read twice, for the run-up and for the season, and weeks of one
        // season again for the run-up of the next: the same draws for the same days and weeks.
        const auto is_read_again = [](const Counter& counter) {
            const std::uint32_t purpose = std::get<1>(counter) >> 24;
            return purpose == static_cast<std::uint32_t>(Purpose::weather_day) || purpose == static_cast<std::uint32_t>(Purpose::ground_day)
                   || purpose == static_cast<std::uint32_t>(Purpose::price_week);
        };
        std::erase_if(counters, is_read_again);
        REQUIRE(counters.size() > 400);
        const auto twice = std::ranges::adjacent_find(counters);
        if (twice != counters.end()) UNSCOPED_INFO("purpose " << (std::get<1>(*twice) >> 24) << ", slot " << (std::get<0>(*twice) >> 15 & 511u));
        CHECK(twice == counters.end());
    }
}

TEST_CASE("the audit of addresses sees every purpose but those drawn one history at a time", "[ensemble][random]") {
    std::set<std::uint32_t> purposes;
    for (const Counter& counter : addresses_of(plan_of(every_key()))) {
        if (std::get<2>(counter) == static_cast<std::uint32_t>(Family::luck)) purposes.insert(std::get<1>(counter) >> 24);
    }
    std::set<std::uint32_t> expected;
    for (std::uint32_t purpose = 1; purpose <= static_cast<std::uint32_t>(Purpose::loan_rate); ++purpose) expected.insert(purpose);
    for (const Purpose one_at_a_time : {Purpose::repair_size, Purpose::days_lost_size, Purpose::claim_accepted, Purpose::laid_up_weeks,
                                        Purpose::skipper_gap_weeks, Purpose::storm_loss})
        expected.erase(static_cast<std::uint32_t>(one_at_a_time));
    CHECK(purposes == expected);
}

TEST_CASE("no address is drawn from twice", "[ensemble][random]") {
    for (const std::string& text : {std::string(k_invented_plan), with_third_species()}) {
        const std::vector<Counter> counters = addresses_of(plan_of(text));
        REQUIRE(counters.size() > 300);
        const auto twice = std::ranges::adjacent_find(counters);
        CHECK(twice == counters.end());
    }
}

TEST_CASE("a plan that grows keeps the addresses it had", "[ensemble][random]") {
    const std::vector<Counter> before = addresses_of(invented_plan());
    const std::vector<Counter> after = addresses_of(plan_of(with_third_species()));

    CHECK(after.size() > before.size());
    CHECK(std::ranges::includes(after, before));
}

TEST_CASE("a species more leaves days, gear and the other catches as they were", "[ensemble]") {
    const Outcomes before = run(invented_plan());
    const Outcomes after = run(plan_of(with_third_species()));

    check_unchanged(before, after, at_sea_and({"catch.lobster", "catch.crab", "fuel", "bait", "repairs", "claims", "breakdowns.small", "breakdowns.big", "total_loss"}));
    CHECK(differ(before, after, "sales"));
}

TEST_CASE("a guess more changes only what it bears on", "[ensemble]") {
    const Outcomes before = run(invented_plan());
    const Outcomes after = run(plan_of(with(k_invented_plan, "fuel_l_per_day_out = 60", "fuel_l_per_day_out = { low = 50, typical = 60, high = 75 }")));

    check_unchanged(before, after, at_sea_and({"catch.lobster", "catch.crab", "sales", "bait", "day_costs", "repairs", "claims", "pots_lost_cost", "crew_pay.second hand"}));
    CHECK(differ(before, after, "fuel"));
}

TEST_CASE("a kind of breakdown more leaves the other kinds as they were", "[ensemble]") {
    // It costs no days, so that no other day is moved.
    const std::string paint = "[[boat.breakdown]]\nkind = \"paint\"\nper_100_days = 30\nrepair = 40\ndays_lost = 0\n[boat.gear_loss]";
    const Outcomes before = run(invented_plan());
    const Outcomes after = run(plan_of(with(k_invented_plan, "[boat.gear_loss]", paint)));

    check_unchanged(before, after, at_sea_and({"breakdowns.small", "breakdowns.big", "claims", "sales", "fuel"}));
    CHECK(differ(before, after, "repairs"));
}

TEST_CASE("a season that begins 14 days later meets the same weather and prices", "[ensemble]") {
    const Plan early = invented_plan();
    const Plan late = plan_of(with(with(k_invented_plan, "start = 2027-06-02", "start = 2027-06-16"), "[season]", "books_start = 2027-03-01\n[season]"));
    int shared_days = 0;
    int bad_days = 0;
    for (std::uint64_t history = 0; history < 40; ++history) {
        const DayTable first = replay(early, 5, history);
        const DayTable second = replay(late, 5, history);
        const auto column = [](const DayTable& table, const std::string& name) {
            const auto found = std::ranges::find(table.columns, name, &ColumnInfo::name);
            REQUIRE(found != table.columns.end());
            return table.values[static_cast<std::size_t>(found - table.columns.begin())];
        };
        const auto bad_first = column(first, "weather_bad"), bad_second = column(second, "weather_bad");
        const auto price_first = column(first, "price.crab"), price_second = column(second, "price.crab");
        REQUIRE(first.dates == second.dates);
        int different = 0;
        for (std::size_t day = 0; day < first.dates.size(); ++day) {
            if (second.why[day].empty()) continue;
            different += bad_first[day] != bad_second[day];
            bad_days += bad_first[day] != 0.0;
            ++shared_days;
            // The weekly chain has forgotten its start to one part in a million of its sd of 0.05.
            if (std::abs(price_first[day] / price_second[day] - 1.0) > 1e-6) ++different;
        }
        CHECK(different == 0);
    }
    CHECK(shared_days == 40 * 158);  // 16 June to 20 November
    CHECK(bad_days > 0);
}
