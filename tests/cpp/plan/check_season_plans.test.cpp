// SPDX-License-Identifier: MIT
#define BOOST_BIND_GLOBAL_PLACEHOLDERS  // Boost 1.74's own reader of JSON says a needless word without it
#include <boost/property_tree/json_parser.hpp>
#include <boost/property_tree/ptree.hpp>

#include <filesystem>
#include <set>
#include <string>

#include "catch.hpp"
#include "plan_files.hpp"

using namespace plan_tests;
using namespace seasonrisk;

namespace {

constexpr const char* k_not_yet = "is not simulated yet";

/// Plans of the outside checks that need no more than one boat, fishery, year and outlet.
const std::set<std::string> k_in_scope = {"season-64-days",
                                          "cash-gain-and-return",
                                          "crew-three-ways",
                                          "bad-weather-in-spells",
                                          "months-and-rest-days",
                                          "year-luck-log-normal",
                                          "days-average-out",
                                          "breakdowns-two-kinds",
                                          "soak-by-rotation",
                                          "more-pots",
                                          "gear-lost",
                                          "luck-and-guess",
                                          "deductible-menu",
                                          "starting-on-the-overdraft"};

std::filesystem::path season_checks() {
    std::filesystem::path folder = std::filesystem::weakly_canonical(repository());
    return folder.parent_path() / "shared" / "checks" / "season.json";
}

}  // namespace

// Source: the plans of ../shared/checks/season.json, written apart from this library.
TEST_CASE("the plans of the outside checks read, or say only what is not simulated yet", "[plan]") {
    if (!std::filesystem::exists(season_checks())) {
        WARN("skipped: the outside checks are not beside this repository");
        SUCCEED();
        return;
    }
    boost::property_tree::ptree checks;
    boost::property_tree::read_json(season_checks().string(), checks);
    std::set<std::string> in_scope;
    for (const auto& [unnamed, check] : checks) {
        const auto id = check.get<std::string>("id");
        const PlanReading reading = read_plan(check.get<std::string>("plan"), id);
        INFO(id);
        if (reading.ok()) in_scope.insert(id);
        for (const Finding& finding : reading.findings) {
            INFO(to_text(finding));
            const bool waits = finding.message.find(k_not_yet) != std::string::npos;
            CHECK((waits || finding.severity == Severity::warning));
        }
        for (const Choice& choice : reading.plan.choice) {
            if (!reading.ok() || choice.name.starts_with("Storms")) continue;  // storms come later
            const PlanReading chosen = read_plan(check.get<std::string>("plan"), id,
                                                 changes_of_choice(check.get<std::string>("plan"), choice.name));
            INFO(choice.name);
            for (const Finding& finding : chosen.findings) INFO(to_text(finding));
            CHECK(chosen.ok());
        }
    }
    CHECK(in_scope == k_in_scope);
}
