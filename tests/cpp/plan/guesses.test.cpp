// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/guesses.hpp"

#include <algorithm>

#include "catch.hpp"
#include "plan_files.hpp"

using namespace plan_tests;
using namespace seasonrisk;

// Source: G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, "The FNV Non-Cryptographic Hash Algorithm" (IETF draft),
// appendix C, test values of 32-bit FNV-1a.
TEST_CASE("the hash of a path is FNV-1a", "[plan]") {
    CHECK(path_hash("") == 0x811c9dc5u);
    CHECK(path_hash("a") == 0xe40c292cu);
    CHECK(path_hash("foobar") == 0xbf9cf968u);
}

// Source: the plan's own text.
TEST_CASE("guesses come in the order of the keys, and event sizes are none", "[plan]") {
    std::vector<std::string> paths;
    for (const Guess& guess : guesses_of(read_plan(sound_text(), "plan.toml").plan)) {
        CHECK(guess.hash == path_hash(guess.path));
        paths.push_back(guess.path);
    }

    CHECK(paths == std::vector<std::string>{"species.0.per_haul", "prices.fuel_per_l"});
}

TEST_CASE("a guess for all months is one guess, a guess of one month has its month in its path", "[plan]") {
    std::string text =
        changed(sound_text(), "draw_per_month = 1500", "draw_per_month = { low = 1200, typical = 1500, high = 1900 }");
    text = changed(text, "jun = 0.12", "jun = { low = 0.05, typical = 0.12, high = 0.2 }");

    std::vector<std::string> paths;
    for (const Guess& guess : guesses_of(read_plan(text, "plan.toml").plan)) paths.push_back(guess.path);

    CHECK(paths
          == std::vector<std::string>{"weather.unfishable_fraction.jun", "species.0.per_haul", "prices.fuel_per_l",
                                      "household.draw_per_month"});
}

TEST_CASE("every number of the plan is told, defaults too", "[plan]") {
    const Plan plan = read_plan(sound_text(), "plan.toml").plan;
    std::vector<std::string> told;
    for (const PlanEntry& entry : numbers_of(plan))
        told.push_back(entry.path + " = " + std::to_string(entry.number.typical) + " " + entry.rule.unit);
    const auto count = [&](const char* line) { return std::ranges::count(told, line); };

    CHECK(count("boat.0.crew.0.share_fraction = 0.200000 of the sum shared") == 1);
    CHECK(count("outlet.0.price.crab = 2.700000 money a unit") == 1);
    CHECK(count("boat.0.day_costs.0.amount = 12.000000 money a day out") == 1);
    CHECK(count("boat.0.catching_power = 1.000000 times") == 1);
    CHECK(count("outlet.0.month_factor = 1.000000 times the price") == 1);
    CHECK(count("weather.unfishable_fraction.nov = 0.460000 of days") == 1);
}

// Source: definition of the three points: 1-in-10 low at z = -1.2816, middle at 0, 1-in-10 high at 1.2816.
TEST_CASE("a guess passes through its three points on the scale of its key", "[plan]") {
    const Number points(0.1, 0.2, 0.6);
    const Rule rules_of_scales[] = {rules::any_sign("", ""), rules::amount("", ""), rules::fraction("", ""),
                                    rules::correlation("")};

    for (const Rule& rule : rules_of_scales) {
        const Spread spread = spread_of(points, rule);
        CHECK(at(spread, -k_one_in_ten_z) == Approx(0.1).epsilon(1e-12));
        CHECK(at(spread, 0.0) == Approx(0.2).epsilon(1e-12));
        CHECK(at(spread, k_one_in_ten_z) == Approx(0.6).epsilon(1e-12));
    }
    CHECK(at(spread_of(points, rules::amount("", "")), -30.0) > 0.0);
    CHECK(at(spread_of(points, rules::fraction("", "")), 20.0) < 1.0);
    CHECK(at(spread_of(points, rules::any_sign("", "")), -30.0) < 0.0);
}

TEST_CASE("a count is whole at every z, and a size that never differs is exact", "[plan]") {
    const Rule days = rules::days("days", "");
    const Spread spread = spread_of(EventSize{1.0, 0.0, 3.0, true}, days);

    CHECK(at(spread, -k_one_in_ten_z) == 0.0);
    CHECK(at(spread, 0.0) == 1.0);
    CHECK(at(spread, k_one_in_ten_z) == 3.0);
    CHECK(at(spread, -6.0) == 0.0);
    CHECK(at(spread_of(EventSize{350.0, 0.0, 0.0, false}, rules::amount("", "")), 2.5) == 350.0);
    CHECK(at(spread_of(EventSize{0.0, 0.0, 0.0, false}, days), -2.5) == 0.0);
}
