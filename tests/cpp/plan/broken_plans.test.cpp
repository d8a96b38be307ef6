// SPDX-License-Identifier: MIT
#include <toml++/toml.h>

#include <fstream>
#include <random>
#include <sstream>

#include "catch.hpp"
#include "seasonrisk/plan/check_plan.hpp"
#include "seasonrisk/plan/read_plan.hpp"

using namespace seasonrisk;

namespace {

std::string text_of(const std::string& name) {
    std::ifstream file(std::string(SEASONRISK_REPOSITORY) + "/tests/data/" + name);
    REQUIRE(file);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    std::size_t at = text.find(what);
    REQUIRE(at != std::string::npos);
    for (; at != std::string::npos; at = text.find(what, at + by.size())) text.replace(at, what.size(), by);
    return text;
}

std::vector<std::string> said(const PlanReading& reading) {
    std::vector<std::string> lines;
    for (const Finding& finding : reading.findings) lines.push_back(to_text(finding));
    return lines;
}

}  // namespace

TEST_CASE("the sound plan that is broken below is sound", "[plan]") {
    CHECK(said(read_plan(text_of("plans/sound.toml"), "plan")).empty());
}

// Source of the texts: written and read aloud by us; they are the wording, so they stand in a file to review.
TEST_CASE("every broken plan gets its own help, with its line", "[plan]") {
    const std::string sound = text_of("plans/sound.toml");
    const toml::table file = toml::parse(text_of("broken_plans.toml"));
    const toml::array& cases = *file["case"].as_array();
    REQUIRE(cases.size() >= 70);
    for (const toml::node& node : cases) {
        const toml::table& broken = *node.as_table();
        const std::string name = broken["name"].value_or<std::string>("");
        CAPTURE(name);
        std::vector<std::string> expected;
        for (const toml::node& line : *broken["says"].as_array()) expected.push_back(line.value_or<std::string>(""));

        const PlanReading reading = read_plan(replaced(sound, broken["replace"].value_or<std::string>(""), broken["by"].value_or<std::string>("")), "plan");

        CHECK_FALSE(reading.ok());
        CHECK(said(reading) == expected);
    }
}

TEST_CASE("five problems are told at once, by line", "[plan]") {
    std::string text = text_of("plans/sound.toml");
    text = replaced(text, "share_fraction = 0.2", "share_fraction = 20");
    text = replaced(text, "fuel_per_l = 0.95", "fuel_per_l = -1");
    text = replaced(text, "end = 2027-11-30", "end = 2027-05-01");
    text = replaced(text, "persistence = 0.45", "persistance = 0.45");
    text = replaced(text, "money = \"GBP\"", "money = \"quid\"");

    const PlanReading reading = read_plan(text, "plan");

    std::vector<int> lines;
    for (const Finding& finding : reading.findings) lines.push_back(finding.line);
    CHECK(std::ranges::is_sorted(lines));
    CHECK(std::ranges::count_if(reading.findings, [](const Finding& finding) { return finding.severity == Severity::error; }) >= 5);
}

TEST_CASE("text that is no plan is explained", "[plan]") {
    CHECK(said(read_plan("", "plan")) == std::vector<std::string>{"plan: the plan is empty; start from one that works: seasonrisk new"});
    CHECK(said(read_plan(" \n\t\n", "plan")) == std::vector<std::string>{"plan: the plan is empty; start from one that works: seasonrisk new"});
    CHECK(said(read_plan("plan = 1\nname = \"\xff\"\n", "plan")) == std::vector<std::string>{"plan:2: is not UTF-8 text; save the file as UTF-8 in your editor"});
}

TEST_CASE("a plan without any one of its lines is read or explained, never a crash", "[plan]") {
    std::istringstream sound(text_of("plans/sound.toml"));
    std::vector<std::string> lines;
    for (std::string line; std::getline(sound, line);) lines.push_back(line);
    int read = 0;
    int explained = 0;
    for (std::size_t without = 0; without < lines.size(); ++without) {
        std::string text;
        for (std::size_t n = 0; n < lines.size(); ++n) text += n == without ? "" : lines[n] + "\n";
        const PlanReading reading = read_plan(text, "plan");
        (reading.ok() ? read : explained) += 1;
        CHECK((reading.ok() || !reading.findings.empty()));
    }
    CHECK(read > 10);
    CHECK(explained > 40);
}

TEST_CASE("a plan with bytes changed at random is read or explained, never a crash", "[plan]") {
    const std::string sound = text_of("plans/sound.toml");
    std::mt19937 words(7);  // the test's own luck, fixed
    int explained = 0;
    constexpr int tries = 3000;
    for (int attempt = 0; attempt < tries; ++attempt) {
        std::string text = sound;
        const auto changes = 1 + words() % 4;
        for (unsigned change = 0; change < changes; ++change) text[words() % text.size()] = static_cast<char>(words() % 256);
        const PlanReading reading = read_plan(text, "plan");
        if (!reading.ok()) ++explained;
        for (const Finding& finding : reading.findings) {
            if (finding.message.empty()) FAIL("a finding says nothing: " << text);
        }
    }
    CHECK(explained > tries / 2);
}

TEST_CASE("a choice keeps the pots of the plan before it, and its values are held against the rule book", "[plan]") {
    const std::string text = text_of("plans/sound.toml");
    const std::vector<Change> changes = changes_of_choice(text, "More pots");
    REQUIRE(changes == std::vector<Change>{{"boat.0.fishery.0.count", "520"}});

    const PlanReading chosen = read_plan(text, "plan", changes);

    REQUIRE(chosen.ok());
    CHECK(chosen.plan.boat[0].fishery[0].count == Number(520.0));
    CHECK(chosen.plan.base.pots == std::vector<Number>{Number(420.0)});
    CHECK(said(read_plan(text, "plan", {{"boat.0.fishery.0.count", "-5"}})).front()
          == "plan: boat.0.fishery.0.count = -5: must be above 0, and no more than a thousand million (pots)");
    CHECK(said(read_plan(text, "plan", {{"boat.1.fishery.0.count", "5"}})).front() == "plan: boat.1.fishery.0.count: leads nowhere: boat has 1 entries, counted from 0");
    CHECK_THROWS_AS(changes_of_choice(text, "Fewer pots"), std::out_of_range);
}

TEST_CASE("a choice may set a key that the plan left out, and any form the key may have", "[plan]") {
    const std::string text = text_of("plans/sound.toml");
    const PlanReading chosen = read_plan(text, "plan", {{"outlet.0.month_factor.aug", "0.9"}, {"species.1.per_haul", "{ low = 0.5, typical = 0.6, high = 0.7 }"}});

    REQUIRE(chosen.plan.outlet[0].month_factor.by_month[7].has_value());
    CHECK(*chosen.plan.outlet[0].month_factor.by_month[7] == Number(0.9));
    CHECK(chosen.plan.species[1].per_haul == Number(0.5, 0.6, 0.7));
}

TEST_CASE("the rule book speaks of a plan built in code, without lines", "[plan]") {
    Plan plan = read_plan(text_of("plans/sound.toml"), "plan").plan;
    REQUIRE_NOTHROW(require_sound(plan));
    plan.boat[0].crew[0].share_fraction = Number(20.0);

    try {
        require_sound(plan);
        FAIL("a share of 20 was let through");
    } catch (const PlanError& error) {
        CHECK(error.findings.size() == 2);
        CHECK(std::string(error.what()).find("boat.0.crew.0.share_fraction = 20") != std::string::npos);
    }
}
