// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
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

/// A number of the plan before choices: known, or a guess that keeps its address when a choice sets the key.
struct BaseNumber {
    double known = 1.0;
    std::optional<PreparedGuess> guess{};
};

/// What is sold by itself: a grade, or a species that has none. Counted over the plan.
struct PreparedGood {
    std::string name{};
    std::string unit{};                  ///< what it is sold by
    std::size_t species = 0;
    std::optional<std::size_t> grade{};
    std::optional<std::size_t> holding{};
};

/// One fishery of one boat.
struct PreparedFishery {
    bool pots = true;                    ///< else a trotline
    bool sets_gear = false;              ///< setting days may be above 0
    bool loses_gear = false;             ///< steady loss or storms
    bool pots_dwindle = false;           ///< lost pots may be missing until next season
    std::vector<bool> comes_in{};        ///< by year: its gear takes gear-in days, for it is the boat's last pot fishery
    BaseNumber base_pots{};
    int base_days = 0;                   ///< days its gear is at risk of loss, in the plan before choices
    std::vector<std::size_t> species{};  ///< places in the plan's list
    std::vector<Date> from{};            ///< by year: first and last day on which it is worked
    std::vector<Date> to{};
    std::vector<Date> last{};            ///< by year: the last day it would be worked without an early stop
    std::vector<std::array<int, 12>> days_in_month{};  ///< by year and calendar month: days at risk in the plan before choices
};

struct PreparedBreakdown {
    Spread repair{};
    Spread days_lost{};
    bool wears = false;
};

/// Something the plan supposes for certain, with its days.
struct Supposed {
    Event what = Event::closure;
    int year = 0;                        ///< of the history, 0 first
    std::size_t boat = 0;                ///< of a breakdown, or of no skipper
    Date first{};
    Date last{};                         ///< included
    std::size_t place = 0;               ///< in the plan's list
};

/// One boat.
struct PreparedBoat {
    std::vector<PreparedFishery> fishery{};
    std::vector<PreparedBreakdown> breakdowns{};
    Spread gap_weeks{};
    Spread storm_loss{};
    bool owners = true;                  ///< its skipper is the owner
    bool gaps = false;                   ///< the hired skipper may be missing
    bool takes_owner = false;            ///< takes the owner off his own boats on some days
    bool takes_owner_after = false;      ///< the same, after its breakdowns
    bool hands_miss = false;             ///< a hand may not turn up
    bool meets_storms = false;
    bool may_be_lost = false;            ///< total loss has odds
    bool more_causes = false;            ///< anything beside breakdowns and weather may keep it in
};

/// A sound plan made ready to be simulated: all that is the same in every history and every batch.
/// Immutable, shared by all threads.
struct PreparedPlan {
    Plan plan{};
    std::vector<Calendar> years{};
    int days_in_history = 0;
    std::vector<PreparedGuess> guesses{};       ///< in the order of the plan's keys
    std::vector<PreparedBoat> boat{};
    std::vector<Supposed> supposed{};
    std::vector<PreparedGood> goods{};
    std::vector<std::vector<std::size_t>> goods_of{};   ///< per species
    std::vector<std::vector<int>> price_place{};        ///< [outlet][good] place in the outlet's prices; -1: not taken
    std::vector<std::vector<double>> usual_landing{};   ///< [good][12 * year + month]; empty when no price answers it

    int lead_of_weather = 0;             ///< days the weather chain starts before the season
    std::vector<int> lead_of_ground{};   ///< the same for each species' ground-day chain
    std::vector<int> lead_of_week{};     ///< Mondays the weekly price of each outlet starts before the season
    int longest_lead = 0;

    // What this plan does not use costs nothing: each step asks these once.
    bool weather_varies = false;         ///< some month can have bad days
    bool weather_years_differ = false;
    bool weather_solved_per_batch = false;  ///< a guess moves the month logits, so each batch solves them
    std::array<bool, 12> weather_in_month{};  ///< some day of this calendar month is looked at
    std::vector<double> month_logit{};   ///< by calendar month, when not solved per batch
    std::vector<bool> ground_moves{};    ///< per species: has a ground-day effect
    std::vector<bool> boat_moves{};      ///< per species: has a boat-day effect
    std::vector<bool> soaks{};           ///< per species: has both soak keys
    std::vector<bool> price_moves_weekly{};  ///< per outlet
    bool sells_simply = false;           ///< all is sold to one outlet the day it is landed, at its price
    bool costs_per_unit = false;         ///< selling at once costs something for each unit
    bool idles_ashore = false;           ///< with the gear ashore, a day of the season is but counted
    std::vector<bool> die_offs{};        ///< per good
    std::vector<bool> may_not_settle{};  ///< per outlet
    std::vector<bool> rate_moves{};      ///< per loan
    bool storms = false;                 ///< some boat may meet storms that take gear
    bool shares_ground = false;
    bool turns_back = false;
    bool gear_in = false;
    bool owner_laid_up = false;
    bool owner_taken = false;            ///< other boats may need the owner
    Spread laid_up_weeks{};
    bool overdraft_costs = false;
    bool own_base = true;                ///< no choice: crowding is counted against the plan's own pots
    bool counts_hours = false;           ///< the plan says what hours of owner and family it takes
    bool inputs_used = false;            ///< some input is used up by hauls

    std::size_t boats() const { return boat.size(); }
    const Calendar& first_year() const { return years.front(); }
};

/// Make a plan ready. \throws PlanError with every finding when the plan is not sound
PreparedPlan prepare(const Plan& plan);

/// Smallest n with persistence^n <= 1e-6: after n steps a chain has forgotten its start. At most 730.
int steps_to_forget(double persistence);

/// The value of a month: its own, or that of the last month before it that has one; null when none has.
template <class N>
const N* last_given(const Months<N>& months, int month) {
    for (int back = 0; back < 12; ++back) {
        const auto& value = months.by_month[static_cast<std::size_t>((month - back + 12) % 12)];
        if (value) return &*value;
    }
    return nullptr;
}

}  // namespace seasonrisk
