// SPDX-License-Identifier: MIT
#pragma once

#include <toml++/toml.h>

#include <cstdint>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include "catch.hpp"
#include "invented_plan.hpp"

/// \file
/// Many plans out of one: the plan that uses every key, with some of its features taken out.
namespace seasonrisk::tests {

/// tests/data/plans/every_key.toml: three boats over five years, invented.
inline toml::table every_key() {
    return toml::parse_file(std::string(SEASONRISK_REPOSITORY) + "/tests/data/plans/every_key.toml");
}

inline Plan plan_of(const toml::table& table) {
    std::ostringstream text;
    text << table;
    return plan_of(text.str());
}

inline toml::table& boat_of(toml::table& plan, std::size_t number) { return *plan["boat"][number].as_table(); }

/// The same plan for the same number. 0 has every feature; of any other, each feature is left out or not by a bit of
/// a mixed number (multiplication by 2^32 / golden ratio, as in Knuth's hash), and there are fewer boats and years.
inline toml::table varied(std::uint32_t number) {
    toml::table plan = every_key();
    std::uint32_t bits = (number * 2654435769u) ^ (number * 2654435769u >> 15);
    const auto left_out = [&bits] {
        bits = bits >> 1 | bits << 31;
        return (bits & 1u) != 0;
    };
    for (const char* section : {"limit", "shock", "order", "holding", "skipper", "ending", "family_date", "input", "loan", "asset", "household", "growth"}) {
        if (left_out()) plan.erase(section);
    }
    for (const char* section : {"choice", "stress", "suppose", "sources"}) plan.erase(section);  // they speak of what may be gone
    if (left_out()) plan["season"].as_table()->erase("stop_on");
    plan["boat"].as_array()->resize(3 - number % 3, toml::table{});
    plan["business"].as_table()->insert_or_assign("years", 5 - static_cast<int>(number % 5));
    plan["boat"].as_array()->for_each([&](toml::table& boat) {
        if (left_out()) boat.erase("crew");
        if (left_out()) {
            boat.erase("breakdown");
            boat.erase("spare");
        }
        for (const char* key : {"gear_loss", "insurance", "stay_in_below", "owner_days_per_month", "ground_share", "weather_odds_multiplier"}) {
            if (left_out()) boat.erase(key);
        }
    });
    return plan;
}

}  // namespace seasonrisk::tests
