// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "catch.hpp"
#include "plan/plan_files.hpp"
#include "seasonrisk/plan/read_plan.hpp"

/// \file
/// The plans of the examples, for tests that need a whole business.
namespace seasonrisk::tests {

/// By the name of its file: "one_boat".
inline Plan shipped_plan(const std::string& name) {
    const std::filesystem::path path = plan_tests::repository() / "examples" / "plans" / (name + ".toml");
    const PlanReading reading = read_plan(plan_tests::text_of(path), path.string());
    REQUIRE(reading.ok());
    return reading.plan;
}

}  // namespace seasonrisk::tests
