// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

namespace seasonrisk {

/// A number found by simulation, with how sure it is. The unit is the history.
struct Estimate {
    double value = 0.0;
    double standard_error = 0.0;   ///< NaN when it cannot be known (one history)
    double low = 0.0;              ///< 95% interval; NaN when it cannot be known
    double high = 0.0;
    std::uint64_t n = 0;           ///< histories the value rests on (those that missed, for a shortfall; the tail, for its mean)
    bool exact = false;            ///< two or more histories, and every one gave the same value
};

}  // namespace seasonrisk
