// SPDX-License-Identifier: MIT
#include "seasonrisk/ensemble/spread_sources.hpp"

#include <algorithm>
#include <stdexcept>

#include "seasonrisk/plan/guesses.hpp"
#include "seasonrisk/season/prepared_plan.hpp"
#include "seasonrisk/season/year_luck.hpp"

namespace seasonrisk {
namespace {

/// Calls `draw(first history of the batch, its normals)` until `normals` is full.
void fill(std::vector<double>& normals, std::uint64_t first_history, std::uint64_t histories, const auto& draw) {
    normals.resize(static_cast<std::size_t>(histories));
    alignas(64) double batch[4 * k_lanes];
    for (std::uint64_t done = 0; done < histories; done += k_lanes) {
        draw(first_history + done, batch);
        std::copy_n(batch, std::min<std::uint64_t>(k_lanes, histories - done), normals.begin() + static_cast<std::ptrdiff_t>(done));
    }
}

bool has_spread(const Number& sd) { return sd.is_guess || sd.typical != 0.0; }

/// One series of the year luck, as `draw_the_year` draws it.
struct YearSeries {
    const char* part;
    Purpose purpose;
    std::uint32_t item = 0;
};

std::vector<YearSeries> year_series(const PreparedPlan& ready) {
    const Plan& plan = ready.plan;
    const auto species = static_cast<std::uint32_t>(plan.species.size());
    const bool catch_differs = std::ranges::any_of(plan.species, has_spread, &Species<Number>::year_sd);
    const bool price_differs = std::ranges::any_of(plan.outlet, has_spread, &Outlet<Number>::year_sd);
    const bool catch_in_price = price_differs && has_spread(plan.together.price_catch_correlation);
    const bool catch_counts = catch_differs || catch_in_price;

    std::vector<YearSeries> series;
    const bool weather_in_catch = catch_counts && has_spread(plan.together.weather_catch_correlation);
    if (ready.weather_years_differ || weather_in_catch) series.push_back({"weather", Purpose::year_weather});
    if (catch_counts && species > 1) series.push_back({"catch", Purpose::year_catch_common});
    if (price_differs && species > 1) series.push_back({"price", Purpose::year_price_common});
    for (std::uint32_t k = 0; k < species; ++k) {
        if (catch_counts) series.push_back({"catch", Purpose::year_catch_species, k});
        if (price_differs) series.push_back({"price", Purpose::year_price_species, k});
        for (std::size_t n = 0; n < plan.species[k].grade.size(); ++n) {
            if (has_spread(plan.species[k].grade[n].year_sd)) series.push_back({"grades", Purpose::year_grade, static_cast<std::uint32_t>(ready.goods_of[k][n])});
        }
    }
    if (has_spread(plan.prices.fuel_year_sd)) series.push_back({"fuel", Purpose::year_fuel});
    if (has_spread(plan.prices.bait_year_sd)) series.push_back({"bait", Purpose::year_bait});
    return series;
}

/// The years in which this series is drawn: where last year's level is known, the year before the first is, too.
std::vector<int> years_of(const PreparedPlan& ready, Purpose purpose) {
    std::vector<int> years;
    const bool carries_catch = purpose == Purpose::year_weather || purpose == Purpose::year_catch_common || purpose == Purpose::year_catch_species;
    const bool known = std::ranges::any_of(ready.plan.species, [](const Species<Number>& s) { return s.last_year_fraction.has_value(); });
    if (carries_catch && known) years.push_back(ready.first_year().season_year - 1);
    for (const Calendar& calendar : ready.years) years.push_back(calendar.season_year);
    return years;
}

}  // namespace

std::vector<SpreadSource> spread_sources(const Plan& plan, std::uint64_t key, std::uint64_t first_history, std::uint64_t histories) {
    if (histories == 0) throw std::invalid_argument("histories=0: must be 1 or more");
    const PreparedPlan ready = prepare(plan);
    std::vector<SpreadSource> sources;
    for (const Guess& guess : guesses_of(plan)) {
        SpreadSource& source = sources.emplace_back(SpreadSource{guess.path, true});
        fill(source.normals, first_history, histories, [&](std::uint64_t first, double* batch) {
            guess_normals(draw_block_baseline, normal_rows_baseline, key, first, 1, [&](int) { return guess.hash; }, batch);
        });
    }
    for (const YearSeries& series : year_series(ready)) {
        for (const int year : years_of(ready, series.purpose)) {
            SpreadSource& source = sources.emplace_back(SpreadSource{series.part, false});
            fill(source.normals, first_history, histories, [&](std::uint64_t first, double* batch) {
                const Lanes z = normals_of_year({key, first}, year, series.purpose, series.item);
                std::copy_n(z.v, k_lanes, batch);
            });
        }
    }
    return sources;
}

}  // namespace seasonrisk
