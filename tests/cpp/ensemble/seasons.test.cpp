// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include "catch.hpp"
#include "invented_plan.hpp"

#include "seasonrisk/ensemble/simulate.hpp"

using Catch::Matchers::WithinAbs;
using namespace seasonrisk;
using namespace seasonrisk::tests;

namespace {

constexpr std::uint64_t k_histories = 3'200;

Outcomes run(const Plan& plan) {
    RunOptions options;
    options.histories = k_histories;
    options.key = 3;
    options.keep = {"all"};
    return simulate(plan, options);
}
Outcomes run(const std::string& text) { return run(plan_of(text)); }

/// Largest distance between two sums of columns over all histories. A term is a column name, "-" before it
/// takes it away.
double worst_gap(const Outcomes& outcomes, const std::string& left, const std::vector<std::string>& right, double constant = 0.0) {
    double worst = 0.0;
    for (std::size_t history = 0; history < outcomes.histories(); ++history) {
        double sum = constant;
        for (const std::string& term : right) sum += term[0] == '-' ? -outcomes.column(term.substr(1))[history] : outcomes.column(term)[history];
        worst = std::max(worst, std::abs(outcomes.column(left)[history] - sum));
    }
    return worst;
}

bool ever_above_zero(const Outcomes& outcomes, const std::string& name) {
    return std::ranges::any_of(outcomes.column(name), [](double value) { return value > 0.0; });
}

/// Histories in which `name` is lower than before by more than rounding.
std::size_t hurt(const Outcomes& before, const Outcomes& after, const std::string& name) {
    std::size_t count = 0;
    for (std::size_t history = 0; history < k_histories; ++history) count += after.column(name)[history] < before.column(name)[history] - 1e-6;
    return count;
}

constexpr double k_a_penny = 0.005;  // half of one: "to the penny"

const std::vector<std::string> k_wholes{"running", "household", "closing_cash", "lowest_cash", "cash_room", "end_position"};

}  // namespace

// Source: definitions of the rungs and of the reconciliation (the books' own identities), in every history; once
// with pots replaced at once and once next season.
TEST_CASE("earned and paid books agree in every history", "[ensemble]") {
    for (const char* replace : {"next season", "at once"}) {
        const Outcomes year = run(with(k_invented_plan, "replace = \"next season\"", std::string("replace = \"") + replace + "\""));
        INFO(replace);
        CHECK(worst_gap(year, "running", {"sales", "-fuel", "-bait", "-day_costs", "-crew_pay", "-selling_costs", "-repairs", "claims", "-pots_lost_cost"}) < k_a_penny);
        CHECK(worst_gap(year, "standing", {"running", "-standing_costs", "-inputs"}) < k_a_penny);
        CHECK(worst_gap(year, "loan", {"standing", "-loan_payments", "-overdraft_interest"}) < k_a_penny);
        CHECK(worst_gap(year, "household", {"loan", "-tax", "-draw", "other_income"}) < k_a_penny);
        CHECK(worst_gap(year, "closing_cash", {"household", "-owed_to_us", "owed_by_us"}, 2000.0) < k_a_penny);
        CHECK(worst_gap(year, "end_position", {"closing_cash", "owed_to_us", "-owed_by_us", "-loan_balance"}) < k_a_penny);
        CHECK(worst_gap(year, "crew_pay", {"crew_pay.first hand", "crew_pay.second hand"}) < k_a_penny);
        CHECK(worst_gap(year, "closing_cash", {"cash.2028-02"}) == 0.0);
        // The luck that these sums are about did happen.
        for (const char* name : {"repairs", "claims", "pots_lost_cost", "overdraft_interest", "tax", "owed_by_us"}) CHECK(ever_above_zero(year, name));
    }
}

// Source: definitions (lowest month end, first when tied; room above the end of the overdraft, here 9,000).
TEST_CASE("the lowest cash is the lowest month end and stands in its month", "[ensemble]") {
    const Plan plan = invented_plan();
    const Outcomes year = run(plan);
    std::vector<std::string> months;
    for (const ColumnInfo& info : year.columns()) {
        if (info.name.starts_with("cash.")) months.push_back(info.name);
    }
    REQUIRE(months.size() == 12);
    CHECK(months.front() == "cash.2027-03");
    std::size_t wrong = 0;
    for (std::size_t history = 0; history < year.histories(); ++history) {
        std::vector<double> path;
        for (const std::string& month : months) path.push_back(year.column(month)[history]);
        const auto lowest = std::ranges::min_element(path);
        wrong += year.column("lowest_cash")[history] != *lowest;
        wrong += year.column("lowest_cash_month")[history] != static_cast<double>(lowest - path.begin());
        wrong += std::abs(year.column("cash_room")[history] - (*lowest + 9000.0)) > k_a_penny;
    }
    CHECK(wrong == 0);
}

// Source: by the calendar: 2 June to 20 November 2027 has 172 days, 24 of them Sundays; 14 to 16 August is a
// Saturday to a Monday, so two of the days off are not rest days.
TEST_CASE("every season day is fished or lost to one cause", "[ensemble]") {
    const Outcomes year = run(k_invented_plan);

    CHECK(worst_gap(year, "days_fished", {"-days_rest", "-days_off", "-days_broken_down", "-days_weather"}, 172.0) == 0.0);
    CHECK(worst_gap(year, "days_rest", {}, 24.0) == 0.0);
    CHECK(worst_gap(year, "days_off", {}, 2.0) == 0.0);
    CHECK(worst_gap(year, "days_setting", {}, 3.0) == 0.0);
    for (const char* name : {"days_broken_down", "days_weather"}) CHECK(ever_above_zero(year, name));
    std::size_t more_weather_than_bad_days = 0;
    for (std::size_t h = 0; h < k_histories; ++h) more_weather_than_bad_days += year.column("days_weather")[h] > year.column("bad_weather_days")[h];
    CHECK(more_weather_than_bad_days == 0);
}

// Source: common practice (more for the same catch cannot leave less), history by history on the same luck.
TEST_CASE("a higher price or cheaper fuel hurts no history", "[ensemble]") {
    const std::string paid_at_once = with(k_invented_plan, "paid_after_days = 14", "paid_after_days = 0");
    const Outcomes before = run(paid_at_once);
    const Outcomes dearer = run(with(paid_at_once, "lobster = 14.0", "lobster = 14.5"));
    const Outcomes cheap_fuel = run(with(paid_at_once, "fuel_per_l = 0.95", "fuel_per_l = 0.80"));
    for (const std::string& name : k_wholes) {
        INFO(name);
        CHECK(hurt(before, dearer, name) == 0);
        CHECK(hurt(before, cheap_fuel, name) == 0);
    }
    CHECK(hurt(dearer, before, "household") == k_histories);
    CHECK(hurt(cheap_fuel, before, "household") == k_histories);
}

// Source: by hand. Levy and the hand's share of a dearer catch go out in its week, the money comes in 14 days:
// a month end between the two is a little lower, and the year as a whole is not.
TEST_CASE("a higher price paid late can lower a month end but not the year", "[ensemble]") {
    const Outcomes before = run(k_invented_plan);
    const Outcomes dearer = run(with(k_invented_plan, "lobster = 14.0", "lobster = 14.5"));

    for (const char* name : {"running", "household", "closing_cash", "end_position"}) CHECK(hurt(before, dearer, name) == 0);
    CHECK(hurt(before, dearer, "lowest_cash") > 0);
    CHECK(hurt(before, dearer, "lowest_cash") < k_histories / 20);
}

// Source: the day table is the same history told again; sums of its days in another order, so to 1e-9 of the sum.
TEST_CASE("a history told day by day is the history of the run", "[ensemble]") {
    const Plan plan = invented_plan();
    const Outcomes year = run(plan);
    for (const std::uint64_t history : {0u, 41u, 3'199u}) {
        const DayTable days = replay(plan, 3, history);
        const auto column = [&](const std::string& name) {
            const auto found = std::ranges::find(days.columns, name, &ColumnInfo::name);
            REQUIRE(found != days.columns.end());
            return days.values[static_cast<std::size_t>(found - days.columns.begin())];
        };
        const auto total = [&](const std::string& name) {
            const std::vector<double> values = column(name);
            return std::accumulate(values.begin(), values.end(), 0.0);
        };
        CAPTURE(history);
        CHECK(days.dates.size() == 366);  // 1 March 2027 to 29 February 2028
        CHECK(column("cash").back() == year.column("closing_cash")[history]);
        CHECK(total("out") == year.column("days_fished")[history]);
        CHECK(total("weather_bad") == year.column("bad_weather_days")[history]);
        CHECK(static_cast<double>(std::ranges::count(days.why, "broken down")) == year.column("days_broken_down")[history]);
        CHECK(total("hauls") == year.column("hauls")[history]);
        for (const std::string name : {"sales", "fuel", "bait", "repairs", "pots_lost_cost", "crew_pay", "catch.lobster", "catch.crab"}) {
            INFO(name);
            CHECK_THAT(total(name), WithinAbs(year.column(name)[history], 1e-9 * (1.0 + year.column(name)[history])));
        }
    }
}

namespace {

/// Days, over 60 histories, that are bad for the tougher boat and fishable for the other.
int days_only_the_tougher_stays_in(const std::string& usual, const std::string& tougher, int& bad_for_usual) {
    const Plan plain = plan_of(usual);
    const Plan tough = plan_of(tougher);
    int count = 0;
    for (std::uint64_t history = 0; history < 60; ++history) {
        const DayTable a = replay(plain, 3, history);
        const DayTable b = replay(tough, 3, history);
        REQUIRE(a.columns[0].name == "weather_bad");
        for (std::size_t day = 0; day < a.dates.size(); ++day) {
            count += b.values[0][day] > a.values[0][day];
            bad_for_usual += a.values[0][day] != 0.0;
        }
    }
    return count;
}

}  // namespace

// Source: proof by induction over the days (one uniform a day, one persistence, ordered chances). Negative control:
// the proof needs the common persistence, and with two the days are no longer nested.
TEST_CASE("a tougher boat's bad days are among the weaker one's", "[ensemble]") {
    const std::string tougher = with(k_invented_plan, "fuel_l_per_day_out", "weather_odds_multiplier = 0.7\nfuel_l_per_day_out");
    const std::string other_harbour = with(tougher, "persistence = 0.4", "persistence = 0.8");
    int bad = 0;

    CHECK(days_only_the_tougher_stays_in(k_invented_plan, tougher, bad) == 0);
    CHECK(bad > 500);
    CHECK(days_only_the_tougher_stays_in(k_invented_plan, other_harbour, bad) > 0);
}

// Source: the list of columns as settled for this engine.
TEST_CASE("a run can keep every column by its settled name", "[ensemble]") {
    std::vector<std::string> names;
    std::vector<std::string> usual;
    for (const ColumnInfo& info : columns_of(invented_plan())) {
        names.push_back(info.name);
        if (info.usual) usual.push_back(info.name);
        CHECK_FALSE(info.unit.empty());
        CHECK_FALSE(info.meaning.empty());
    }
    std::vector<std::string> expected{"running", "standing", "loan", "household", "sales", "fuel", "bait", "day_costs", "crew_pay", "selling_costs", "repairs", "claims",
        "pots_lost_cost", "standing_costs", "inputs", "loan_payments", "loan_interest", "loan_principal", "loan_repaid_early", "missed_payments", "shortfall",
        "overdraft_interest", "tax", "draw", "other_income", "closing_cash", "lowest_cash",
        "lowest_cash_month", "cash_room", "end_position", "owed_to_us", "owed_by_us", "loan_balance", "days_fished", "days_setting", "days_rest", "days_off",
        "days_broken_down", "days_weather", "bad_weather_days", "hauls", "pots_lost", "pots_left", "claims_paid", "total_loss", "breakdowns.small", "breakdowns.big",
        "catch.lobster", "catch.crab", "crew_pay.first hand", "crew_pay.second hand",
        "order_shortfalls", "quota_lease", "switch_costs", "missed_settlements", "rehire", "assets", "days_gear_in", "days_out", "days_ashore", "days_laid_up",
        "days_no_skipper", "days_no_crew", "days_limit", "days_stayed_in", "storms"};
    for (const auto& species : invented_plan().species) expected.push_back("sold." + invented_plan().outlet[0].name + "." + species.name);
    std::vector<std::string> expected_usual{"running", "standing", "loan", "household", "sales", "fuel", "bait", "crew_pay", "repairs", "claims", "pots_lost_cost",
        "closing_cash", "lowest_cash", "lowest_cash_month", "cash_room", "days_fished", "days_broken_down", "days_weather", "days_rest", "days_off"};
    for (const char* month : {"2027-03", "2027-04", "2027-05", "2027-06", "2027-07", "2027-08", "2027-09", "2027-10", "2027-11", "2027-12", "2028-01", "2028-02"}) {
        expected.push_back(std::string("cash.") + month);
        expected_usual.push_back(std::string("cash.") + month);
    }
    for (auto* list : {&names, &usual, &expected, &expected_usual}) std::ranges::sort(*list);
    CHECK(names == expected);
    CHECK(usual == expected_usual);
}
