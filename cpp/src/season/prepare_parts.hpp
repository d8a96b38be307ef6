// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "seasonrisk/plan/guesses.hpp"
#include "seasonrisk/season/prepared_plan.hpp"

/// \file
/// Parts of `prepare`, by subject.
namespace seasonrisk {

inline bool can_be_above_zero(const Number& number) { return number.is_guess || number.typical > 0.0; }

struct SizesOfSection {
    std::vector<Spread> spreads{};
    void size(const char*, const EventSize& size, const Rule& rule, Need) { spreads.push_back(spread_of(size, rule)); }
    void number(auto&&...) {}
    void text(auto&&...) {}
    void flag(auto&&...) {}
    void date(auto&&...) {}
    void word(auto&&...) {}
    void day_costs(auto&&...) {}
    void list(auto&&...) {}
    void section(auto&&...) {}
};

/// The spreads of a section's event sizes, in the order of its keys: the rule of each size stands with its key,
/// and asking the section keeps it in one place.
template <class S>
std::vector<Spread> spreads_of_sizes(const S& section) {
    SizesOfSection sizes;
    S::fields(section, sizes);
    return sizes.spreads;
}

void prepare_boats(PreparedPlan& ready);
/// The days of what is supposed for certain.
void prepare_suppose(PreparedPlan& ready);
/// Another last day of fishing in a year of a plan that is ready.
void set_stop(PreparedPlan& ready, std::size_t year, Date stop);
void prepare_selling(PreparedPlan& ready);
/// Runs the plan before choices once with no spread: the landing of an ordinary fished day, by month.
void prepare_usual_landing(PreparedPlan& ready);

}  // namespace seasonrisk
