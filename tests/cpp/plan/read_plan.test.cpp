// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/read_plan.hpp"

#include <chrono>

#include "catch.hpp"
#include "plan_files.hpp"

using namespace plan_tests;
using namespace seasonrisk;
using namespace std::chrono_literals;

namespace {

/// The amount of the licence in the plan, written as told.
double licence_written_as(const std::string& written) {
    const PlanReading reading = read_plan(changed(sound_text(), "amount = 1900", "amount = " + written), "plan.toml");
    INFO(written);
    CHECK(texts_of(reading.findings).empty());
    return reading.plan.standing.at(0).amount.value().typical;
}

}  // namespace

// Source: IEEE 754 (a decimal with at most 17 digits names one double, which the compiler reads too).
TEST_CASE("a number is read to the last bit", "[plan]") {
    CHECK(licence_written_as("0.1") == 0.1);
    CHECK(licence_written_as("12.3802083333") == 12.3802083333);
    CHECK(licence_written_as("127.20703125") == 127.20703125);
    CHECK(licence_written_as("0.30000000000000004") == 0.30000000000000004);
    CHECK(licence_written_as("999_999_999.999999881") == 999999999.999999881);
    CHECK(licence_written_as("5e-324") == 5e-324);
    CHECK(licence_written_as("1_900") == 1900.0);
    CHECK(licence_written_as("0x76c") == 1900.0);
}

// Source: the plan's own text.
TEST_CASE("each form of a value is read as it is meant", "[plan]") {
    const Plan plan = read_plan(sound_text(), "plan.toml").plan;

    CHECK(plan.business.books_start == Date{2027y / 3 / 1});
    CHECK(plan.season.rest_days == std::vector<unsigned>{7});
    CHECK(plan.season.days_off.at(0) == DayOff{Date{2027y / 8 / 9}, Date{2027y / 8 / 15}, "gala"});
    CHECK(plan.weather.unfishable_fraction.by_month[5] == Number(0.12));
    CHECK_FALSE(plan.weather.unfishable_fraction.by_month[0].has_value());
    CHECK_FALSE(plan.weather.unfishable_fraction.one_for_all);
    CHECK(plan.species.at(0).per_haul == Number(0.11, 0.13, 0.15));
    CHECK_FALSE(plan.species.at(1).usual_soak_nights.has_value());
    CHECK(plan.outlet.at(0).month_factor.one_for_all);
    CHECK(plan.outlet.at(0).month_factor.by_month[11] == Number(1.0));
    CHECK(plan.boat.at(0).day_costs.at(0) == NamedAmount<Number>{"ice", 12.0});
    CHECK(plan.boat.at(0).crew.at(0).pay == PayKind::share_after_bait_and_fuel);
    CHECK(plan.boat.at(0).crew.at(1).pay == PayKind::day_wage);
    CHECK(plan.boat.at(0).breakdown.at(0).repair == EventSize{350.0, 80.0, 1200.0, true});
    CHECK(plan.boat.at(0).breakdown.at(0).days_lost == EventSize{1.0, 0.0, 3.0, true});
    CHECK(plan.boat.at(0).gear_loss.value().replace == ReplaceWhen::next_season);
    CHECK(plan.boat.at(0).insurance.value().pay_month == 5);
    CHECK(plan.standing.at(0).month == 3);
    CHECK(plan.household.tax_months == std::vector<unsigned>{1});
    CHECK(plan.base.before == nullptr);
}

// Source: the readings of the model: what a plan leaves out does nothing.
TEST_CASE("what the plan leaves out does nothing", "[plan]") {
    const Plan plan = read_plan(sound_text(), "plan.toml").plan;

    CHECK(plan.boat.at(0).catching_power == Number(1.0));
    CHECK(plan.boat.at(0).weather_odds_multiplier == Number(1.0));
    CHECK(plan.boat.at(0).fuel_l_per_100_hauls == Number(0.0));
    CHECK(plan.species.at(1).day_sd == Number(0.0));
    CHECK(plan.household.wear_allowance == Number(0.0));
    CHECK(plan.loan.at(0).months.empty());
}

// Source: the plan's own text; toml++ would give the names in the order of the alphabet.
TEST_CASE("prices keep the order of the plan", "[plan]") {
    const Plan plan = read_plan(sound_text(), "plan.toml").plan;

    REQUIRE(plan.outlet.at(0).price.items.size() == 2);
    CHECK(plan.outlet.at(0).price.items[0] == std::pair<std::string, Number>("lobster", 14.5));
    CHECK(plan.outlet.at(0).price.items[1] == std::pair<std::string, Number>("crab", 2.7));
}

TEST_CASE("prices, limits and demand of grades keep the order of the plan", "[plan]") {
    const Plan plan = read_plan(business_text(), "plan.toml").plan;
    const auto names_of = [](const auto& items) {
        std::vector<std::string> names;
        for (const auto& [name, number] : items) names.push_back(name);
        return names;
    };

    CHECK(names_of(plan.outlet.at(0).price.items)
          == std::vector<std::string>{"lobster", "number ones", "browns", "large"});
    CHECK(names_of(plan.outlet.at(0).daily_limit.each) == std::vector<std::string>{"lobster", "browns"});
    CHECK(names_of(plan.outlet.at(1).demand_per_open_day.each)
          == std::vector<std::string>{"lobster", "number ones", "browns", "large", "small prawns"});
}

// Source: the plan format: months by name, or one value, or one guess, for all of them.
TEST_CASE("a guess for all months is told from a table of months", "[plan]") {
    const std::string all =
        changed(sound_text(), "draw_per_month = 1500", "draw_per_month = { low = 1200, typical = 1500, high = 1900 }");
    const std::string some = changed(sound_text(), "draw_per_month = 1500",
                                     "draw_per_month = { jul = { low = 1200, typical = 1500, high = 1900 } }");

    const auto& for_all = read_plan(all, "plan.toml").plan.household.draw_per_month;
    const auto& for_july = read_plan(some, "plan.toml").plan.household.draw_per_month;

    CHECK(for_all.one_for_all);
    CHECK(for_all.by_month[0] == Number(1200.0, 1500.0, 1900.0));
    CHECK_FALSE(for_july.one_for_all);
    CHECK(for_july.by_month[6] == Number(1200.0, 1500.0, 1900.0));
    CHECK_FALSE(for_july.by_month[0].has_value());
}

// Source: the plan format: a key of a later day may hold the value that means nothing.
TEST_CASE("keys of a later day are accepted while they do nothing", "[plan]") {
    std::string text = changed(sound_text(), "persistence = 0.35", "persistence = 0.35\nturned_back_fraction = 0");
    text = changed(text, "pot_cost = 75",
                   "pot_cost = 75\n  storm_odds_per_season = 0.0\n  storm_loss_fraction = { low = 0.1, typical = 0.3, "
                   "high = 0.7 }");
    text = changed(text, "deductible = 1500", "deductible = 1500\n  gear_covered = false");
    text = changed(text, "claimable_odds = 0.1", "claimable_odds = 0.1\n  wear_shape = 1.0\n  hours = 4000");

    CHECK(texts_of(read_plan(text, "plan.toml").findings).empty());
}

TEST_CASE("the example plan reads without a word", "[plan]") {
    const PlanReading reading =
        read_plan(text_of(repository() / "examples" / "plans" / "one_boat.toml"), "one_boat.toml");

    CHECK(texts_of(reading.findings).empty());
}
