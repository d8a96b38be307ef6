// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "seasonrisk/summary/estimate.hpp"

/// \file
/// Whose doing the spread of an outcome is: a regression on the normals it was made of (no extra runs).
///
/// Terms: of each normal z the Hermite polynomials of degree 1, 2, 3 scaled to variance one, and products of two
/// normals. All are uncorrelated with variance one, so the squares of their coefficients add up to what is explained
/// (Sobol 1993; Hermite expansion: Wiener 1938), and the mean square that is left completes it.
/// What such a fit cannot follow (steps, waves) stays with what is left: a share is then too low, never too high.
/// Errors: influence functions of coefficients and residuals, and beside them the spread that squared coefficients
/// have when there is nothing to find. Equal on all machines to rounding only.
namespace seasonrisk {

/// A standard normal of every history, independent of all others.
struct NormalInput {
    std::span<const double> normals{};
    std::size_t part = 0;     ///< which row it is counted to; inputs of one row are shown together
    bool is_guess = false;
};

/// Something counted in the histories that hangs on the inputs, too (days lost, breakdowns). Shown is what its surprise
/// explains: what the inputs, and the events before it, do not tell of it. It is luck.
struct EventInput {
    std::span<const double> values{};
    std::size_t part = 0;
};

/// One row. Shares are of the variance of the outcome; an estimate of nothing can come out a little below 0.
struct PartShare {
    Estimate alone{};    ///< by itself: single terms, and products within the row
    Estimate total{};    ///< with its products with other rows: these stand in two rows
    Estimate effect{};   ///< mean outcome at z = +1.28 (1 in 10 higher) less that at z = -1.28; NaN for a row of several normals or an event
};

struct SpreadShares {
    Estimate guess{};             ///< of the guesses: variance of the mean given the guesses
    Estimate luck{};              ///< 1 - guess
    std::vector<PartShare> parts{};
    Estimate guess_pairs{};       ///< products of guesses of different rows
    Estimate luck_pairs{};        ///< other products of different rows
    Estimate left{};              ///< not followed by the fit: day-to-day luck, above all
    std::size_t terms = 0;        ///< without the constant
    std::size_t pairs = 0;        ///< products among them
    std::size_t pairs_left_out = 0;  ///< products that histories do not suffice for (20 a term), or that would take too long
};

/// \pre `parts` is above every `part`
/// \throws std::invalid_argument: no histories, values that are not finite or all equal, columns of different lengths,
///         fewer than four histories a single term, inputs that are copies of each other
SpreadShares spread_shares(std::span<const double> values, const std::vector<NormalInput>& inputs, const std::vector<EventInput>& events, std::size_t parts);

/// The guess share again, with no fit: correlation of outcomes that have their guesses in common and their luck not.
/// \throws std::invalid_argument as above
Estimate share_in_common(std::span<const double> values, std::span<const double> with_other_luck);

}  // namespace seasonrisk
