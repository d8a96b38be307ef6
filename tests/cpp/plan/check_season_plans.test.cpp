// SPDX-License-Identifier: MIT
#define BOOST_BIND_GLOBAL_PLACEHOLDERS  // Boost 1.74's own reader of JSON says a needless word without it
#include <boost/property_tree/json_parser.hpp>
#include <boost/property_tree/ptree.hpp>

#include <filesystem>
#include <string>

#include "catch.hpp"
#include "plan_files.hpp"

using namespace plan_tests;
using namespace seasonrisk;

namespace {

std::filesystem::path season_checks() {
    std::filesystem::path folder = std::filesystem::weakly_canonical(repository());
    return folder.parent_path() / "shared" / "checks" / "season.json";
}

}  // namespace

// Source: the plans of ../shared/checks/season.json, written apart from this library.
TEST_CASE("the plans of the outside checks read without an error, and so do their choices", "[plan]") {
    if (!std::filesystem::exists(season_checks())) {
        WARN("skipped: the outside checks are not beside this repository");
        SUCCEED();
        return;
    }
    boost::property_tree::ptree checks;
    boost::property_tree::read_json(season_checks().string(), checks);
    for (const auto& [unnamed, check] : checks) {
        const auto id = check.get<std::string>("id");
        const PlanReading reading = read_plan(check.get<std::string>("plan"), id);
        INFO(id);
        for (const Finding& finding : reading.findings) {
            INFO(to_text(finding));
            CHECK(finding.severity == Severity::warning);
        }
        for (const Choice& choice : reading.plan.choice) {
            const PlanReading chosen = read_plan(check.get<std::string>("plan"), id,
                                                 changes_of_choice(check.get<std::string>("plan"), choice.name));
            INFO(choice.name);
            for (const Finding& finding : chosen.findings) INFO(to_text(finding));
            CHECK(chosen.ok());
        }
    }
}
