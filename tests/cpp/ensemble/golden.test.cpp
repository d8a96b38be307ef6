// SPDX-License-Identifier: MIT
#include <toml++/toml.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include "catch.hpp"
#include "hash_of.hpp"

#include "seasonrisk/ensemble/simulate.hpp"
#include "seasonrisk/plan/read_plan.hpp"

using namespace seasonrisk;
using namespace seasonrisk::tests;

// Source of the file: this engine itself, held against the scalar twin the day it was written. It tells that
// numbers moved, not that they are right. To renew it, put in what a failing run says, raise k_stream_version
// if draws moved, and say in the commit why and by how much.
TEST_CASE("the numbers of this plan are those of every other compiler, machine and day", "[ensemble][golden]") {
    const std::string data = std::string(SEASONRISK_REPOSITORY) + "/tests/data/";
    const toml::table golden = toml::parse_file(data + "golden/sound.toml");
    std::ostringstream text;
    text << std::ifstream(data + "plans/sound.toml").rdbuf();
    const PlanReading reading = read_plan(text.str(), "sound.toml");
    REQUIRE(reading.ok());
    RunOptions options;
    options.histories = 3200;
    options.key = 7;
    // Columns that came later are left out, so that the hash tells of the others what it told before.
    const toml::array& later = *golden["came_later"].as_array();
    for (const ColumnInfo& column : columns_of(reading.plan)) {
        const auto is_this = [&](const toml::node& name) { return name.value_or<std::string>("") == column.name; };
        if (std::ranges::none_of(later, is_this)) options.keep.push_back(column.name);
    }

    const Outcomes run = simulate(reading.plan, options);

    std::ostringstream hash;
    hash << std::hex << hash_of(run);
    CHECK(run.stream_version == golden["stream_version"].value_or(0));
    CHECK(hash.str() == golden["hash"].value_or<std::string>(""));
}
