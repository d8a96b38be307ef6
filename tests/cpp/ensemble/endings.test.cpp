// SPDX-License-Identifier: MIT
#include <algorithm>
#include <chrono>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch.hpp"
#include "hash_of.hpp"

#include "seasonrisk/ensemble/simulate_endings.hpp"
#include "seasonrisk/plan/read_plan.hpp"

using namespace seasonrisk;
using namespace seasonrisk::tests;
using std::chrono::days;

// Source of the file: the engine against itself, the long way against the short one.
namespace {

Plan plan_at(const std::string& file, const std::vector<Change>& changes = {}) {
    std::ostringstream text;
    text << std::ifstream(std::string(SEASONRISK_REPOSITORY) + "/" + file).rdbuf();
    // A changed plan of its own: its changes are part of it, and no choice.
    PlanReading reading = read_plan(text.str(), file, changes);
    REQUIRE(reading.ok());
    reading.plan.base = {};
    return reading.plan;
}

RunOptions options_of(std::uint64_t histories) {
    RunOptions options;
    options.histories = histories;
    options.key = 5;
    options.keep = {"all"};
    return options;
}

/// Every `step`-th day of the season, and its last ones.
std::vector<Date> stops_of(const Plan& plan, int step) {
    std::vector<Date> stops;
    for (Date date = *plan.season.end; date >= *plan.season.start; date -= days{date > *plan.season.end - days{6} ? 1 : step}) stops.push_back(date);
    return stops;
}

void check_the_same(const Plan& plan, const std::vector<Date>& stops, std::uint64_t histories) {
    const std::vector<Outcomes> beside = simulate_endings(plan, stops, options_of(histories));
    REQUIRE(beside.size() == stops.size());
    std::size_t different = 0;
    for (std::size_t n = 0; n < stops.size(); ++n) {
        const Outcomes alone = simulate(with_stop(plan, stops[n]), options_of(histories));
        REQUIRE(alone.columns().size() == beside[n].columns().size());
        if (hash_of(alone) != hash_of(beside[n])) ++different;
    }
    CHECK(different == 0);
}

}  // namespace

TEST_CASE("an ending told beside the season is, to the bit, the season simulated with that last day", "[ensemble][endings]") {
    const std::string file = GENERATE(as<std::string>{}, "examples/plans/one_boat.toml", "examples/plans/smallest.toml",
                                      "examples/plans/two_boats_whelk.toml", "examples/plans/crab_by_the_bushel.toml",
                                      "tests/data/plans/sound.toml");
    INFO(file);
    const Plan plan = plan_at(file);
    check_the_same(plan, stops_of(plan, 23), 64);
}

TEST_CASE("so it is with every part of a plan in three boats' single season", "[ensemble][endings]") {
    const Plan plan = plan_at("examples/plans/three_boats_five_years.toml", {{"business.years", "1"}});
    check_the_same(plan, stops_of(plan, 17), 64);
}

TEST_CASE("so it is when the days it takes to bring the gear in are a guess", "[ensemble][endings]") {
    const Plan plan = plan_at("examples/plans/one_boat.toml", {{"ending", "{ gear_in_days = { low = 2, typical = 4, high = 9 }, crew_notice_days = 5, shore_job_per_week = 300 }"}});
    check_the_same(plan, stops_of(plan, 31), 64);
}

TEST_CASE("so it is when the season stops before the next fishery of the boat begins", "[ensemble][endings]") {
    const Plan plan = plan_at("examples/plans/one_boat.toml",
                              {{"ending", "{ gear_in_days = 5 }"},
                               {"boat.0.fishery.0.to", "2027-08-20"},
                               {"boat.0.fishery.+", "{ gear = \"pots\", count = 200, hauls_per_day = 150, from = 2027-09-10, species = [\"crab\"], setting_days = 2 }"}});
    check_the_same(plan, {Date{std::chrono::year{2027} / 8 / 12}, Date{std::chrono::year{2027} / 8 / 20}, Date{std::chrono::year{2027} / 8 / 30},
                          Date{std::chrono::year{2027} / 9 / 9}, Date{std::chrono::year{2027} / 9 / 11}, Date{std::chrono::year{2027} / 10 / 20}}, 64);
}

TEST_CASE("several seasons are simulated anew for each last day", "[ensemble][endings]") {
    const Plan plan = plan_at("examples/plans/three_boats_five_years.toml", {{"business.years", "2"}});
    check_the_same(plan, {*plan.season.end - days{30}, *plan.season.end}, 64);
}

TEST_CASE("endings do not depend on threads, on other endings beside them, or on the order they are asked for in", "[ensemble][endings]") {
    const Plan plan = plan_at("examples/plans/crab_by_the_bushel.toml");
    const Date end = *plan.season.end;
    RunOptions options = options_of(2100);
    const std::vector<Outcomes> together = simulate_endings(plan, {end - days{40}, end, end - days{3}}, options);
    options.threads = 1;
    options.histories_per_chunk = 96;
    CHECK(hash_of(simulate_endings(plan, {end - days{3}}, options)[0]) == hash_of(together[2]));
    CHECK(hash_of(together[0]) != hash_of(together[1]));
}

TEST_CASE("a last day outside the season is told as any problem of a plan", "[ensemble][endings]") {
    const Plan plan = plan_at("examples/plans/one_boat.toml");
    CHECK_THROWS_AS(simulate_endings(plan, {*plan.season.end + days{1}}, options_of(64)), PlanError);
    CHECK_THROWS_AS(simulate_endings(plan, {*plan.season.start - days{1}}, options_of(64)), PlanError);
    CHECK_THROWS_AS(simulate_endings(plan, {}, options_of(64)), std::invalid_argument);
}

TEST_CASE("endings that would need too much memory are refused before they start", "[ensemble][endings]") {
    const Plan plan = plan_at("examples/plans/one_boat.toml");
    RunOptions options = options_of(1'000'000);
    options.keep = {"household"};
    options.memory_limit_bytes = 1e7;
    CHECK_THROWS_AS(simulate_endings(plan, {*plan.season.end, *plan.season.end - days{1}}, options), RunTooLarge);
}

TEST_CASE("so it is with what is supposed for certain, before and after the last day, and with a loan repaid early", "[ensemble][endings]") {
    const Plan plan = plan_at("examples/plans/two_boats_whelk.toml",
                              {{"suppose", "[{ what = \"closure\", from = 2027-04-12, days = 20 }, { what = \"bad catch\" },"
                                           " { what = \"breakdown\", boat = \"Grey Plover\", from = 2027-06-07, days = 25, cost = 3000 },"
                                           " { what = \"no skipper\", boat = \"Tern's Errand\", from = 2027-10-04 }]"},
                               {"boat.1.owner_days_per_breakdown", "3"},
                               {"loan.0.repay", "[{ date = 2027-07-31, amount = 4000 }]"}});
    check_the_same(plan, stops_of(plan, 29), 64);
}
