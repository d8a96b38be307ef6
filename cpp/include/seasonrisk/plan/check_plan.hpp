// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "seasonrisk/plan/finding.hpp"
#include "seasonrisk/plan/plan.hpp"

namespace seasonrisk {

/// The rule book: every problem of the plan's values, all at once, without lines (a plan built in
/// code has none; `read_plan` adds them). Used by C++, Python and the command line alike.
std::vector<Finding> check_plan(const Plan& plan);

/// \throws PlanError with every finding when there is at least one error.
void require_sound(const Plan& plan);

}  // namespace seasonrisk
