// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <vector>

#include "seasonrisk/summary/estimate.hpp"

/// \file
/// The value of an input at which an estimate reaches a target: the price at which the loan is covered on average,
/// the number of days at which it is covered in 9 of 10 seasons.
namespace seasonrisk {

struct BreakEvenQuestion {
    std::vector<double> grid{};  ///< inputs looked at first, rising; its ends bound what is tried
    double target = 0.0;         ///< of the estimate: in its unit for a mean, a share for a chance
    bool of_a_chance = false;    ///< the error is that of the target share itself, sqrt(p (1 - p) / n)
    double step = 0.0;           ///< above 0: the grid lies on whole steps from its first input, and so does the answer
};

/// The estimate at one input.
struct TriedInput {
    double input = 0.0;
    Estimate estimate{};
};

/// One place where the estimate passes the target.
struct Crossing {
    double input = 0.0;    ///< with a step: the last, or first, that still reaches the target
    double low = 0.0;      ///< 95% interval; NaN where it goes on past the end of the grid
    double high = 0.0;
    bool rising = true;    ///< the target is reached above the input; false: below it
    bool exact = false;    ///< no history differs from another: there is no luck in the estimate
};

struct BreakEven {
    std::vector<Crossing> crossings{};  ///< by input; empty: no such value on the grid
    std::vector<TriedInput> tried{};    ///< every input tried, rising; one call of the estimate each
    bool turns = false;                 ///< the estimate rises and falls over the grid, each by more than its error
};

/// Find where `estimate_at` passes the target. All estimates must come from the same histories under the same key:
/// then they form one curve, and the crossing is a root of it. Each pair of neighbours on the grid with the target
/// between them is searched by false position with a bisection now and then, to a twentieth of a standard error.
/// Interval: roots at the target -+ 1.96 errors, on that same curve. On a straight line these are the
/// root -+ 1.96 se / |slope|.
/// \throws std::invalid_argument unless the grid has two or more finite, rising inputs (on whole steps when `step` is
/// given) and the target is finite, above 0 and below 1 for a chance; whatever `estimate_at` throws passes on
BreakEven break_even(const std::function<Estimate(double input)>& estimate_at, const BreakEvenQuestion& question);

}  // namespace seasonrisk
