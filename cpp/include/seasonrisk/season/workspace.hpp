// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "seasonrisk/math/rows.hpp"
#include "seasonrisk/plan/plan.hpp"
#include "seasonrisk/random/philox_block.hpp"
#include "seasonrisk/season/catch.hpp"
#include "seasonrisk/season/crew.hpp"
#include "seasonrisk/season/gear.hpp"
#include "seasonrisk/season/ledger.hpp"
#include "seasonrisk/season/market.hpp"
#include "seasonrisk/season/prepared_plan.hpp"
#include "seasonrisk/season/store.hpp"
#include "seasonrisk/season/weather.hpp"

namespace seasonrisk {

/// Which histories a batch is: `first_history` ... `first_history + k_lanes - 1` of the run with this key.
struct BatchAddress {
    std::uint64_t key = 0;
    std::uint64_t first_history = 0;             ///< and the family of its luck (`with_luck_family`)
    DrawBlock draw = draw_block_baseline;        ///< this and those after it are set by the entry point; all give the same bits
    OnRows to_normals = normal_rows_baseline;
    OnRows to_exp = exp_rows_baseline;
    LanesBelow lanes_below = lanes_below_baseline;
};

/// What kind of year it is, one standard normal each, carried from year to year (design, section 5: independent
/// series, no matrix).
struct YearLuck {
    Lanes weather;                        ///< W: above 0, a worse year at sea
    Lanes common_catch, common_price, fuel, bait;
    std::vector<Lanes> own_catch{};       ///< per species
    std::vector<Lanes> own_price{};
    std::vector<Lanes> price{};           ///< per species: P_k, tied to the catch
    Lanes fuel_factor, bait_factor;
};

/// Places of the normals that every year draws; from the last on, catch and price of each species in turn.
enum OfYear { k_year_weather, k_year_common_catch, k_year_common_price, k_year_fuel, k_year_bait, k_year_species };

/// What has grown since the first year, as factors.
struct GrowthSoFar {
    Lanes costs{1.0}, fuel{1.0}, bait{1.0}, wages{1.0}, prices{1.0}, caught{1.0};
};

/// A number that a year adds up, and where its sums go when a history has several.
struct YearTally {
    std::vector<const Lanes*> sources{};
    std::vector<Lanes> total{};
    std::vector<std::vector<Lanes>> by_year{};  ///< [year][source]; empty when a history has one year
};

/// A fishery of a boat in this batch.
struct FisheryWork {
    const PreparedFishery* prepared = nullptr;
    Date from{}, to{}, last{};            ///< those of `prepared` in this year: every day asks for them
    GearState gear{};
    std::vector<SoakState> soak{};        ///< per species of the fishery
    std::vector<Lanes> per_haul_now{};    ///< per species of the fishery: this month's catch a haul, all but soak and the day's luck
    Lanes one_over_hauls;                 ///< 1 / hauls_per_day
    Lanes base_pots;
    Lanes crowding;                       ///< per pot: (pots set / pots of the plan before choices)^(elasticity - 1)
    Lanes daily_loss_odds;
    Lanes loss_today;                     ///< share of the pots in the water a day takes, this month
    Lanes hauling;                        ///< 1: hauls, or brings in, today
    bool worked_before = false;           ///< this year
    bool comes_in = false;                ///< this year its gear takes gear-in days

    /// Its dates in year `y` of the history, 0 first.
    void take_dates(std::size_t y) {
        comes_in = prepared->comes_in[y];
        from = prepared->from[y];
        to = prepared->to[y];
        last = prepared->last[y];
    }
    /// What changes from day to day in `other`, the same fishery in another workspace; of the rotation the groups in use.
    void take_state(const FisheryWork& other);
};

/// One species on one boat.
struct BoatSpecies {
    Lanes caught_today;
    Lanes caught;                         ///< this year
    Lanes day_luck;                       ///< ground and boat of today, as a factor
    bool has_luck = false;
};

/// A breakdown that a day may bring: it strikes if the boat is out, and worn enough.
struct Mishap {
    int today;                            ///< by index
    int kind;
    int lane;
    double repair = 0.0, days_lost = 0.0;
    bool happens = false;                 ///< once its day is there
};

/// One kind of breakdown on one boat.
struct BreakdownWork {
    Lanes odds_a_day_out;                 ///< when it wears: no day of this year can have more
    Lanes hours;
    Lanes days_saved;                     ///< by spares
    Lanes events;                         ///< this year
};

/// What each history's boat has been through this year.
struct BoatYear {
    Lanes days_fished, days_setting, days_gear_in, days_out, days_rest, days_off, days_ashore, days_laid_up, days_broken_down;
    Lanes days_no_skipper, days_no_crew, days_limit, days_weather, days_stayed_in;
    Lanes hauls, hauls_without_bait, sales, units, crew_pay, pots_lost, pots_left, total_loss, storms;
    // Her part of the books: what is spent on her and on nobody else.
    Lanes fuel, bait, day_costs, selling_costs, repairs, claims, pots_lost_cost, switch_costs, rehire;
    Lanes standing_costs, inputs, loan_payments, contribution, after_own_loan;
};

/// What running the boat comes to in this batch and year, worked out once.
struct BoatRates {
    Lanes fuel_a_day_out, fuel_a_haul, bait_a_haul, costs_a_day_out;
    Lanes trip_a_day_out, trip_a_haul;    ///< all that a day out, and a haul, costs in cash
    Lanes storm_odds;                     ///< a bad-weather day
};

/// A boat in this batch.
struct BoatWork {
    const PreparedBoat* prepared = nullptr;
    std::vector<FisheryWork> fishery{};
    std::vector<BoatSpecies> species{};
    std::vector<BreakdownWork> breakdown{};
    std::vector<HandWork> hand{};
    WeekBefore week{};
    BoatWeather weather{};
    BoatRates rates{};
    BoatYear year{};
    bool tried = false;                   ///< it may be out today: the figures of today below are fresh
    Lanes out, setting, lifting;
    Lanes hauls_factor;                   ///< what the hands who turned up can haul
    Lanes sales_today;
    Lanes units_today;                    ///< of one fishery only where selling costs something for each
    Lanes down_until;                     ///< last day, by index, lost to a breakdown; -1 = none
    Lanes gap_until;                      ///< the same for a hired skipper who is missing
    Lanes gap_odds_a_day;
    std::vector<int> luck_item{};         ///< per species, its place among the day's normals; -1 = not drawn
    std::vector<Mishap> mishaps{};        ///< foreseen, by day, kind and lane
    std::size_t next_mishap = 0;

    void take_state(const BoatWork& other);
};

/// What is on the ground: one species for all boats.
struct GroundWork {
    GroundState fish{};
    Lanes year_factor;
    int luck_item = -1;
    Lanes share;                          ///< what is left of the catch when several do
};

/// Draws of four days, all at once: a daily draw's block holds the words of four days.
struct DayDraws {
    std::vector<Lanes> normals{};         ///< [item][day in group]
    std::vector<Lanes> uniforms{};        ///< [day in group], of the weather
    std::vector<std::uint64_t> below{};   ///< [group][kind][two days]: where a breakdown may strike, one bit a day and lane
    std::vector<Lanes> of_year{};         ///< normals by `OfYear`, with room for the rest of a block
    std::vector<double*> wanted{};        ///< rows of `normals` that somebody reads: turned from uniforms in one go
    int normal_items = 0;
};

/// What a landing limit has let through in its period.
struct LimitWork {
    std::size_t species = 0;
    Lanes landed;
    Lanes reached;                        ///< 1: reached on an earlier day of the period
    Lanes reached_today;
};

struct InputWork {
    Lanes left;                           ///< usable units in store
};

struct LoanWork {
    Lanes owed, payments_left, payments_made, level;
    Lanes rate;                           ///< a year
    Lanes interest_only;                  ///< payments at the start with interest alone
};

/// The owner's own time.
struct OwnerWork {
    Lanes laid_up_until, busy_until;      ///< last day, by index; -1 = none
    Lanes laid_up_odds_a_day;
    Lanes away_today;                     ///< 1: another boat needs him today
};

/// All state of one batch. One for each thread, used again for each batch: nothing is allocated in the day.
struct Workspace {
    explicit Workspace(const PreparedPlan& ready);
    Workspace(const Workspace&) = delete;  // targets point into it
    Workspace& operator=(const Workspace&) = delete;

    /// The guesses that `other`, of the same plan, has drawn.
    void take_guesses(const Workspace& other);
    /// The state of `other`, which must outlive it, in the middle of a history of one year: on the morning of day
    /// `today`. What goes into the tallies of several years is left alone.
    void take_state(const Workspace& other, std::size_t today);

    PlanOf<Lanes> plan{};                              ///< the plan of each history: guesses drawn
    std::vector<std::vector<Lanes*>> guess_targets{};  ///< where each guess of `ready.guesses` goes
    int year_now = 0;
    YearLuck year{};
    GrowthSoFar growth{};
    HarbourWeather harbour{};
    std::vector<GroundWork> ground{};                  ///< per species
    std::vector<BoatWork> boat{};
    BoatYear fleet{};                                  ///< all boats together, when there are several
    std::vector<Lanes> fleet_catch{};                  ///< per species
    std::vector<GoodWork> goods{};
    std::vector<OutletWork> outlet{};
    std::vector<OrderWork> order{};
    std::vector<LimitWork> limit{};
    std::vector<Lanes> shock{};                        ///< 1: it comes this year
    std::vector<InputWork> input{};
    std::vector<LoanWork> loan{};
    std::vector<Lanes> family{};                       ///< per family date: 1 = as wished, this year
    OwnerWork owner{};
    DayDraws draws{};
    std::vector<Lanes> taken{};                        ///< per boat: its part of the sale in hand
    Lanes no_luck{0.0};                                ///< zeros, for a species without a boat-day effect
    Lanes overdraft_a_day;                             ///< interest on one unit of money overdrawn for a day
    Lanes bad_weather_days, days_both, claims_paid, hours, hours_so_far, loan_so_far, left_per_hour;
    int mishaps_until = 0;                             ///< first day, by index, whose breakdowns are not foreseen yet
    bool told_today = false;                           ///< today had something to do at sea or to sell
    bool landing_today = false;                        ///< some boat may land something
    bool store_holds = false;                          ///< something may be kept
    bool worked_this_week = false;                     ///< the week has had something to do at sea or to sell
    bool all_ashore = false;                           ///< the year's last gear has come in, in every history
    EarnedBook earned{};
    CashBook cash{};
    YearTally tally{};
};

}  // namespace seasonrisk
