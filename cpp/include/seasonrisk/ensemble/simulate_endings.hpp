// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <vector>

#include "seasonrisk/ensemble/simulate.hpp"

namespace seasonrisk {

/// The plan with fishing stopped on `stop`: a choice made from it, whatever stop the plan has itself.
Plan with_stop(const Plan& plan, Date stop);

/// What a run of each of these last days of fishing gives, under the same luck: entry n is, to the bit, what `simulate`
/// gives for `with_stop(plan, stops[n])`. A single season is simulated once, and of each ending only the short rest from
/// the day its gear would begin to come in; a run of several seasons is simulated anew for each stop, for what an early
/// end changes in one goes on in the next.
/// After a stop all entries have the same completed prefix.
/// \throws PlanError (a stop outside the season, among others), std::invalid_argument (no stops, histories, unknown
///         column), RunTooLarge
std::vector<Outcomes> simulate_endings(const Plan& plan, const std::vector<Date>& stops, const RunOptions& options,
                                       const std::function<void(std::uint64_t done)>& progress = {});

}  // namespace seasonrisk
