// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

#include "seasonrisk/summary/spread_share.hpp"

namespace seasonrisk {

/// What it is worth to know one guess before choosing.
struct WorthKnowing {
    Estimate value{};          ///< E[max over choices of E[outcome | guess]] - max over choices of E[outcome], a history
    Estimate would_change{};   ///< chance that another choice than the best one now would be taken
};

/// The value of knowing each input that is a guess, alone and exactly, for the choice between `outcomes` (same luck,
/// one column a choice; the more the better). Mean outcomes given the guess are cubics in its normal, from the
/// regression of `spread_shares` (Strong, Oakley & Brennan 2014, from memory); one for each guess, in the order of
/// the inputs. 0 with no error when no choice would change anywhere; a small value is seen a little too large, for
/// the best of several noisy means is too good. Errors: influence functions.
/// \throws std::invalid_argument as `spread_shares` does, and with fewer than two outcomes; choices that never differ
///         are worth nothing to know about, and no error
std::vector<WorthKnowing> worth_knowing(const std::vector<std::span<const double>>& outcomes, const std::vector<NormalInput>& inputs);

}  // namespace seasonrisk
