// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/check_plan.hpp"

#include <algorithm>

#include "catch.hpp"
#include "plan_files.hpp"
#include "seasonrisk/plan/guesses.hpp"

using namespace plan_tests;
using namespace seasonrisk;

namespace {

Plan sound_plan() { return read_plan(sound_text(), "plan.toml").plan; }
using Says = std::vector<std::string>;

}  // namespace

// Source of the messages: common practice, as in tests/data/broken_plans.
TEST_CASE("a plan built in code is held to the same rules, without a file or line", "[plan]") {
    Plan plan = sound_plan();
    CHECK(check_plan(plan).empty());

    plan.boat.at(0).fishery.at(0).count = Number(-1.0);
    plan.season.end = *plan.season.start - std::chrono::days{1};

    CHECK(texts_of(check_plan(plan))
          == Says{"boat.0.fishery.0.count = -1: must be above 0, and no more than a thousand million (pots)",
                  "season.end = 2027-05-31: is before the season's start, 2027-06-01; a season over New Year ends in "
                  "the next year"});
}

TEST_CASE("an empty plan lacks what every plan needs", "[plan]") {
    const std::vector<std::string> says = texts_of(check_plan(Plan{}));

    CHECK(std::ranges::count(says, "boat: is missing: one [[boat]] is needed") == 1);
    CHECK(std::ranges::count(says, "outlet: is missing: one [[outlet]] is needed") == 1);
    CHECK(std::ranges::count(says, "species: is missing: at least one [[species]] is needed") == 1);
    CHECK(std::ranges::count(says, "season.start: is missing: first day of the season") == 1);
}

TEST_CASE("a sound plan passes, and one that is not throws with all that is wrong", "[plan]") {
    Plan plan = sound_plan();
    CHECK_NOTHROW(require_sound(plan));

    plan.business.money = "pounds";
    plan.weather.persistence = Number(1.0);

    CHECK_THROWS_WITH(
        require_sound(plan),
        "weather.persistence = 1: must be 0 or more and below 1\n"
        "business.money = \"pounds\": must be the three capital letters of a currency, such as GBP, EUR or USD");
}

TEST_CASE("a warning alone stops nothing", "[plan]") {
    Plan plan = sound_plan();
    plan.boat.at(0).fishery.at(0).count = Number(200.0);

    CHECK(check_plan(plan).size() == 1);
    CHECK_NOTHROW(require_sound(plan));
}

// Source: the two names were found by search; that they collide is checked here.
TEST_CASE("two guesses that would share their draws are refused", "[plan]") {
    REQUIRE(path_hash("outlet.0.price.cecovi") == path_hash("outlet.0.price.junade"));
    std::string text = sound_text();
    for (const char* species : {"lobster", "crab"}) {
        const std::string name = std::string(species) == "crab" ? "junade" : "cecovi";
        for (std::size_t at = text.find(species); at != std::string::npos; at = text.find(species, at))
            text.replace(at, std::string(species).size(), name);
    }
    text = changed(text, "cecovi = 14.5, junade = 2.7",
                   "cecovi = { low = 12, typical = 14, high = 16 }, junade = { low = 2, typical = 2.7, high = 3 }");

    CHECK(texts_of(read_plan(text, "plan.toml").findings)
          == Says{"plan.toml:48: outlet.0.price.junade: would share its draws with outlet.0.price.cecovi; give one of "
                  "the two a single number"});
}

// Source: one share of a third each is common practice; 0.333... three times is not above one.
TEST_CASE("shares that add up to one are accepted", "[plan]") {
    Plan plan = sound_plan();
    auto& crew = plan.boat.at(0).crew;
    crew[1] = crew[0];
    crew.push_back(crew[0]);
    for (std::size_t n = 0; n < 3; ++n) {
        crew[n].name = "hand " + std::to_string(n);
        crew[n].share_fraction = Number(n == 2 ? 0.4 : 0.3);  // 0.3 + 0.3 + 0.4 in doubles
    }

    CHECK(check_plan(plan).empty());
}
