// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "toml.hpp"

#include "notes.hpp"
#include "seasonrisk/plan/read_plan.hpp"

namespace seasonrisk {

/// Splice a change into a plan's table before it is read: its value takes the place of what its path leads to, or is
/// added where the plan left the key out. A path that leads nowhere becomes a finding.
void apply_change(toml::table& root, const Change& change, ReadingNotes& notes);

/// One thing a choice does: a value set at a path, an entry added to the list at "path.+", or, without a value, the
/// entry at the path taken out.
struct Splice {
    std::string path{};
    const toml::node* value = nullptr;
};

/// What a choice does, in the order it is done: `set` as written, what is added, what is taken out, what is spent.
std::vector<Splice> splices_of(const toml::table& choice);

/// Where the choice is written, for messages: its first key that does something, named when it is the only one.
struct ChoicePlace {
    std::string key{};
    toml::source_position position{};
};
ChoicePlace place_of(const toml::table& choice);

void apply_splice(toml::table& root, const Splice& splice, ReadingNotes& notes);

}  // namespace seasonrisk
