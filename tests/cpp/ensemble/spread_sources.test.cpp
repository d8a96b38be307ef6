// SPDX-License-Identifier: MIT
#include "seasonrisk/ensemble/spread_sources.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "catch.hpp"
#include "hash_of.hpp"
#include "invented_plan.hpp"

#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/math/spread.hpp"
#include "seasonrisk/plan/guesses.hpp"
#include "seasonrisk/random/draws.hpp"

using Catch::Matchers::StartsWith;
using namespace seasonrisk;
using namespace seasonrisk::tests;

namespace {

RunOptions options_for(std::uint64_t histories, std::uint32_t luck_family = 0) {
    RunOptions options;
    options.histories = histories;
    options.key = 11;
    options.keep = {"all"};
    options.luck_family = luck_family;
    return options;
}

constexpr const char* k_guessed_bill = "amount = { low = 1200, typical = 1900, high = 3500 }";

Plan with_guessed_bill() { return plan_of(with(k_invented_plan, "amount = 1900", k_guessed_bill)); }

}  // namespace

// Source: the bill is a standing cost, to the penny, and stands beside known ones of 12 x 150 and the premium of 2,000.
TEST_CASE("a guess from its normals drawn again is the engine's, to the bit of the bill", "[ensemble][drivers]") {
    const Plan plan = with_guessed_bill();
    constexpr std::uint64_t n = 1'000;  // not a whole number of batches
    const Outcomes run = simulate(plan, options_for(n));
    const std::vector<Guess> guesses = guesses_of(plan);
    const std::vector<SpreadSource> sources = spread_sources(plan, 11, 0, n);

    const auto bill = std::ranges::find(guesses, "standing.0.amount", &Guess::path);
    const auto source = std::ranges::find(sources, "standing.0.amount", &SpreadSource::part);
    REQUIRE(bill != guesses.end());
    REQUIRE(source != sources.end());
    CHECK(source->is_guess);
    REQUIRE(source->normals.size() == n);
    double worst = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const double expected = at(spread_of(bill->number, bill->rule), source->normals[i]) + 12.0 * 150.0 + 2000.0;
        worst = std::max(worst, std::abs(run.column("standing_costs")[i] - expected));
    }
    CHECK(worst < 1e-9);
}

TEST_CASE("normals drawn again from the middle of a run are those of the whole run", "[ensemble][drivers]") {
    const Plan plan = with_guessed_bill();
    const std::vector<SpreadSource> whole = spread_sources(plan, 11, 0, 200);
    const std::vector<SpreadSource> part = spread_sources(plan, 11, 70, 90);
    REQUIRE(whole.size() == part.size());
    for (std::size_t s = 0; s < whole.size(); ++s) CHECK(std::ranges::equal(part[s].normals, std::span(whole[s].normals).subspan(70, 90)));
}

// Source: the plan's own text: three guesses; weather, two species and their common part, price likewise, fuel, bait.
TEST_CASE("sources are the guesses and the years' luck that the plan gives a spread", "[ensemble][drivers]") {
    std::vector<std::string> parts;
    for (const SpreadSource& source : spread_sources(with_guessed_bill(), 1, 0, 1)) parts.push_back(source.part);
    CHECK(parts == std::vector<std::string>{"species.0.per_haul", "boat.0.breakdown.0.per_100_days", "standing.0.amount", "weather", "catch", "price",
                                            "catch", "price", "catch", "price", "fuel", "bait"});
    CHECK_THROWS_WITH(spread_sources(invented_plan(), 1, 0, 0), StartsWith("histories=0"));
}

// Source: without day luck, breakdowns, weather and lost pots the fuel of a year is its mean times exp(s z - s^2 / 2).
TEST_CASE("the year's fuel price from its normal drawn again is the engine's", "[ensemble][drivers]") {
    std::string text = with(k_invented_plan, "unfishable_fraction = { jun = 0.12, aug = 0.2, oct = 0.35, nov = 0.5 }", "unfishable_fraction = 0.0");
    text = with(text, "per_100_days = { low = 1.0, typical = 2.0, high = 4.0 }", "per_100_days = 0.0");
    text = with(text, "per_100_days = 0.4", "per_100_days = 0.0");
    text = with(text, "season_fraction = 0.1", "season_fraction = 0.0");
    const Plan plan = plan_of(text);
    const Outcomes run = simulate(plan, options_for(300));
    const std::vector<SpreadSource> sources = spread_sources(plan, 11, 0, 300);
    const auto fuel = std::ranges::find(sources, "fuel", &SpreadSource::part);
    REQUIRE(fuel != sources.end());
    const auto column = run.column("fuel");
    double worst = 0.0;
    for (std::size_t i = 1; i < 300; ++i) {
        const double expected = std::exp(0.1 * (fuel->normals[i] - fuel->normals[0]));
        worst = std::max(worst, std::abs(column[i] / column[0] / expected - 1.0));
    }
    CHECK(worst < 1e-12);
}

TEST_CASE("another luck family keeps the guesses and draws all other luck anew", "[ensemble][drivers]") {
    const Plan plan = with_guessed_bill();
    constexpr std::uint64_t n = 2'000;
    const Outcomes usual = simulate(plan, options_for(n));
    const Outcomes again = simulate(plan, options_for(n, 2));
    CHECK(std::ranges::equal(usual.column("standing_costs"), again.column("standing_costs")));
    const auto a = usual.column("bad_weather_days");
    const auto b = again.column("bad_weather_days");
    double mean_a = 0.0, mean_b = 0.0, ab = 0.0, aa = 0.0, bb = 0.0;
    for (std::size_t i = 0; i < n; ++i) mean_a += a[i] / n, mean_b += b[i] / n;
    for (std::size_t i = 0; i < n; ++i) {
        ab += (a[i] - mean_a) * (b[i] - mean_b);
        aa += (a[i] - mean_a) * (a[i] - mean_a);
        bb += (b[i] - mean_b) * (b[i] - mean_b);
    }
    // No guess moves the weather here: its days are uncorrelated. 4.9 errors of a correlation: one false alarm in a million.
    CHECK(std::abs(ab / std::sqrt(aa * bb)) < 4.9 / std::sqrt(static_cast<double>(n)));
    // The same law: means within 4.9 errors of their difference.
    CHECK(std::abs(mean_a - mean_b) < 4.9 * std::sqrt((aa + bb) / n / n));
    CHECK_FALSE(std::ranges::equal(a, b));

    RunOptions baseline = options_for(n, 2);
    baseline.instructions = Instructions::baseline;
    CHECK(hash_of(simulate(plan, baseline)) == hash_of(again));
    CHECK_THROWS_WITH(simulate(plan, options_for(n, 1)), StartsWith("luck_family=1"));
    CHECK_THROWS_WITH(simulate(plan, options_for(n, 16)), StartsWith("luck_family=16"));
}

TEST_CASE("families of luck have counters of their own", "[ensemble][drivers]") {
    const Address luck = on_day({27, 150}, Purpose::weather_day);
    constexpr std::uint64_t history = 0x0000ffff00000007ull;
    const Words usual = counter_of(luck, history);
    for (std::uint32_t family = 2; family < k_families; ++family) {
        const Words other = counter_of(luck, with_luck_family(history, family));
        CHECK((other.w[3] ^ usual.w[3]) == family << 12);
        CHECK((other.w[0] == usual.w[0] && other.w[1] == usual.w[1] && other.w[2] == usual.w[2]));
        CHECK(without_luck_family(with_luck_family(history, family)) == history);
    }
}
