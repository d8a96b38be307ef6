// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/supposed.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// A good or a bad year for the weather, each species' catch, prices, fuel and bait (design, section 5): independent
/// series that carry over from year to year, tied by fixed weights.
namespace seasonrisk {

SEASONRISK_STEP Lanes normals_of_year(BatchAddress at_batch, int season_year, Purpose purpose, std::uint32_t item = 0) {
    return normals_at(at_batch.draw, at_batch.to_normals, at_batch.key, in_year(season_year, purpose, {0, item}), at_batch.first_history);
}

/// The normals every year has, in the order of `OfYear`, drawn in one go.
SEASONRISK_STEP const Lanes* draw_normals_of_year(Workspace& work, BatchAddress at_batch, int season_year) {
    constexpr Purpose common[] = {Purpose::year_weather, Purpose::year_catch_common, Purpose::year_price_common, Purpose::year_fuel, Purpose::year_bait};
    Lanes* const normals = work.draws.of_year.data();
    const int n = k_year_species + 2 * static_cast<int>(work.ground.size());
    for (int first = 0; first < n; first += k_most_rows) {
        const auto address = [&](int row) {
            const int place = first + row;
            if (place < k_year_species) return in_year(season_year, common[place]);
            const bool is_catch = (place - k_year_species) % 2 == 0;
            const auto species = static_cast<std::uint32_t>((place - k_year_species) / 2);
            return in_year(season_year, is_catch ? Purpose::year_catch_species : Purpose::year_price_species, {0, species});
        };
        normals_at_each(at_batch.draw, at_batch.to_normals, at_batch.key, at_batch.first_history, std::min(n - first, k_most_rows), address, normals[first].v);
    }
    return normals;
}

SEASONRISK_STEP Lanes mean_one_factor(const Lanes& sd, const Lanes& z) {
    Lanes factor;
    SEASONRISK_EACH_LANE factor[i] = exp(sd[i] * z[i] - 0.5 * sd[i] * sd[i]);
    return factor;
}

/// How the parts of a year are weighed.
struct YearTies {
    bool several = false;
    Lanes weather;             ///< r_wc
    Lanes shared_catch, own_catch;
    Lanes catch_in_price, shared_price, own_price;
    Lanes catch_carry, price_carry;   ///< hidden carries of the common and own parts
};

SEASONRISK_STEP YearTies ties_of(const PlanOf<Lanes>& plan) {
    YearTies ties;
    ties.several = plan.species.size() > 1;
    ties.weather = plan.together.weather_catch_correlation;
    ties.catch_in_price = plan.together.price_catch_correlation;
    SEASONRISK_EACH_LANE {
        const double r_wc = ties.weather[i];
        const double r_pc = ties.catch_in_price[i];
        const double r_s = ties.several ? plan.together.species_year_correlation[i] : 0.0;
        // With one species there is nothing to share: its own part takes all that the weather leaves.
        ties.shared_catch[i] = ties.several ? std::sqrt(r_s - r_wc * r_wc) : 0.0;
        ties.own_catch[i] = ties.several ? std::sqrt(1.0 - r_s) : std::sqrt(1.0 - r_wc * r_wc);
        const double price_only = std::sqrt(1.0 - r_pc * r_pc);
        ties.shared_price[i] = price_only * std::sqrt(r_s);
        ties.own_price[i] = price_only * std::sqrt(1.0 - r_s);
        const double catch_carry = plan.species[0].year_carry[i];
        ties.catch_carry[i] = catch_carry / (1.0 - r_wc * r_wc);
        ties.price_carry[i] = (plan.outlet[0].year_carry[i] - r_pc * r_pc * catch_carry) / (1.0 - r_pc * r_pc);
    }
    return ties;
}

/// One step of a standard AR(1) over years; its first year stands by itself.
SEASONRISK_STEP void carry_over(Lanes& x, const Lanes& carry, const Lanes& z, bool first_year) {
    SEASONRISK_EACH_LANE x[i] = first_year ? z[i] : carry[i] * x[i] + std::sqrt(1.0 - carry[i] * carry[i]) * z[i];
}

/// Last year's level is known for some species: the year before the first is drawn as any other, and then moved by
/// what it misses that level (conditioning of jointly normal values, standard; the species are all tied alike, so
/// the matrix to invert has a closed form). \return whether any was known
SEASONRISK_STEP bool start_from_last_year(Workspace& work, BatchAddress at_batch, const YearTies& ties, int season_year) {
    const auto& plan = work.plan;
    bool any = false;
    double known = 0.0;
    for (const auto& species : plan.species) known += species.last_year_fraction ? 1.0 : 0.0;
    any = known > 0.0;
    if (!any) return false;
    const int before = season_year - 1;
    const Lanes weather = normals_of_year(at_batch, before, Purpose::year_weather);
    Lanes& common = work.year.common_catch;
    common = normals_of_year(at_batch, before, Purpose::year_catch_common);
    Lanes missed_in_all(0.0);
    std::vector<Lanes>& own = work.year.own_catch;
    for (std::size_t k = 0; k < plan.species.size(); ++k) own[k] = normals_of_year(at_batch, before, Purpose::year_catch_species, static_cast<std::uint32_t>(k));
    const auto missed = [&](std::size_t k, int i, double common_then) {
        const double sd = plan.species[k].year_sd[i];
        const double level = log((*plan.species[k].last_year_fraction)[i]) / sd + 0.5 * sd;
        return level - (ties.weather[i] * weather[i] + ties.shared_catch[i] * common_then + ties.own_catch[i] * own[k][i]);
    };
    const Lanes common_then = common;
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        if (!plan.species[k].last_year_fraction) continue;
        SEASONRISK_EACH_LANE missed_in_all[i] += missed(k, i, common_then[i]);
    }
    Lanes moved_in_all(0.0);
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        if (!plan.species[k].last_year_fraction) continue;
        SEASONRISK_EACH_LANE {
            const double r_s = ties.several ? plan.together.species_year_correlation[i] : 0.0;
            const double weight = (missed(k, i, common_then[i]) - r_s * missed_in_all[i] / (1.0 + (known - 1.0) * r_s)) / (1.0 - r_s);
            own[k][i] += ties.own_catch[i] * weight;
            moved_in_all[i] += weight;
        }
    }
    SEASONRISK_EACH_LANE common[i] += ties.shared_catch[i] * moved_in_all[i];
    return true;
}

SEASONRISK_STEP void draw_the_year(const PreparedPlan& ready, Workspace& work, BatchAddress at_batch, const Calendar& calendar) {
    const auto& plan = work.plan;
    const int season_year = calendar.season_year;
    const YearTies ties = ties_of(plan);
    YearLuck& year = work.year;
    const bool first = calendar.year == 0;
    // The hidden parts are left as they are, so that the years after it are those of the plan.
    const bool bad_catch = is_bad_catch_supposed(ready, calendar);
    const bool fresh = first && !start_from_last_year(work, at_batch, ties, season_year);
    const Lanes* const z = draw_normals_of_year(work, at_batch, season_year);
    year.weather = z[k_year_weather];
    carry_over(year.common_catch, ties.catch_carry, z[k_year_common_catch], fresh);
    carry_over(year.common_price, ties.price_carry, z[k_year_common_price], first);
    carry_over(year.fuel, plan.prices.fuel_year_carry, z[k_year_fuel], first);
    carry_over(year.bait, plan.prices.bait_year_carry, z[k_year_bait], first);
    year.fuel_factor = mean_one_factor(plan.prices.fuel_year_sd, year.fuel);
    year.bait_factor = mean_one_factor(plan.prices.bait_year_sd, year.bait);
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        carry_over(year.own_catch[k], ties.catch_carry, z[k_year_species + 2 * k], fresh);
        carry_over(year.own_price[k], ties.price_carry, z[k_year_species + 2 * k + 1], first);
        Lanes catch_year;
        SEASONRISK_EACH_LANE {
            catch_year[i] = bad_catch ? k_bad_catch_z : ties.weather[i] * year.weather[i] + ties.shared_catch[i] * year.common_catch[i] + ties.own_catch[i] * year.own_catch[k][i];
            year.price[k][i] = ties.catch_in_price[i] * catch_year[i] + ties.shared_price[i] * year.common_price[i] + ties.own_price[i] * year.own_price[k][i];
        }
        work.ground[k].year_factor = mean_one_factor(plan.species[k].year_sd, catch_year);
        for (std::size_t o = 0; o < plan.outlet.size(); ++o) work.outlet[o].year_factor[k] = mean_one_factor(plan.outlet[o].year_sd, year.price[k]);
    }
    // Grades: the year shifts their shares, which always add up to one.
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        const auto& grades = plan.species[k].grade;
        Lanes sum(0.0);
        for (std::size_t n = 0; n < grades.size(); ++n) {
            const std::size_t g = ready.goods_of[k][n];
            const Lanes shift = mean_one_factor(grades[n].year_sd, normals_of_year(at_batch, season_year, Purpose::year_grade, static_cast<std::uint32_t>(g)));
            SEASONRISK_EACH_LANE {
                work.goods[g].share[i] = grades[n].fraction[i] * shift[i];
                sum[i] += work.goods[g].share[i];
            }
        }
        for (std::size_t n = 0; n < grades.size(); ++n) {
            Lanes& share = work.goods[ready.goods_of[k][n]].share;
            SEASONRISK_EACH_LANE share[i] = share[i] / sum[i] * grades[n].sold_units_per_unit[i];
        }
    }
}

}  // namespace seasonrisk
