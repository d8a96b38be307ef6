// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <bit>
#include <cstdint>
#include <span>

#include "seasonrisk/ensemble/outcomes.hpp"

namespace seasonrisk::tests {

/// FNV-1a, 64 bits (Fowler, Noll, Vo), over the bits of every column.
inline std::uint64_t hash_of(const Outcomes& run) {
    std::uint64_t hash = 14695981039346656037ull;
    for (const ColumnInfo& info : run.columns()) {
        for (const double value : run.column(info.name)) {
            for (int byte = 0; byte < 8; ++byte) {
                hash ^= std::bit_cast<std::uint64_t>(value) >> (8 * byte) & 255u;
                hash *= 1099511628211ull;
            }
        }
    }
    return hash;
}

inline bool same_bits(std::span<const double> a, std::span<const double> b) {
    constexpr auto bits = [](double x) { return std::bit_cast<std::uint64_t>(x); };
    return std::ranges::equal(a, b, {}, bits, bits);
}

}  // namespace seasonrisk::tests
