// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "seasonrisk/plan/plan.hpp"
#include "seasonrisk/random/philox_block.hpp"
#include "seasonrisk/season/bills.hpp"
#include "seasonrisk/season/catch.hpp"
#include "seasonrisk/season/crew.hpp"
#include "seasonrisk/season/gear.hpp"
#include "seasonrisk/season/ledger.hpp"
#include "seasonrisk/season/market.hpp"
#include "seasonrisk/season/prepared_plan.hpp"
#include "seasonrisk/season/weather.hpp"

namespace seasonrisk {

/// Which histories a batch is: `first_history` ... `first_history + k_lanes - 1` of the run with this key.
struct BatchAddress {
    std::uint64_t key = 0;
    std::uint64_t first_history = 0;
    DrawBlock draw = draw_block_baseline;  ///< set by the entry point; all give the same bits
};

/// What kind of year it is, one standard normal each (design, section 5: independent series, no matrix).
struct YearLuck {
    Lanes weather;                        ///< W: above 0, a worse year at sea
    Lanes fuel_factor, bait_factor;
    std::vector<Lanes> price_factor{};    ///< per species, at the outlet
};

/// One species in this batch.
struct SpeciesWork {
    CatchState fish{};
    SoakState soak{};
    Lanes price_now;                      ///< money a unit today
    bool soaked_tonight = false;          ///< the night's filling is done; else it is part of today's catch
    const Lanes* base_price = nullptr;    ///< the outlet's usual price, in `Workspace::plan`
};

/// One kind of breakdown in this batch.
struct BreakdownWork {
    Lanes odds_a_day_out;
    Lanes events;                         ///< this year
};

/// Draws of four days, all at once: a daily draw's block holds the words of four days.
struct DayDraws {
    std::vector<Lanes> normals{};         ///< [item][day in group]
    std::vector<Lanes> uniforms{};        ///< [item][day in group]; item 0 is the weather
    std::vector<int> ground_item{};       ///< per species, its place in `normals`; -1 = not drawn
    std::vector<int> boat_item{};
    int ground_items = 0;                 ///< they stand first
    int normal_items = 0;
};

/// What each history has been through today and this year.
struct DayState {
    Lanes out, setting, hauling, sales_today, units_today;
    Lanes down_until;                     ///< last day of the money year, by index, lost to a breakdown; -1 = none
    Lanes days_fished, days_setting, days_rest, days_off, days_broken_down, days_weather, bad_weather_days;
    Lanes hauls, units, claims_paid, total_loss;
};

/// What the running costs come to in this batch, worked out once.
struct Rates {
    Lanes fuel_a_day_out, fuel_a_haul, bait_a_haul, costs_a_day_out;
    Lanes trip_a_day_out, trip_a_haul;    ///< all that a day out, and a haul, costs in cash
    Lanes one_over_hauls;                 ///< 1 / hauls_per_day
    Lanes no_luck;                        ///< zeros, for a species without a boat-day effect
    Lanes overdraft_a_day;                ///< interest on one unit of money overdrawn for a day
    Lanes base_pots;
    Lanes crowding;                       ///< per pot: (pots set / pots of the plan before choices)^(elasticity - 1)
    Lanes daily_loss_odds;
    Lanes loss_today;                     ///< share of the pots in the water a day takes, this month
};

/// All state of one batch. One for each thread, used again for each batch: nothing is allocated in the day.
struct Workspace {
    explicit Workspace(const PreparedPlan& ready);
    Workspace(const Workspace&) = delete;  // targets point into it
    Workspace& operator=(const Workspace&) = delete;

    PlanOf<Lanes> plan{};                              ///< the plan of each history: guesses drawn
    std::vector<std::vector<Lanes*>> guess_targets{};  ///< where each guess of `ready.guesses` goes
    YearLuck year{};
    WeatherState weather{};
    GearState gear{};
    MarketState market{};
    std::vector<SpeciesWork> species{};
    std::vector<BreakdownWork> breakdown{};
    CrewState crew{};
    std::vector<Lanes> hand_pay{};                     ///< per hand, this year
    Rates rates{};
    DayDraws draws{};
    DayState day{};
    EarnedBook earned{};
    CashBook cash{};
    MonthBills bills{};
};

}  // namespace seasonrisk
