// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "prepare_parts.hpp"
#include "seasonrisk/plan/check_plan.hpp"
#include "seasonrisk/plan/guesses.hpp"
#include "seasonrisk/season/weather.hpp"

namespace seasonrisk {
namespace {

/// The value that bounds a chain's memory: of a guess its 1-in-10 high, the same for every history.
double longest_memory(const Number& persistence) { return persistence.is_guess ? persistence.high : persistence.typical; }

void prepare_weather(PreparedPlan& ready) {
    const Weather<Number>& weather = ready.plan.weather;
    ready.weather_years_differ = can_be_above_zero(weather.year_sd);
    ready.weather_solved_per_batch = weather.year_sd.is_guess;
    ready.month_logit.assign(12, 0.0);
    for (int month = 0; month < 12; ++month) {
        const Number& fraction = *last_given(weather.unfishable_fraction, month);
        ready.weather_varies = ready.weather_varies || can_be_above_zero(fraction);
        ready.weather_solved_per_batch = ready.weather_solved_per_batch || (ready.weather_years_differ && fraction.is_guess);
    }
    ready.turns_back = can_be_above_zero(weather.turned_back_fraction) && ready.weather_varies;
    if (!ready.weather_years_differ || ready.weather_solved_per_batch) return;
    for (int month = 0; month < 12; ++month) {
        const double fraction = last_given(weather.unfishable_fraction, month)->typical;
        const bool certain = fraction <= 0.0 || fraction >= 1.0;
        ready.month_logit[static_cast<std::size_t>(month)] = logit_with_mean(certain ? 0.5 : fraction, weather.year_sd.typical);
    }
}

void prepare_leads(PreparedPlan& ready) {
    if (ready.weather_varies) ready.lead_of_weather = steps_to_forget(longest_memory(ready.plan.weather.persistence));
    ready.longest_lead = ready.lead_of_weather;
    for (std::size_t k = 0; k < ready.plan.species.size(); ++k) {
        const int lead = steps_to_forget(longest_memory(ready.plan.species[k].day_persistence));
        ready.lead_of_ground.push_back(lead);
        if (ready.ground_moves[k]) ready.longest_lead = std::max(ready.longest_lead, lead);
    }
    const bool to_the_end = ready.gear_in || !ready.plan.holding.empty() || !ready.plan.order.empty();
    for (Calendar& year : ready.years) {
        for (Date date = year.season_start - std::chrono::days{ready.longest_lead}; date < year.season_start; date += std::chrono::days{1})
            year.lead_days.push_back(day_before_season(date));
        const Date last = to_the_end ? year.days.back().date : year.season_end;
        for (Date date = year.season_start - std::chrono::days{ready.longest_lead}; date <= last; date += std::chrono::days{1})
            ready.weather_in_month[static_cast<unsigned>(std::chrono::year_month_day{date}.month()) - 1] = true;
    }
    for (const Outlet<Number>& outlet : ready.plan.outlet) {
        ready.price_moves_weekly.push_back(can_be_above_zero(outlet.week_sd));
        ready.lead_of_week.push_back(steps_to_forget(longest_memory(outlet.week_persistence)));
    }
}

void prepare_species(PreparedPlan& ready) {
    for (const Species<Number>& species : ready.plan.species) {
        ready.ground_moves.push_back(can_be_above_zero(species.day_sd));
        ready.boat_moves.push_back(can_be_above_zero(species.boat_day_sd));
        ready.soaks.push_back(species.usual_soak_nights && species.soak_time_constant_nights);
    }
}

}  // namespace

int steps_to_forget(double persistence) {
    constexpr double forgotten = 1e-6;
    constexpr int most = 730;
    int steps = 0;
    for (double left = 1.0; left > forgotten && steps < most; left *= persistence) ++steps;
    return persistence <= 0.0 ? 0 : steps;
}

PreparedPlan prepare(const Plan& plan) {
    require_sound(plan);
    PreparedPlan ready;
    ready.plan = plan;
    for (int year = 0; year < plan.business.years; ++year)
        ready.years.push_back(make_calendar(plan.season, plan.business.books_start, year));
    ready.days_in_history = ready.years.back().first_today + static_cast<int>(ready.years.back().days.size());
    for (const Guess& guess : guesses_of(plan)) ready.guesses.push_back({guess.hash, spread_of(guess.number, guess.rule)});

    ready.own_base = !plan.base.before;
    ready.gear_in = can_be_above_zero(plan.ending.gear_in_days);
    ready.owner_laid_up = plan.skipper && can_be_above_zero(plan.skipper->laid_up_odds_per_season);
    if (plan.skipper) ready.laid_up_weeks = spreads_of_sizes(*plan.skipper).at(0);
    ready.overdraft_costs = can_be_above_zero(plan.business.overdraft_rate_fraction);
    ready.inputs_used = std::ranges::any_of(plan.input, [](const Input<Number>& input) { return can_be_above_zero(input.used_per_haul); });
    const auto some_hours = [](const auto& list, const auto& hours) {
        return std::ranges::any_of(list, [&](const auto& each) { return can_be_above_zero(hours(each)); });
    };
    ready.counts_hours = last_given(plan.household.hours, 0) != nullptr
                         || some_hours(plan.outlet, [](const auto& outlet) { return outlet.hours_per_open_day; })
                         || some_hours(plan.boat, [](const auto& boat) { return boat.hours_per_day; })
                         || some_hours(plan.boat, [](const auto& boat) { return boat.gear_loss ? boat.gear_loss->prepare_hours_per_pot : Number(0.0); });
    prepare_weather(ready);
    for (const Loan<Number>& loan : plan.loan) ready.rate_moves.push_back(can_be_above_zero(loan.rate_change_sd_per_year_fraction));
    prepare_species(ready);
    prepare_suppose(ready);
    prepare_boats(ready);
    prepare_selling(ready);
    prepare_leads(ready);
    prepare_usual_landing(ready);
    return ready;
}

}  // namespace seasonrisk
