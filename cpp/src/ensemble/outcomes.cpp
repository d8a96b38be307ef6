// SPDX-License-Identifier: MIT
#include "seasonrisk/ensemble/outcomes.hpp"

#include <algorithm>
#include <stdexcept>

namespace seasonrisk {

Outcomes::Outcomes(std::vector<ColumnInfo> columns, std::uint64_t histories)
    : columns_(std::move(columns)),
      histories_(histories),
      capacity_(histories),
      // Not zero-filled: every value is written once, and touching the memory twice would cost as much as a step.
      values_(std::make_unique_for_overwrite<double[]>(columns_.size() * static_cast<std::size_t>(histories))) {}

bool Outcomes::has(std::string_view name) const {
    return std::ranges::find(columns_, name, &ColumnInfo::name) != columns_.end();
}

std::span<const double> Outcomes::column(std::string_view name) const {
    const auto found = std::ranges::find(columns_, name, &ColumnInfo::name);
    if (found == columns_.end()) {
        std::string kept;
        for (const ColumnInfo& info : columns_) kept += (kept.empty() ? "" : ", ") + info.name;
        throw std::out_of_range("column=" + std::string(name) + ": not kept in this run; kept are: " + kept);
    }
    const auto index = static_cast<std::size_t>(found - columns_.begin());
    return {values_.get() + index * static_cast<std::size_t>(capacity_), static_cast<std::size_t>(histories_)};
}

double* Outcomes::writable(std::size_t column_index) {
    return values_.get() + column_index * static_cast<std::size_t>(capacity_);
}

void Outcomes::keep_prefix(std::uint64_t histories) { histories_ = std::min(histories, histories_); }

}  // namespace seasonrisk
