// SPDX-License-Identifier: MIT
#include "seasonrisk/choice/break_even.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>
#include <string>

#include "seasonrisk/math/elementary.hpp"

namespace seasonrisk {
namespace {

/// A root counts as found when the estimate is this near to the level, in standard errors: it adds a thousandth to
/// the width of the interval.
constexpr double k_near_enough = 0.05;
constexpr double k_narrowest = 1e-9;  ///< part of the grid's width at which a jump of the estimate counts as found
constexpr int k_most_steps = 200;

void check(const BreakEvenQuestion& question) {
    if (question.grid.size() < 2) throw std::invalid_argument("grid: must have two inputs or more");
    for (std::size_t n = 0; n < question.grid.size(); ++n) {
        if (!std::isfinite(question.grid[n]) || (n > 0 && question.grid[n] <= question.grid[n - 1]))
            throw std::invalid_argument("grid[" + std::to_string(n) + "]=" + std::to_string(question.grid[n]) + ": must be finite and above the input before it");
        const double steps = question.step > 0.0 ? (question.grid[n] - question.grid[0]) / question.step : 0.0;
        if (std::abs(steps - std::round(steps)) > 1e-9)
            throw std::invalid_argument("grid[" + std::to_string(n) + "]=" + std::to_string(question.grid[n]) + ": must be whole steps above the first input");
    }
    if (!std::isfinite(question.target) || (question.of_a_chance && !(question.target > 0.0 && question.target < 1.0)))
        throw std::invalid_argument("target=" + std::to_string(question.target) + (question.of_a_chance ? ": must be above 0 and below 1" : ": must be finite"));
}

/// The curve of estimates, each input looked at once.
class Curve {
public:
    Curve(const std::function<Estimate(double)>& estimate_at, const BreakEvenQuestion& question) : estimate_at_(estimate_at), question_(question) {
        for (const double input : question.grid) at(input);
    }

    const Estimate& at(double input) {
        const auto found = tried_.find(input);
        return found != tried_.end() ? found->second : tried_.emplace(input, estimate_at_(input)).first->second;
    }

    Crossing crossing(double left, double right) {
        Crossing found;
        found.rising = at(right).value > at(left).value;
        found.input = root(left, right, question_.target, error_near(left, right));
        const Estimate& here = at(found.input);
        found.exact = here.exact;
        found.low = found.high = found.input;
        const double error = question_.of_a_chance ? (here.exact ? 0.0 : share_error(here)) : here.standard_error;
        if (error == 0.0) return found;
        const double margin = normal_quantile(0.975) * (found.rising ? error : -error);
        found.low = outward(found.input, question_.target - margin, error, -1);
        found.high = outward(found.input, question_.target + margin, error, 1);
        return found;
    }

    std::vector<TriedInput> tried() const {
        std::vector<TriedInput> all;
        for (const auto& [input, estimate] : tried_) all.push_back({input, estimate});
        return all;
    }

private:
    double share_error(const Estimate& estimate) const {
        return std::sqrt(question_.target * (1.0 - question_.target) / static_cast<double>(estimate.n));
    }

    double error_near(double left, double right) {
        if (question_.of_a_chance) return share_error(at(left));
        return std::min(at(left).standard_error, at(right).standard_error);
    }

    /// Root at `level` beyond the crossing, to the left (-1) or right (1) of it; NaN when the grid ends before.
    double outward(double from, double level, double error, int direction) {
        const bool reaches_here = at(from).value >= level;
        double inside = from;
        for (auto next = tried_.find(from);;) {
            if (direction < 0 ? next == tried_.begin() : std::next(next) == tried_.end()) return std::numeric_limits<double>::quiet_NaN();
            std::advance(next, direction);
            if ((next->second.value >= level) != reaches_here) return root(std::min(inside, next->first), std::max(inside, next->first), level, error);
            inside = next->first;
        }
    }

    double on_a_step(double input, double left, double right) const {
        const double first = question_.grid.front();
        const double nearest = first + std::round((input - first) / question_.step) * question_.step;
        return std::clamp(nearest, left + question_.step, right - question_.step);
    }

    /// Where the curve passes `level` between two inputs that lie on either side of it.
    double root(double left, double right, double level, double error) {
        const bool stepped = question_.step > 0.0;
        const bool left_reaches = at(left).value >= level;
        double left_gap = at(left).value - level;
        double right_gap = at(right).value - level;
        const double near_enough = std::max(k_near_enough * error, 1e-13 * (std::abs(left_gap) + std::abs(right_gap)));
        const double narrowest = stepped ? 1.5 * question_.step : k_narrowest * (question_.grid.back() - question_.grid.front());
        if (!stepped && std::abs(left_gap) <= near_enough) return left;
        if (!stepped && std::abs(right_gap) <= near_enough) return right;
        int moved = 0;  // times in a row that the left end (above 0) or the right end (below 0) has moved
        for (int step = 0; step < k_most_steps && right - left > narrowest; ++step) {
            const double middle = 0.5 * (left + right);
            double input = step % 4 == 3 ? middle : left + (right - left) * left_gap / (left_gap - right_gap);
            if (stepped) input = on_a_step(input, left, right);
            else if (!(input > left && input < right)) input = middle;
            const double gap = at(input).value - level;
            if (!stepped && std::abs(gap) <= near_enough) return input;
            if ((gap >= 0.0) == left_reaches) {
                left = input;
                left_gap = gap;
                moved = std::max(moved, 0) + 1;
                if (moved > 1) right_gap *= 0.5;  // Illinois: the end that stays weighs half
            } else {
                right = input;
                right_gap = gap;
                moved = std::min(moved, 0) - 1;
                if (moved < -1) left_gap *= 0.5;
            }
        }
        return left_reaches ? left : right;  // of a jump, or of two steps, the side that reaches the level
    }

    const std::function<Estimate(double)>& estimate_at_;
    const BreakEvenQuestion& question_;
    std::map<double, Estimate> tried_{};
};

/// Both up and down over the grid, each by more than the larger error of its two ends.
bool turns_over(Curve& curve, const std::vector<double>& grid) {
    bool rises = false, falls = false;
    for (std::size_t n = 1; n < grid.size(); ++n) {
        const Estimate& before = curve.at(grid[n - 1]);
        const Estimate& after = curve.at(grid[n]);
        const double error = std::max(before.standard_error, after.standard_error);
        rises = rises || after.value - before.value > error;
        falls = falls || before.value - after.value > error;
    }
    return rises && falls;
}

}  // namespace

BreakEven break_even(const std::function<Estimate(double)>& estimate_at, const BreakEvenQuestion& question) {
    check(question);
    Curve curve(estimate_at, question);
    BreakEven found;
    found.turns = turns_over(curve, question.grid);
    for (std::size_t n = 1; n < question.grid.size(); ++n) {
        const double left = question.grid[n - 1], right = question.grid[n];
        if ((curve.at(left).value >= question.target) != (curve.at(right).value >= question.target)) found.crossings.push_back(curve.crossing(left, right));
    }
    found.tried = curve.tried();
    return found;
}

}  // namespace seasonrisk
