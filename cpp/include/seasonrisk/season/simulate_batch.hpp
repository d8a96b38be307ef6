// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/season/endings.hpp"
#include "seasonrisk/season/prepared_plan.hpp"
#include "seasonrisk/season/workspace.hpp"

namespace seasonrisk {

/// Simulate one batch of histories: the whole model, told day by day in `simulate_batch.cpp`. The three
/// entry points are the same source for three instruction sets and give the same bits. With `endings`, these are told
/// beside the season.
void simulate_batch_baseline(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, EndingsBeside* endings = nullptr);
void simulate_batch_avx2(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, EndingsBeside* endings = nullptr);
void simulate_batch_avx512(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, EndingsBeside* endings = nullptr);

/// Sees the workspace at the end of every day of the money year (`today` counts from 0).
struct DayWatcher {
    static constexpr bool watches = true;
    virtual ~DayWatcher() = default;
    virtual void end_of_day(const Day& day, int today, const Workspace& work) = 0;
};

/// The same batch, watched: for telling one history day by day.
void simulate_batch_watched(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, DayWatcher& watcher);

}  // namespace seasonrisk
