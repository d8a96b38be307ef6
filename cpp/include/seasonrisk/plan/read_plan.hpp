// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "seasonrisk/plan/finding.hpp"
#include "seasonrisk/plan/plan.hpp"

namespace seasonrisk {

/// One change to a plan: a key path and its new value written as TOML ("520", "{ low = 1.0, ... }"). A path that ends
/// in ".+" adds an entry to a list ("loan.+"); an empty value takes the entry at the path out.
struct Change {
    std::string path{};
    std::string value{};
    bool operator==(const Change&) const = default;
};

/// A plan as read, with all that the rule book found. `plan` may be used only when no finding is an error.
struct PlanReading {
    Plan plan{};
    std::vector<Finding> findings{};  ///< by line; errors and warnings
    bool ok() const;                  ///< no errors
};

/// Read a plan from TOML text, apply `changes` in order, and hold it against the whole rule book.
/// Never throws for what is wrong with the text: every problem is a finding with file, line and hint.
/// `changes` make a *choice*: the plan remembers the pots of the plan before them (`Plan::base`).
/// A plan that is not sound before its changes is told so, and the changes are not looked at.
PlanReading read_plan(std::string_view toml_text, const std::string& file_name,
                      const std::vector<Change>& changes = {});

/// What the named choice of the plan in `toml_text` does: what it sets in the order written, then what it adds, takes
/// out and spends.
/// \throws std::out_of_range naming the choices there are, when there is none of that name.
/// \throws PlanError when the text cannot be read as TOML.
std::vector<Change> changes_of_choice(std::string_view toml_text, const std::string& choice_name);

/// The same of the named stress.
std::vector<Change> changes_of_stress(std::string_view toml_text, const std::string& stress_name);

}  // namespace seasonrisk
