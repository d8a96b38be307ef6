// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// Before the first day of a batch: what each history's plan says once its guesses are drawn.
namespace seasonrisk {

/// Give every number its value in each history. Known numbers were laid down once, when the workspace was made.
SEASONRISK_STEP void settle_guesses(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    for (std::size_t g = 0; g < ready.guesses.size(); ++g) {
        const Lanes z = normals_at(at_batch.draw, at_batch.key, of_guess(ready.guesses[g].hash), at_batch.first_history);
        const Lanes value = at(ready.guesses[g].spread, z);
        for (Lanes* target : work.guess_targets[g]) *target = value;
    }
    if (ready.own_base) {
        work.rates.base_pots = work.plan.boat[0].fishery[0].count;
    } else if (ready.base_pots_guess) {
        work.rates.base_pots = at(ready.base_pots_guess->spread, normals_at(at_batch.draw, at_batch.key, of_guess(ready.base_pots_guess->hash), at_batch.first_history));
    }
}

SEASONRISK_STEP Lanes normals_of_year(const PreparedPlan& ready, BatchAddress at_batch, Purpose purpose, std::uint32_t item = 0) {
    return normals_at(at_batch.draw, at_batch.key, in_year(ready.calendar.season_year, purpose, {0, item}), at_batch.first_history);
}

SEASONRISK_STEP Lanes mean_one_factor(const Lanes& sd, const Lanes& z) {
    Lanes factor;
    for (int i = 0; i < k_lanes; ++i) factor[i] = exp(sd[i] * z[i] - 0.5 * sd[i] * sd[i]);
    return factor;
}

/// Good or bad year for the weather, each species' catch, prices, fuel and bait (design, section 5).
SEASONRISK_STEP void draw_the_year(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    const auto& plan = work.plan;
    const bool several = plan.species.size() > 1;
    const Lanes& r_wc = plan.together.weather_catch_correlation;
    const Lanes& r_pc = plan.together.price_catch_correlation;
    const Lanes r_s = several ? plan.together.species_year_correlation : Lanes(0.0);
    work.year.weather = normals_of_year(ready, at_batch, Purpose::year_weather);
    const Lanes common_catch = normals_of_year(ready, at_batch, Purpose::year_catch_common);
    const Lanes common_price = normals_of_year(ready, at_batch, Purpose::year_price_common);
    work.year.fuel_factor = mean_one_factor(plan.prices.fuel_year_sd, normals_of_year(ready, at_batch, Purpose::year_fuel));
    work.year.bait_factor = mean_one_factor(plan.prices.bait_year_sd, normals_of_year(ready, at_batch, Purpose::year_bait));
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        const auto item = static_cast<std::uint32_t>(k);
        const Lanes own_catch = normals_of_year(ready, at_batch, Purpose::year_catch_species, item);
        const Lanes own_price = normals_of_year(ready, at_batch, Purpose::year_price_species, item);
        Lanes catch_year;
        Lanes price_year;
        for (int i = 0; i < k_lanes; ++i) {
            // With one species there is nothing to share: its own part takes all that the weather leaves.
            const double shared = several ? std::sqrt(r_s[i] - r_wc[i] * r_wc[i]) : 0.0;
            const double own = several ? std::sqrt(1.0 - r_s[i]) : std::sqrt(1.0 - r_wc[i] * r_wc[i]);
            catch_year[i] = r_wc[i] * work.year.weather[i] + shared * common_catch[i] + own * own_catch[i];
            const double price_only = std::sqrt(r_s[i]) * common_price[i] + std::sqrt(1.0 - r_s[i]) * own_price[i];
            price_year[i] = r_pc[i] * catch_year[i] + std::sqrt(1.0 - r_pc[i] * r_pc[i]) * price_only;
        }
        work.species[k].fish.year_factor = mean_one_factor(plan.species[k].year_sd, catch_year);
        work.year.price_factor[k] = mean_one_factor(plan.outlet[0].year_sd, price_year);
    }
}

/// The chance of a bad day in each month of this year, for this boat.
SEASONRISK_STEP void settle_weather(const PreparedPlan& ready, Workspace& work) {
    if (!ready.weather_varies) return;
    const auto& plan = work.plan;
    const Lanes& multiplier = plan.boat[0].weather_odds_multiplier;
    for (int month = 0; month < 12; ++month) {
        const Lanes& fraction = unfishable_fraction_of(plan.weather.unfishable_fraction, month);
        Lanes& marginal = work.weather.marginal[month];
        if (!ready.weather_years_differ) {
            for (int i = 0; i < k_lanes; ++i) marginal[i] = bad_day_chance(fraction[i], multiplier[i]);
            continue;
        }
        const Lanes& sd = plan.weather.year_sd;
        for (int i = 0; i < k_lanes; ++i) {
            const bool certain = fraction[i] <= 0.0 || fraction[i] >= 1.0;
            const double month_logit = ready.weather_solved_per_batch
                ? logit_with_mean(certain ? 0.5 : fraction[i], sd[i])
                : ready.month_logit[static_cast<std::size_t>(month)];
            marginal[i] = bad_day_chance(fraction[i], month_logit, sd[i] * work.year.weather[i], log(multiplier[i]));
        }
    }
}

SEASONRISK_STEP void settle_rates(const PreparedPlan& ready, Workspace& work) {
    const auto& plan = work.plan;
    const auto& boat = plan.boat[0];
    const auto& fishery = boat.fishery[0];
    Rates& rates = work.rates;
    for (int i = 0; i < k_lanes; ++i) {
        const double fuel_price = plan.prices.fuel_per_l[i] * work.year.fuel_factor[i];
        rates.fuel_a_day_out[i] = boat.fuel_l_per_day_out[i] * fuel_price;
        rates.fuel_a_haul[i] = boat.fuel_l_per_100_hauls[i] * fuel_price / 100.0;
        rates.bait_a_haul[i] = plan.prices.bait_per_haul[i] * work.year.bait_factor[i];
        rates.costs_a_day_out[i] = 0.0;
        rates.overdraft_a_day[i] = plan.business.overdraft_rate_fraction[i] / 365.0;
        rates.one_over_hauls[i] = 1.0 / fishery.hauls_per_day[i];
        rates.crowding[i] = power(fishery.count[i] / rates.base_pots[i], fishery.elasticity[i] - 1.0);
    }
    for (const auto& cost : boat.day_costs) add(rates.costs_a_day_out, cost.amount);
    for (int i = 0; i < k_lanes; ++i) {
        rates.trip_a_day_out[i] = rates.fuel_a_day_out[i] + rates.costs_a_day_out[i];
        rates.trip_a_haul[i] = rates.fuel_a_haul[i] + rates.bait_a_haul[i];
    }
    if (ready.loses_gear) {
        const double days = ready.base_season_days;
        for (int i = 0; i < k_lanes; ++i) {
            rates.daily_loss_odds[i] = 1.0 - exp(log(1.0 - boat.gear_loss->season_fraction[i]) / days);
        }
    }
    for (std::size_t kind = 0; kind < work.breakdown.size(); ++kind) {
        for (int i = 0; i < k_lanes; ++i) {
            work.breakdown[kind].odds_a_day_out[i] = 1.0 - exp(-boat.breakdown[kind].per_100_days[i] / 100.0);
        }
    }
    for (std::size_t k = 0; k < work.species.size(); ++k) {
        const auto& species = plan.species[k];
        SpeciesWork& state = work.species[k];
        for (int i = 0; i < k_lanes; ++i) {
            state.fish.ground_kick[i] = std::sqrt(1.0 - species.day_persistence[i] * species.day_persistence[i]);
            state.fish.mean_one[i] = -0.5 * (species.day_sd[i] * species.day_sd[i] + species.boat_day_sd[i] * species.boat_day_sd[i]);
        }
        if (!ready.soaks[k]) continue;
        for (int i = 0; i < k_lanes; ++i) {
            const double tau = (*species.soak_time_constant_nights)[i];
            state.soak.empty_after_a_night[i] = exp(-1.0 / tau);
            state.soak.one_over_usual[i] = 1.0 / (1.0 - exp(-(*species.usual_soak_nights)[i] / tau));
        }
    }
    for (int i = 0; i < k_lanes; ++i) {
        const double persistence = plan.outlet[0].week_persistence[i];
        work.market.week_kick[i] = std::sqrt(1.0 - persistence * persistence);
    }
}

}  // namespace seasonrisk
