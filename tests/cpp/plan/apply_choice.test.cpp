// SPDX-License-Identifier: MIT
#include <stdexcept>

#include "catch.hpp"
#include "plan_files.hpp"

using namespace plan_tests;
using namespace seasonrisk;

namespace {

PlanReading with(const std::string& path, const std::string& value) {
    return read_plan(sound_text(), "plan.toml", {{path, value}});
}

}  // namespace

// Source of what a choice does: the readings of the model (a choice may set a key that the plan left out, and
// a set value may have any form the key may have); the rest is the plan's own text.
TEST_CASE("a choice changes what it names and nothing else", "[plan]") {
    Plan expected = read_plan(sound_text(), "plan.toml").plan;
    expected.boat.at(0).fishery.at(0).count = 520.0;
    expected.base = base_of(read_plan(sound_text(), "plan.toml").plan);

    const PlanReading chosen = read_plan(sound_text(), "plan.toml", changes_of_choice(sound_text(), "More pots"));

    CHECK(texts_of(chosen.findings).empty());
    CHECK(chosen.plan == expected);
}

TEST_CASE("a changed plan remembers the pots of the plan before", "[plan]") {
    const Plan plan = read_plan(sound_text(), "plan.toml").plan;
    CHECK(before_choices(with("boat.0.fishery.0.count", "500").plan) == plan);
    CHECK(plan.base.before == nullptr);
}

TEST_CASE("a choice may set any form of a value, and what the plan left out", "[plan]") {
    CHECK(with("species.0.per_haul.high", "0.2").plan.species.at(0).per_haul == Number(0.11, 0.13, 0.2));
    CHECK(with("species.0.per_haul", "0.14").plan.species.at(0).per_haul == Number(0.14));
    CHECK(with("species.1.per_haul", "{ low = 0.5, typical = 0.6, high = 0.8 }").plan.species.at(1).per_haul
          == Number(0.5, 0.6, 0.8));
    CHECK(with("weather.unfishable_fraction.aug", "0.2").plan.weather.unfishable_fraction.by_month[7] == Number(0.2));
    CHECK(with("outlet.0.price.crab", "3").plan.outlet.at(0).price.items.at(1).second == Number(3.0));
    CHECK(with("boat.0.day_costs.0.amount", "15").plan.boat.at(0).day_costs.at(0).amount == Number(15.0));
    CHECK(with("season.rest_days", "[\"Saturday\", \"Sunday\"]").plan.season.rest_days == std::vector<unsigned>{6, 7});
    CHECK(with("boat.0.catching_power", "1.1").plan.boat.at(0).catching_power == Number(1.1));

    const std::string untied = changed(sound_text(),
                                       "[together]\nspecies_year_correlation = 0.3\nprice_catch_correlation = "
                                       "-0.3\nweather_catch_correlation = -0.2\n",
                                       "");
    const PlanReading tied = read_plan(untied, "plan.toml", {{"together.price_catch_correlation", "-0.4"}});
    CHECK(texts_of(tied.findings).empty());
    CHECK(tied.plan.together.price_catch_correlation == Number(-0.4));
}

// Source of the messages: common practice; written by hand.
TEST_CASE("a change that cannot be made says why", "[plan]") {
    const auto said = [](const PlanReading& reading) { return texts_of(reading.findings); };
    using Says = std::vector<std::string>;

    CHECK(said(with("boat.0.fishery.0.cuont", "520"))
          == Says{"plan.toml: boat.0.fishery.0.cuont = 520: is not a key of this section; did you mean count?"});
    CHECK(said(with("bot.0.name", "\"x\"")) == Says{"plan.toml: bot.0.name: leads nowhere: bot has no entries"});
    CHECK(said(with("wether.persistence", "0.2"))
          == Says{"plan.toml: wether: is not a section or key of a plan; did you mean weather?"});
    CHECK(said(with("loan.1.balance", "1"))
          == Says{"plan.toml: loan.1.balance: leads nowhere: loan has one entry, number 0"});
    CHECK(said(with("species.2.per_haul", "1"))
          == Says{"plan.toml: species.2.per_haul: leads nowhere: species has 2 entries, numbered from 0"});
    CHECK(said(with("loan.first.balance", "1"))
          == Says{"plan.toml: loan.first.balance: leads nowhere: loan has one entry, number 0"});
    CHECK(said(with("loan.0.balance", "1\nplan = 2"))
          == Says{"plan.toml: loan.0.balance: must be set to one value, not 1\nplan = 2"});
    CHECK(said(with("loan.0.years_left", "1000"))
          == Says{"plan.toml: loan.0.years_left = 1000: must be above 0 and no more than 60 (years)"});
    CHECK(said(with("season.stop_on", "2027-10-01")).empty());
    CHECK(with("loan.0.balance", std::string(20'000, '[')).findings.at(0).message == "cannot be set to a text so long");
    CHECK(with(std::string(500, 'a'), "1").findings.at(0).message == "leads nowhere: the plan has no path so long");
    CHECK(with("loan.0.balance", "[.]").findings.at(0).message.starts_with("cannot be set to [.]: "));
    CHECK(with("loan.0.balance", "six").findings.at(0).message.starts_with("cannot be set to six: "));
}

TEST_CASE("a plan that is broken before a choice says so first", "[plan]") {
    const std::string broken = changed(sound_text(), "count = 420", "count = -420");

    const PlanReading chosen = read_plan(broken, "plan.toml", {{"boat.0.fishery.0.count", "520"}});

    CHECK(texts_of(chosen.findings)
          == std::vector<std::string>{"plan.toml:72: boat.0.fishery.0.count = -420: must be above 0, and no more than "
                                      "a thousand million (pots)"});
}

TEST_CASE("the changes of a choice come in the order written, each as TOML that reads back the same", "[plan]") {
    const std::string text = changed(sound_text(), "set = { \"boat.0.fishery.0.count\" = 520 }",
                                     "set = { \"species.0.per_haul\" = { low = 0.1, typical = 0.123456789012345678, "
                                     "high = 0.2 }, \"outlet.0.price\" = { crab = 3, lobster = 0.1 }, "
                                     "\"household.tax_months\" = [\"jan\", \"jul\"], \"boat.0.name\" = "
                                     "\"Em\\\"ber\\\\\", \"business.books_start\" = 2027-04-01 }");

    const std::vector<Change> changes = changes_of_choice(text, "More pots");
    const Plan plan = read_plan(text, "plan.toml", changes).plan;

    REQUIRE(changes.size() == 5);
    CHECK(changes[0].path == "species.0.per_haul");
    CHECK(changes[1].path == "outlet.0.price");
    CHECK(changes[4].path == "business.books_start");
    CHECK(plan.species.at(0).per_haul == Number(0.1, 0.123456789012345678, 0.2));
    CHECK(plan.household.tax_months == std::vector<unsigned>{1, 7});
    CHECK(plan.boat.at(0).name == "Em\"ber\\");
    CHECK(plan.outlet.at(0).price.items.at(1) == std::pair<std::string, Number>("crab", 3.0));
}

TEST_CASE("a choice that is not there is refused with those that are", "[plan]") {
    CHECK_THROWS_WITH(changes_of_choice(sound_text(), "Fewer pots"),
                      "choice=Fewer pots: the plan has no choice of that name; it has \"More pots\"");
    CHECK_THROWS_AS(changes_of_choice("plan = 1", "Fewer pots"), std::out_of_range);
    CHECK_THROWS_AS(changes_of_choice("plan = ", "Fewer pots"), PlanError);
}

// Source of the cases below: by hand.
TEST_CASE("a choice adds a boat, a loan and an asset behind those there are", "[plan]") {
    const std::string text = changed(sound_text(), "set = { \"boat.0.fishery.0.count\" = 520 }", R"(
[[choice.add_boat]]
name = "Gull \"two\""
skipper = "hired"
fuel_l_per_day_out = 60
fuel_l_per_100_hauls = 4
  [[choice.add_boat.fishery]]
  gear = "pots"
  count = 200
  hauls_per_day = 200
  species = ["lobster"]
[choice.add_loan]
name = "Gull"
balance = 30000
rate_fraction = 0.08
years_left = 6
[[choice.add_asset]]
name = "Gull"
cost = 45000
bought = 2027-05-01
life_years = 15
resale = 12000
)");
    const PlanReading plain = read_plan(text, "plan.toml");
    REQUIRE(texts_of(plain.findings).empty());
    const PlanReading chosen = read_plan(text, "plan.toml", changes_of_choice(text, "More pots"));

    REQUIRE(chosen.ok());
    REQUIRE(chosen.plan.boat.size() == plain.plan.boat.size() + 1);
    CHECK(chosen.plan.boat.back().name == "Gull \"two\"");
    CHECK(chosen.plan.boat.back().fishery.at(0).count == Number(200.0));
    CHECK(chosen.plan.loan.size() == plain.plan.loan.size() + 1);
    CHECK(chosen.plan.loan.back().balance == Number(30000.0));
    CHECK(chosen.plan.asset.back().cost == Number(45000.0));
    CHECK(before_choices(chosen.plan).boat == plain.plan.boat);
}

TEST_CASE("what is added is as it would be if the plan had it, and can be a guess", "[plan]") {
    const PlanReading added = read_plan(sound_text(), "plan.toml", {{"loan.+", "{ name = \"Engine\", balance = 9000, rate_fraction = { low = 0.05, typical = 0.07, high = 0.1 }, years_left = 3 }"}});
    const PlanReading written = read_plan(sound_text() + "\n[[loan]]\nname = \"Engine\"\nbalance = 9000\nrate_fraction = { low = 0.05, typical = 0.07, high = 0.1 }\nyears_left = 3\n", "plan.toml");

    REQUIRE(added.ok());
    CHECK(added.plan.loan == written.plan.loan);
}

TEST_CASE("a choice takes entries out by their number in the plan, whatever the order it names them in", "[plan]") {
    const std::string two_more = "\n[[loan]]\nname = \"Second\"\nbalance = 9000\nrate_fraction = 0.07\nyears_left = 3\n"
                                 "\n[[loan]]\nname = \"Third\"\nbalance = 5000\nrate_fraction = 0.07\nyears_left = 2\n";
    const std::string text = changed(sound_text(), "set = { \"boat.0.fishery.0.count\" = 520 }", "remove = [\"loan.0\", \"loan.1\"]") + two_more;

    const PlanReading chosen = read_plan(text, "plan.toml", changes_of_choice(text, "More pots"));

    REQUIRE(chosen.ok());
    REQUIRE(chosen.plan.loan.size() == 1);
    CHECK(chosen.plan.loan.at(0).name == "Third");
}

TEST_CASE("what would move another's luck is not taken out", "[plan]") {
    const std::string guess = "\n[[loan]]\nname = \"Second\"\nbalance = 9000\nrate_fraction = { low = 0.05, typical = 0.07, high = 0.1 }\nyears_left = 3\n";
    CHECK_FALSE(read_plan(sound_text() + guess, "plan.toml", {{"loan.0", ""}}).ok());
    CHECK(read_plan(sound_text() + guess, "plan.toml", {{"loan.1", ""}}).ok());
}

TEST_CASE("money spent now is spent once, with what is bought ahead", "[plan]") {
    const std::string text = changed(sound_text(), "set = { \"boat.0.fishery.0.count\" = 520 }", "spend_now = 4000");
    CHECK(read_plan(text, "plan.toml", changes_of_choice(text, "More pots")).plan.business.spend_now == Number(4000.0));
    CHECK(read_plan(text, "plan.toml").plan.business.spend_now == Number(0.0));
}
