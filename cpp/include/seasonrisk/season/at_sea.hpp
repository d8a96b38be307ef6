// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/season/going_out.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// A day out: the gear is set, hauled or brought in, and what comes up in it.
namespace seasonrisk {

/// Month's catch of a haul, worked out when the month changes.
SEASONRISK_STEP void settle_month_catch(Workspace& work, std::size_t b, int month) {
    BoatWork& boat = work.boat[b];
    for (FisheryWork& fishery : boat.fishery) {
        for (std::size_t n = 0; n < fishery.per_haul_now.size(); ++n) {
            const std::size_t k = fishery.prepared->species[n];
            const auto& species = work.plan.species[k];
            const auto& shape = species.month_shape.by_month[static_cast<std::size_t>(month)];
            SEASONRISK_EACH_LANE {
                fishery.per_haul_now[n][i] = species.per_haul[i] * (shape ? (*shape)[i] : 1.0) * fishery.crowding[i]
                                           * work.plan.boat[b].catching_power[i] * work.ground[k].year_factor[i] * work.growth.caught[i];
            }
        }
    }
}

/// A night in the water. On a day of plain hauling it is part of the catch's own pass over the lanes; on a day
/// ashore, while gear is being set, and for long rotations it stands by itself.
SEASONRISK_STEP void soak_overnight(FisheryWork& fishery, bool may_haul) {
    GearState& gear = fishery.gear;
    const bool with_the_catch = may_haul && !gear.still_setting && gear.rotation_slots <= 2;
    gear.soaked_tonight = !with_the_catch;
    if (with_the_catch) return;
    for (SoakState& soak : fishery.soak) {
        if (soak.soaks) soak_a_night(soak, gear.rotation_slots);
    }
}

/// Pots in the water, or still on the quay with the setting to do. Without setting days they were all set the day
/// before the fishery's first.
SEASONRISK_STEP void lay_out_the_gear(FisheryWork& state, const Fishery<Lanes>& fishery, const Lanes& gear_in_days) {
    GearState& gear = state.gear;
    state.worked_before = false;
    gear.lost = Lanes(0.0);
    gear.lifted = Lanes(0.0);
    gear.hauls_today = Lanes(0.0);
    gear.spare = fishery.spare;
    gear.has_spare = any_above_zero(fishery.spare);
    gear.setting_days_left = fishery.setting_days;
    gear.gear_in_days_left = state.comes_in ? gear_in_days : Lanes(0.0);
    gear.in_water = fishery.count;
    gear.rotation_slots = rotation_groups(fishery.count, state.one_over_hauls);
    weigh_rotation(gear, state.one_over_hauls);
    gear.still_setting = state.prepared->sets_gear;
    if (state.prepared->sets_gear) {
        SEASONRISK_EACH_LANE gear.in_water[i] = fishery.setting_days[i] > 0.0 ? 0.0 : fishery.count[i];
    }
    for (SoakState& soak : state.soak) {
        soak.factor = Lanes(1.0);
        if (soak.soaks) set_all_today(soak, Lanes(1.0), gear.rotation_slots);
    }
}

/// First day of a fishery this year: its gear goes in, and changing over to it costs what it costs.
SEASONRISK_STEP void begin_fishery(Workspace& work, std::size_t b, std::size_t f) {
    FisheryWork& state = work.boat[b].fishery[f];
    const Fishery<Lanes>& fishery = work.plan.boat[b].fishery[f];
    lay_out_the_gear(state, fishery, work.plan.ending.gear_in_days);
    state.worked_before = true;
    for (const FisheryWork& other : work.boat[b].fishery) {
        const bool earlier = other.from < state.from && other.from <= other.to;
        if (!earlier) continue;
        add(work.earned.switch_costs, fishery.switch_cost);
        add(work.boat[b].year.switch_costs, fishery.switch_cost);
        pay(work.cash, fishery.switch_cost);
        break;
    }
}

/// The gear goes in, is hauled, or is brought in: who hauls how many.
SEASONRISK_STEP void set_or_haul(const PreparedPlan& ready, Workspace& work, std::size_t b, std::size_t f, bool is_worked_today) {
    BoatWork& boat = work.boat[b];
    FisheryWork& state = boat.fishery[f];
    GearState& gear = state.gear;
    const Fishery<Lanes>& fishery = work.plan.boat[b].fishery[f];
    const bool may_lift = state.comes_in;
    state.hauling = is_worked_today ? boat.out : Lanes(0.0);
    if (ready.gear_in) {
        SEASONRISK_EACH_LANE state.hauling[i] *= 1.0 - boat.lifting[i];
    }
    if (gear.still_setting) {
        Lanes all_set;
        set_gear(gear, state.hauling, fishery.count, fishery.setting_days, boat.setting, all_set);
        SEASONRISK_EACH_LANE state.hauling[i] -= boat.setting[i];
        add(boat.year.days_setting, boat.setting);
        for (SoakState& soak : state.soak) {
            if (soak.soaks) set_all_today(soak, all_set, gear.rotation_slots);
        }
    }
    if (gear.still_setting || state.prepared->pots_dwindle || may_lift) weigh_rotation(gear, state.one_over_hauls);
    if (gear.still_setting) gear.still_setting = any_above_zero(gear.setting_days_left);
    if (state.prepared->pots) {
        SEASONRISK_EACH_LANE {
            const double most = fishery.hauls_per_day[i];
            gear.hauls_today[i] = state.hauling[i] * (gear.in_water[i] < most ? gear.in_water[i] : most);
        }
    } else {
        SEASONRISK_EACH_LANE gear.hauls_today[i] = state.hauling[i] * fishery.hauls_per_day[i];
    }
    if (boat.prepared->hands_miss) {
        SEASONRISK_EACH_LANE gear.hauls_today[i] *= boat.hauls_factor[i];
    }
    if (may_lift) {
        SEASONRISK_EACH_LANE {
            const double days = work.plan.ending.gear_in_days[i];
            const double share = days > 0.0 ? fishery.count[i] / days : 0.0;
            const double lifted = boat.lifting[i] * (gear.in_water[i] < share ? gear.in_water[i] : share);
            gear.hauls_today[i] += lifted;
            state.hauling[i] += boat.lifting[i];
            boat.year.hauls_without_bait[i] += lifted;
            work.cash.balance[i] += lifted * boat.rates.bait_a_haul[i];  // the haul's bait, paid with the trip, is not used
        }
    }
    add(boat.year.hauls, gear.hauls_today);
}

/// After the catch: what was lifted is ashore. All of it is when nothing is left in the water or the days are done.
SEASONRISK_STEP void bring_ashore(Workspace& work, std::size_t b, FisheryWork& state, const Fishery<Lanes>& fishery) {
    BoatWork& boat = work.boat[b];
    GearState& gear = state.gear;
    SEASONRISK_EACH_LANE {
        if (boat.lifting[i] == 0.0) continue;
        gear.gear_in_days_left[i] -= 1.0;
        gear.lifted[i] += gear.hauls_today[i];
        gear.in_water[i] -= gear.hauls_today[i];
        const bool all_in = gear.in_water[i] < 1e-9 * fishery.count[i] || gear.gear_in_days_left[i] <= 0.0;
        if (!all_in) continue;
        gear.lifted[i] += gear.in_water[i];
        gear.in_water[i] = 0.0;
        gear.gear_in_days_left[i] = 0.0;
    }
}

/// What the day does to each species' catch.
SEASONRISK_STEP void find_day_luck(Workspace& work, BatchAddress at_batch, std::size_t b, std::size_t word) {
    BoatWork& boat = work.boat[b];
    double* rows[k_most_rows];
    int used = 0;
    for (std::size_t k = 0; k < boat.species.size(); ++k) {
        if (!boat.species[k].has_luck) continue;
        const auto& species = work.plan.species[k];
        const GroundState& fish = work.ground[k].fish;
        const int item = boat.luck_item[k];
        const double* boat_normals = item < 0 ? work.no_luck.v : work.draws.normals[static_cast<std::size_t>(item) * k_days_in_block + word].v;
        Lanes& luck = boat.species[k].day_luck;
        SEASONRISK_EACH_LANE luck[i] = fish.mean_one[i] + species.day_sd[i] * fish.ground[i] + species.boat_day_sd[i] * boat_normals[i];
        rows[used++] = luck.v;
        if (used < k_most_rows) continue;
        at_batch.to_exp(rows, used);
        used = 0;
    }
    at_batch.to_exp(rows, used);
}

/// One species' catch by the way its soak is found and whether its days have luck.
template <Soak how, Landing landing>
SEASONRISK_STEP void catch_of_species(const PreparedPlan& ready, Workspace& work, std::size_t b, FisheryWork& state, std::size_t n, const Lanes& hauls) {
    const std::size_t k = state.prepared->species[n];
    BoatWork& boat = work.boat[b];
    BoatSpecies& mine = boat.species[k];
    const Lanes& price = ready.sells_simply ? work.outlet[0].price_of_catch[k] : work.no_luck;
    const CatchToday with{hauls, state.per_haul_now[n], mine.day_luck, price};
    if (mine.has_luck) {
        catch_and_price<how, DayLuck::some, landing>(state.soak[n], state.gear, state.hauling, with, mine.caught_today, mine.caught, boat.sales_today, boat.units_today);
    } else {
        catch_and_price<how, DayLuck::none, landing>(state.soak[n], state.gear, state.hauling, with, mine.caught_today, mine.caught, boat.sales_today, boat.units_today);
    }
    if (landing == Landing::all && ready.costs_per_unit) add(boat.units_today, mine.caught_today);
}

template <Landing landing>
SEASONRISK_STEP void land_the_catch(const PreparedPlan& ready, Workspace& work, std::size_t b, FisheryWork& state) {
    for (std::size_t n = 0; n < state.soak.size(); ++n) {
        SoakState& soak = state.soak[n];
        const Lanes* hauls = &state.gear.hauls_today;
        Lanes shared;
        if (ready.shares_ground) {
            const Lanes& share = work.ground[state.prepared->species[n]].share;
            SEASONRISK_EACH_LANE shared[i] = state.gear.hauls_today[i] * share[i];
            hauls = &shared;
        }
        if (soak.soaks && !state.gear.soaked_tonight) {
            if (state.gear.rotation_slots == 1) catch_of_species<Soak::one_group, landing>(ready, work, b, state, n, *hauls);
            else catch_of_species<Soak::two_groups, landing>(ready, work, b, state, n, *hauls);
            continue;
        }
        if (soak.soaks) find_soak_factor(soak, state.gear);
        catch_of_species<Soak::given, landing>(ready, work, b, state, n, *hauls);
        if (soak.soaks) haul_and_shift(soak, state.hauling, state.gear.rotation_slots);
    }
}

SEASONRISK_STEP void land_nothing(BoatWork& boat) {
    for (BoatSpecies& species : boat.species) species.caught_today = Lanes(0.0);
}

/// On days when several boats haul a species, each finds less of it.
SEASONRISK_STEP void share_the_ground(Workspace& work) {
    for (std::size_t k = 0; k < work.ground.size(); ++k) {
        GroundWork& ground = work.ground[k];
        Lanes hauled_by(0.0);
        Lanes share(1.0);
        for (std::size_t b = 0; b < work.boat.size(); ++b) {
            if (!work.boat[b].tried) continue;
            Lanes hauls(0.0);
            for (const FisheryWork& fishery : work.boat[b].fishery) {
                for (const std::size_t caught : fishery.prepared->species) {
                    if (caught == k) add(hauls, fishery.gear.hauls_today);
                }
            }
            const Lanes& leaves = work.plan.boat[b].ground_share;
            SEASONRISK_EACH_LANE {
                const double left = leaves[i];  // looked up whether she hauls or not: else g++ makes a branch of it
                hauled_by[i] += hauls[i] > 0.0 ? 1.0 : 0.0;
                share[i] *= hauls[i] > 0.0 ? left : 1.0;
            }
        }
        SEASONRISK_EACH_LANE ground.share[i] = hauled_by[i] >= 2.0 ? share[i] : 1.0;
    }
}

/// Does the limit hold on this day?
SEASONRISK_STEP bool holds(const Limit<Number>& limit, const Calendar& calendar, const Day& day) {
    const Date from = limit.from ? years_later(*limit.from, calendar.year) : calendar.season_start;
    const Date to = limit.to ? years_later(*limit.to, calendar.year) : calendar.season_end;
    return from <= day.date && day.date <= to;
}

SEASONRISK_STEP Lanes landing_of_all(const Workspace& work, std::size_t species) {
    Lanes today(0.0);
    for (const BoatWork& boat : work.boat) add(today, boat.species[species].caught_today);
    return today;
}

/// At the limit every boat's landing is cut in proportion; the rest goes back.
SEASONRISK_STEP void cut_landing(Workspace& work, const LimitWork& state, const Lanes& amount) {
    const Lanes today = landing_of_all(work, state.species);
    for (BoatWork& boat : work.boat) {
        BoatSpecies& landing = boat.species[state.species];
        SEASONRISK_EACH_LANE {
            const double room = amount[i] > state.landed[i] ? amount[i] - state.landed[i] : 0.0;
            const double keep = today[i] > room ? room / today[i] : 1.0;
            const double back = landing.caught_today[i] * (1.0 - keep);
            landing.caught_today[i] -= back;
            landing.caught[i] -= back;
        }
    }
}

/// Limits that stop are looked at first, for what one sends back counts for no other; then all count what is landed,
/// and what is above a limit that leases is paid for.
SEASONRISK_STEP void keep_to_limits(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day) {
    for (std::size_t n = 0; n < work.limit.size(); ++n) {
        const Limit<Number>& limit = ready.plan.limit[n];
        if (limit.over == Over::stop && holds(limit, calendar, day)) cut_landing(work, work.limit[n], work.plan.limit[n].amount);
    }
    for (std::size_t n = 0; n < work.limit.size(); ++n) {
        if (!holds(ready.plan.limit[n], calendar, day)) continue;
        const Limit<Lanes>& limit = work.plan.limit[n];
        const bool leases = ready.plan.limit[n].over == Over::lease;
        LimitWork& state = work.limit[n];
        const Lanes today = landing_of_all(work, state.species);
        for (int i = 0; i < k_lanes; ++i) {
            const double room = limit.amount[i] > state.landed[i] ? limit.amount[i] - state.landed[i] : 0.0;
            const double cost = leases && today[i] > room ? (today[i] - room) * (*limit.lease_price)[i] : 0.0;
            work.earned.quota_lease[i] += cost;
            work.cash.balance[i] -= cost;
            state.landed[i] += today[i];
            if (state.landed[i] >= limit.amount[i] * (1.0 - 1e-12)) state.reached_today[i] = 1.0;
        }
    }
}

/// A new day: periods that ended begin again, and what was reached yesterday holds from today.
SEASONRISK_STEP void turn_limits(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day) {
    for (std::size_t n = 0; n < work.limit.size(); ++n) {
        const Limit<Number>& limit = ready.plan.limit[n];
        LimitWork& state = work.limit[n];
        const Date from = limit.from ? years_later(*limit.from, calendar.year) : calendar.season_start;
        const Date to = limit.to ? years_later(*limit.to, calendar.year) : calendar.season_end;
        const bool month_begins = std::chrono::year_month_day{day.date}.day() == std::chrono::day{1};
        const bool begins = limit.per == Per::day || (limit.per == Per::week && day.monday) || (limit.per == Per::month && month_begins)
                            || day.date == from || day.date == to + std::chrono::days{1};
        SEASONRISK_EACH_LANE {
            state.reached[i] = begins ? 0.0 : state.reached_today[i];
            state.reached_today[i] = state.reached[i];
            state.landed[i] = begins ? 0.0 : state.landed[i];
        }
    }
}

/// The trip is paid for on its day.
SEASONRISK_STEP void pay_for_the_trip(Workspace& work, BoatWork& boat) {
    const BoatRates& rates = boat.rates;
    if (boat.fishery.size() == 1) {
        const Lanes& hauls = boat.fishery[0].gear.hauls_today;
        SEASONRISK_EACH_LANE work.cash.balance[i] -= boat.out[i] * rates.trip_a_day_out[i] + hauls[i] * rates.trip_a_haul[i];
        return;
    }
    Lanes hauls = boat.fishery[0].gear.hauls_today;
    for (std::size_t f = 1; f < boat.fishery.size(); ++f) add(hauls, boat.fishery[f].gear.hauls_today);
    SEASONRISK_EACH_LANE work.cash.balance[i] -= boat.out[i] * rates.trip_a_day_out[i] + hauls[i] * rates.trip_a_haul[i];
}

/// What hauls use up of what was bought ahead; what is not in store is bought the same day.
SEASONRISK_STEP void use_inputs(const PreparedPlan& ready, Workspace& work) {
    if (!ready.inputs_used) return;
    Lanes hauls(0.0);
    for (const BoatWork& boat : work.boat) {
        if (!boat.tried) continue;
        for (const FisheryWork& fishery : boat.fishery) add(hauls, fishery.gear.hauls_today);
    }
    for (std::size_t n = 0; n < work.input.size(); ++n) {
        const Input<Lanes>& input = work.plan.input[n];
        Lanes& left = work.input[n].left;
        SEASONRISK_EACH_LANE {
            const double used = hauls[i] * input.used_per_haul[i];
            const double from_store = used < left[i] ? used : left[i];
            const double cost = (used - from_store) * input.unit_cost[i] * work.growth.costs[i];
            left[i] -= from_store;
            work.earned.inputs[i] += cost;
            work.cash.balance[i] -= cost;
        }
    }
}

}  // namespace seasonrisk
