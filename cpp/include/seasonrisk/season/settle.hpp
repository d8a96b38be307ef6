// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/machinery.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// What each history's plan says once its guesses are drawn, and what follows from that for a whole year.
namespace seasonrisk {

/// Give every number its value in each history. Known numbers were laid down once, when the workspace was made.
SEASONRISK_STEP void settle_guesses(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch) {
    const auto drawn = [&](const PreparedGuess& guess) {
        alignas(64) double normals[4 * k_lanes];
        guess_normals(at_batch.draw, at_batch.to_normals, at_batch.key, at_batch.first_history, 1, [&](int) { return guess.hash; }, normals);
        Lanes z;
        SEASONRISK_EACH_LANE z[i] = normals[i];
        return at(guess.spread, z);
    };
    alignas(64) double normals[k_most_quantiles + 3 * k_lanes];
    const int guesses = static_cast<int>(ready.guesses.size());
    for (int first = 0; first < guesses; first += k_most_rows) {
        const int count = std::min(guesses - first, k_most_rows);
        const auto hash_of = [&](int row) { return ready.guesses[static_cast<std::size_t>(first + row)].hash; };
        guess_normals(at_batch.draw, at_batch.to_normals, at_batch.key, at_batch.first_history, count, hash_of, normals);
        for (int row = 0; row < count; ++row) {
            const auto g = static_cast<std::size_t>(first + row);
            Lanes z;
            SEASONRISK_EACH_LANE z[i] = normals[row * k_lanes + i];
            const Lanes value = at(ready.guesses[g].spread, z);
            for (Lanes* target : work.guess_targets[g]) *target = value;
        }
    }
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        for (std::size_t f = 0; f < work.boat[b].fishery.size(); ++f) {
            FisheryWork& fishery = work.boat[b].fishery[f];
            const BaseNumber& base = fishery.prepared->base_pots;
            if (ready.own_base) fishery.base_pots = work.plan.boat[b].fishery[f].count;
            else fishery.base_pots = base.guess ? drawn(*base.guess) : Lanes(base.known);
            SEASONRISK_EACH_LANE fishery.one_over_hauls[i] = 1.0 / work.plan.boat[b].fishery[f].hauls_per_day[i];
        }
    }
}

/// (1 + g)^year so far.
SEASONRISK_STEP void grow(GrowthSoFar& so_far, const Growth<Lanes>& growth, int year) {
    if (year == 0) {
        so_far = GrowthSoFar{};
        return;
    }
    SEASONRISK_EACH_LANE {
        so_far.costs[i] *= 1.0 + growth.costs_per_year_fraction[i];
        so_far.fuel[i] *= 1.0 + growth.fuel_per_year_fraction[i];
        so_far.bait[i] *= 1.0 + growth.bait_per_year_fraction[i];
        so_far.wages[i] *= 1.0 + growth.wages_per_year_fraction[i];
        so_far.prices[i] *= 1.0 + growth.prices_per_year_fraction[i];
        so_far.caught[i] *= 1.0 + growth.catch_per_year_fraction[i];
    }
}

/// The chance of a bad day in each month of this year, for each boat.
SEASONRISK_STEP void settle_weather(const PreparedPlan& ready, Workspace& work) {
    if (!ready.weather_varies) return;
    const Lanes& sd = work.plan.weather.year_sd;
    if (ready.weather_years_differ && work.year_now == 0) {
        for (std::size_t b = 0; b < work.boat.size(); ++b) {
            SEASONRISK_EACH_LANE work.boat[b].weather.log_multiplier[i] = log(work.plan.boat[b].weather_odds_multiplier[i]);
        }
    }
    for (int month = 0; month < 12; ++month) {
        if (!ready.weather_in_month[static_cast<std::size_t>(month)]) continue;
        const Lanes& fraction = *last_given(work.plan.weather.unfishable_fraction, month);
        Lanes& logits = work.harbour.month_logit[month];
        if (ready.weather_years_differ && work.year_now == 0) {
            SEASONRISK_EACH_LANE {
                const bool certain = fraction[i] <= 0.0 || fraction[i] >= 1.0;
                logits[i] = ready.weather_solved_per_batch ? logit_with_mean(certain ? 0.5 : fraction[i], sd[i])
                                                           : ready.month_logit[static_cast<std::size_t>(month)];
            }
        }
        for (std::size_t b = 0; b < work.boat.size(); ++b) {
            const Lanes& multiplier = work.plan.boat[b].weather_odds_multiplier;
            Lanes& marginal = work.boat[b].weather.marginal[month];
            if (!ready.weather_years_differ) {
                SEASONRISK_EACH_LANE marginal[i] = bad_day_chance(fraction[i], multiplier[i]);
            } else {
                SEASONRISK_EACH_LANE
                    marginal[i] = bad_day_chance(fraction[i], logits[i], sd[i] * work.year.weather[i], work.boat[b].weather.log_multiplier[i]);
            }
        }
    }
}

/// What running the boat costs this year.
SEASONRISK_STEP void settle_boat_rates(const PreparedPlan& ready, Workspace& work, std::size_t b) {
    const auto& plan = work.plan;
    const auto& boat = plan.boat[b];
    BoatRates& rates = work.boat[b].rates;
    rates.costs_a_day_out = Lanes(0.0);
    for (const auto& cost : boat.day_costs) add(rates.costs_a_day_out, cost.amount);
    SEASONRISK_EACH_LANE {
        const double fuel_price = plan.prices.fuel_per_l[i] * work.year.fuel_factor[i] * work.growth.fuel[i];
        rates.fuel_a_day_out[i] = boat.fuel_l_per_day_out[i] * fuel_price;
        rates.fuel_a_haul[i] = boat.fuel_l_per_100_hauls[i] * fuel_price / 100.0;
        rates.bait_a_haul[i] = plan.prices.bait_per_haul[i] * work.year.bait_factor[i] * work.growth.bait[i];
        rates.costs_a_day_out[i] *= work.growth.costs[i];
        rates.trip_a_day_out[i] = rates.fuel_a_day_out[i] + rates.costs_a_day_out[i];
        rates.trip_a_haul[i] = rates.fuel_a_haul[i] + rates.bait_a_haul[i];
    }
    for (std::size_t hand = 0; hand < boat.crew.size(); ++hand) {
        const auto& crew = boat.crew[hand];
        Lanes& rate = work.boat[b].hand[hand].rate;
        if (crew.pay != PayKind::day_wage) {
            rate = *crew.share_fraction;
            continue;
        }
        SEASONRISK_EACH_LANE rate[i] = (*crew.per_day)[i] * work.growth.wages[i];
    }
    for (std::size_t kind = 0; kind < work.boat[b].breakdown.size(); ++kind) {
        BreakdownWork& state = work.boat[b].breakdown[kind];
        if (ready.boat[b].breakdowns[kind].wears) state.odds_a_day_out = most_worn_odds(boat.breakdown[kind], state.hours, boat.hours_per_day);
        else SEASONRISK_EACH_LANE state.odds_a_day_out[i] = 1.0 - exp(-boat.breakdown[kind].per_100_days[i] / 100.0);
    }
    if (!ready.boat[b].meets_storms) return;
    // A storm finds its boat only on a bad day: the odds of a season are laid out over the bad days to be expected.
    Lanes bad_days(0.0);
    for (int month = 0; month < 12; ++month) {
        double days = 0.0;
        for (const PreparedFishery& fishery : ready.boat[b].fishery) {
            if (fishery.loses_gear) days += fishery.days_in_month[static_cast<std::size_t>(work.year_now)][static_cast<std::size_t>(month)];
        }
        if (days == 0.0) continue;
        const Lanes& fraction = *last_given(plan.weather.unfishable_fraction, month);
        const auto stated = [&](int i) {
            const double multiplier = boat.weather_odds_multiplier[i];
            const bool certain = fraction[i] <= 0.0 || fraction[i] >= 1.0;
            return !ready.weather_years_differ || certain ? bad_day_chance(fraction[i], multiplier)
                 : mean_bad_day_chance(work.harbour.month_logit[month][i], plan.weather.year_sd[i], log(multiplier));
        };
        const bool guessed = ready.weather_solved_per_batch || ready.plan.boat[b].weather_odds_multiplier.is_guess
                             || last_given(ready.plan.weather.unfishable_fraction, month)->is_guess;
        Lanes chance(guessed ? 0.0 : stated(0));  // known numbers are the same in every history
        for (int i = 0; guessed && i < k_lanes; ++i) chance[i] = stated(i);
        SEASONRISK_EACH_LANE bad_days[i] += days * chance[i];
    }
    const Lanes& odds = boat.gear_loss->storm_odds_per_season;
    SEASONRISK_EACH_LANE rates.storm_odds[i] = bad_days[i] > 0.0 ? 1.0 - exp(log(1.0 - odds[i]) / bad_days[i]) : 0.0;
}

SEASONRISK_STEP void settle_fishery(Workspace& work, std::size_t b, FisheryWork& state, const Fishery<Lanes>& fishery) {
    const auto& boat = work.plan.boat[b];
    SEASONRISK_EACH_LANE state.crowding[i] = power(fishery.count[i] / state.base_pots[i], fishery.elasticity[i] - 1.0);
    if (state.prepared->loses_gear) {
        const double days = state.prepared->base_days;
        SEASONRISK_EACH_LANE
            state.daily_loss_odds[i] = 1.0 - exp(log(1.0 - boat.gear_loss->season_fraction[i]) / days);
    }
    for (std::size_t n = 0; n < state.soak.size(); ++n) {
        const auto& species = work.plan.species[state.prepared->species[n]];
        SoakState& soak = state.soak[n];
        soak.soaks = state.prepared->pots && species.usual_soak_nights && species.soak_time_constant_nights;
        if (!soak.soaks) continue;
        SEASONRISK_EACH_LANE {
            const double tau = (*species.soak_time_constant_nights)[i];
            soak.empty_after_a_night[i] = exp(-1.0 / tau);
            soak.one_over_usual[i] = 1.0 / (1.0 - exp(-(*species.usual_soak_nights)[i] / tau));
        }
    }
}

/// Odds of a day that come to `odds` over the season's days.
SEASONRISK_STEP Lanes odds_a_day(const Lanes& odds, double season_days) {
    Lanes a_day;
    SEASONRISK_EACH_LANE a_day[i] = 1.0 - exp(log(1.0 - odds[i]) / season_days);
    return a_day;
}

/// How likely the owner falls ill on a day, and each hired skipper goes missing.
SEASONRISK_STEP void settle_people(const PreparedPlan& ready, Workspace& work, const Calendar& calendar) {
    const double season_days = calendar.season_days;
    if (ready.owner_laid_up) work.owner.laid_up_odds_a_day = odds_a_day(work.plan.skipper->laid_up_odds_per_season, season_days);
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        if (ready.boat[b].gaps) work.boat[b].gap_odds_a_day = odds_a_day(work.plan.boat[b].skipper_gap_odds_per_year, season_days);
    }
}

SEASONRISK_STEP void settle_rates(const PreparedPlan& ready, Workspace& work) {
    for (std::size_t b = 0; b < work.boat.size(); ++b) {
        settle_boat_rates(ready, work, b);
        for (std::size_t f = 0; f < work.boat[b].fishery.size(); ++f) settle_fishery(work, b, work.boat[b].fishery[f], work.plan.boat[b].fishery[f]);
    }
    for (std::size_t k = 0; k < work.ground.size(); ++k) {
        const auto& species = work.plan.species[k];
        GroundState& fish = work.ground[k].fish;
        SEASONRISK_EACH_LANE {
            fish.ground_kick[i] = std::sqrt(1.0 - species.day_persistence[i] * species.day_persistence[i]);
            fish.mean_one[i] = -0.5 * (species.day_sd[i] * species.day_sd[i] + species.boat_day_sd[i] * species.boat_day_sd[i]);
        }
    }
    for (std::size_t o = 0; o < work.outlet.size(); ++o) {
        const Lanes& persistence = work.plan.outlet[o].week_persistence;
        SEASONRISK_EACH_LANE work.outlet[o].market.week_kick[i] = std::sqrt(1.0 - persistence[i] * persistence[i]);
    }
    SEASONRISK_EACH_LANE work.overdraft_a_day[i] = work.plan.business.overdraft_rate_fraction[i] / 365.0;
}

}  // namespace seasonrisk
