// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "seasonrisk/plan/plan.hpp"

namespace seasonrisk {

/// Changes when the draws of a plan change; stands in every result and golden file.
inline constexpr int k_stream_version = 1;

/// One quantity that a run can keep, one double per history.
struct ColumnInfo {
    std::string name{};     ///< "household", "days_fished", "catch.lobster", "cash.2027-08"
    std::string unit{};     ///< "money", "days", the species' unit, ...
    std::string meaning{};  ///< one line
    bool usual = false;     ///< kept when nothing else is asked for
};

/// Every quantity a run of this plan can keep, in fixed order.
std::vector<ColumnInfo> columns_of(const Plan& plan);

/// What a run gives back: one contiguous column per kept quantity.
class Outcomes {
public:
    Outcomes(std::vector<ColumnInfo> columns, std::uint64_t histories);

    const std::vector<ColumnInfo>& columns() const { return columns_; }
    std::uint64_t histories() const { return histories_; }  ///< completed, from the first on
    bool has(std::string_view name) const;
    /// \throws std::out_of_range naming the kept columns
    std::span<const double> column(std::string_view name) const;

    double* writable(std::size_t column_index);   ///< for the engine only
    void keep_prefix(std::uint64_t histories);     ///< after a stop: the completed histories

    std::uint64_t key = 0;
    std::uint64_t histories_asked = 0;
    int threads = 1;
    std::string instructions{};
    double seconds = 0.0;
    int stream_version = k_stream_version;

private:
    std::vector<ColumnInfo> columns_;
    std::uint64_t histories_ = 0;
    std::uint64_t capacity_ = 0;
    std::unique_ptr<double[]> values_;
};

}  // namespace seasonrisk
