// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "seasonrisk/math/spread.hpp"
#include "seasonrisk/plan/plan.hpp"
#include "seasonrisk/season/calendar.hpp"

namespace seasonrisk {

/// A guess as the batch needs it: its address and its spread.
struct PreparedGuess {
    std::uint32_t hash = 0;
    Spread spread{};
};

/// The kind of breakdown as the batch needs it.
struct PreparedBreakdown {
    Spread repair{};
    Spread days_lost{};
};

/// A sound plan made ready to be simulated: all that is the same in every history and every batch.
/// Immutable, shared by all threads.
struct PreparedPlan {
    Plan plan{};
    Calendar calendar{};
    std::vector<Day> lead_days{};        ///< days before the season, oldest first, as far back as a chain needs
    int lead_of_weather = 0;             ///< days the weather chain starts before the season
    std::vector<int> lead_of_ground{};   ///< the same for each species' ground-day chain
    std::vector<DaySlot> lead_weeks{};   ///< Mondays at which the weekly price moves before the season's first day
    std::vector<PreparedGuess> guesses{};       ///< in the order of the plan's keys
    std::vector<PreparedBreakdown> breakdowns{};

    // What this plan does not use costs nothing: each step asks these once.
    bool weather_varies = false;         ///< some month can have bad days
    bool weather_years_differ = false;
    bool weather_solved_per_batch = false;  ///< a guess moves the month logits, so each batch solves them
    std::vector<double> month_logit{};   ///< by calendar month, when not solved per batch
    std::vector<bool> ground_moves{};    ///< per species: has a ground-day effect
    std::vector<bool> boat_moves{};      ///< per species: has a boat-day effect
    std::vector<bool> soaks{};           ///< per species: has both soak keys
    bool any_soak = false;
    bool sets_gear = false;              ///< setting days may be above 0
    bool loses_gear = false;
    bool pots_dwindle = false;           ///< lost pots are not replaced before next season
    bool may_be_lost = false;            ///< total loss has odds
    bool same_settlement_delay = true;   ///< the outlet's delay is no guess
    bool own_base = true;                ///< this plan is not a choice: crowding is measured against its own pots
    int base_season_days = 0;            ///< days a pot is at risk of loss, in the plan before choices
    Number base_pots{};                  ///< pots of the plan before choices
    std::optional<PreparedGuess> base_pots_guess{};  ///< pots of the plan before choices, when they are a guess
    bool price_moves_weekly = false;
    bool overdraft_costs = false;
};

/// Make a plan ready. \throws PlanError with every finding when the plan is not sound
PreparedPlan prepare(const Plan& plan);

/// Smallest n with persistence^n <= 1e-6: after n steps a chain has forgotten its start. At most 730.
int steps_to_forget(double persistence);

/// The unfishable fraction of a month: its own, or of the last month before it that has one.
template <class N>
const N& unfishable_fraction_of(const Months<N>& fractions, int month) {
    for (int back = 0; back < 12; ++back) {
        const auto& value = fractions.by_month[static_cast<std::size_t>((month - back + 12) % 12)];
        if (value) return *value;
    }
    return *fractions.by_month[static_cast<std::size_t>(month)];  // unreachable for a sound plan: some month has one
}

}  // namespace seasonrisk
