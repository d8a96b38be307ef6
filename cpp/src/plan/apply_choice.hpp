// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "toml.hpp"

#include "notes.hpp"
#include "seasonrisk/plan/read_plan.hpp"

namespace seasonrisk {

/// Splice changes into a plan's table before it is read: each value takes the place of what its path leads
/// to, or is added where the plan left the key out. A path that leads nowhere becomes a finding.
void apply_change(toml::table& root, const std::string& path, const toml::node& value, ReadingNotes& notes);
void apply_change(toml::table& root, const Change& change, ReadingNotes& notes);

/// The `set` of choice number `index` of the plan; null when there is none.
const toml::table* set_of_choice(const toml::table& root, std::size_t index);

}  // namespace seasonrisk
