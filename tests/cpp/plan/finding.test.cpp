// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/finding.hpp"

#include "catch.hpp"

using namespace seasonrisk;

// Source: the one form that findings have, `file:line: path = value: message; hint`.
TEST_CASE("a finding leaves out what it does not have", "[plan]") {
    const Finding whole{Severity::error,
                        "boat.0.crew.0.share_fraction",
                        "20",
                        "must be from 0 to 1",
                        "did you mean 0.2?",
                        "plan.toml",
                        27,
                        20};
    CHECK(to_text(whole) == "plan.toml:27: boat.0.crew.0.share_fraction = 20: must be from 0 to 1; did you mean 0.2?");

    const Finding of_code{Severity::warning, "species", "", "is doubtful", "", "", 0, 0};
    CHECK(to_text(of_code) == "warning: species: is doubtful");

    const Finding of_file{Severity::error, "", "", "the plan is empty", "", "plan.toml", 0, 0};
    CHECK(to_text(of_file) == "plan.toml: the plan is empty");
}

TEST_CASE("a plan error lists every finding, one on a line, and carries them", "[plan]") {
    const Finding first{Severity::error, "plan", "2", "must be 1", "", "", 0, 0};
    const Finding second{Severity::warning, "species", "", "is doubtful", "", "", 0, 0};

    const PlanError error({first, second});

    CHECK(std::string(error.what()) == "plan = 2: must be 1\nwarning: species: is doubtful");
    CHECK(error.findings.size() == 2);
}
