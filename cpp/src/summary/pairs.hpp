// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace seasonrisk {

/// The differences of two columns of the same histories.
struct Pairs {
    std::vector<double> difference{};
    double rounding = 0.0;   ///< what the rounding of sums may leave of a difference that is none
    bool constant = false;   ///< two or more histories, and every one differs by the same amount
    bool none = false;       ///< ... which is nought
};

/// \throws std::invalid_argument as difference.hpp says
Pairs pairs_of(std::span<const double> base, std::span<const double> choice);

}  // namespace seasonrisk
