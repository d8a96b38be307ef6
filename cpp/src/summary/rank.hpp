// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

namespace seasonrisk {

/// The rank, counted from 1, of the first ordered value that has a `share` of n at or below it.
/// \pre n >= 1, 0 < share <= 1
std::uint64_t rank_of_share(std::uint64_t n, double share);

}  // namespace seasonrisk
