// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "seasonrisk/ensemble/outcomes.hpp"
#include "seasonrisk/season/prepared_plan.hpp"
#include "seasonrisk/season/workspace.hpp"

namespace seasonrisk {

/// A column and where its value stands in a workspace once a batch is done.
struct ColumnSource {
    ColumnInfo info{};
    const Lanes* lanes = nullptr;
};

/// Every column of a run, in fixed order. One list names, explains and finds them. Where a history has several
/// years the workspace is told to add the yearly ones up.
std::vector<ColumnSource> column_sources(const PreparedPlan& ready, Workspace& work);

}  // namespace seasonrisk
