// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "seasonrisk/plan/check_plan.hpp"
#include "seasonrisk/plan/guesses.hpp"
#include "seasonrisk/season/prepared_plan.hpp"
#include "seasonrisk/season/weather.hpp"

namespace seasonrisk {
namespace {

using std::chrono::days;

/// The value that bounds a chain's memory: of a guess its 1-in-10 high, the same for every history.
double longest_memory(const Number& persistence) { return persistence.is_guess ? persistence.high : persistence.typical; }

bool can_be_above_zero(const Number& number) { return number.is_guess || number.typical > 0.0; }

void prepare_weather(PreparedPlan& ready) {
    const Weather<Number>& weather = ready.plan.weather;
    ready.weather_years_differ = can_be_above_zero(weather.year_sd);
    ready.weather_solved_per_batch = weather.year_sd.is_guess;
    ready.month_logit.assign(12, 0.0);
    for (int month = 0; month < 12; ++month) {
        const Number& fraction = unfishable_fraction_of(weather.unfishable_fraction, month);
        ready.weather_varies = ready.weather_varies || can_be_above_zero(fraction);
        ready.weather_solved_per_batch = ready.weather_solved_per_batch || (ready.weather_years_differ && fraction.is_guess);
    }
    if (!ready.weather_years_differ || ready.weather_solved_per_batch) return;
    for (int month = 0; month < 12; ++month) {
        const double fraction = unfishable_fraction_of(weather.unfishable_fraction, month).typical;
        const bool certain = fraction <= 0.0 || fraction >= 1.0;
        ready.month_logit[static_cast<std::size_t>(month)] = logit_with_mean(certain ? 0.5 : fraction, weather.year_sd.typical);
    }
}

void prepare_lead(PreparedPlan& ready) {
    const Date start = *ready.plan.season.start;
    int longest = 0;
    if (ready.weather_varies) {
        ready.lead_of_weather = steps_to_forget(longest_memory(ready.plan.weather.persistence));
        longest = ready.lead_of_weather;
    }
    for (std::size_t k = 0; k < ready.plan.species.size(); ++k) {
        const int lead = steps_to_forget(longest_memory(ready.plan.species[k].day_persistence));
        ready.lead_of_ground.push_back(lead);
        if (ready.ground_moves[k]) longest = std::max(longest, lead);
    }
    for (Date date = start - days{longest}; date < start; date += days{1}) ready.lead_days.push_back(day_before_season(date));
    if (!ready.price_moves_weekly) return;
    const Date week_of_start = monday_of(start);
    const int weeks = steps_to_forget(longest_memory(ready.plan.outlet[0].week_persistence));
    for (Date monday = week_of_start - days{7 * weeks}; monday <= week_of_start; monday += days{7}) ready.lead_weeks.push_back(day_slot(monday));
}

/// The rule of each size stands with its key; asking the section keeps it in one place.
struct RuleOfSizes {
    std::vector<Spread> spreads{};
    void size(const char*, const EventSize& size, const Rule& rule, Need) { spreads.push_back(spread_of(size, rule)); }
    void number(auto&&...) {}
    void text(auto&&...) {}
    void flag(auto&&...) {}
};

void prepare_events(PreparedPlan& ready) {
    const Boat<Number>& boat = ready.plan.boat[0];
    for (const Breakdown<Number>& kind : boat.breakdown) {
        RuleOfSizes sizes;
        Breakdown<Number>::fields(kind, sizes);
        ready.breakdowns.push_back({sizes.spreads[0], sizes.spreads[1]});
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
    ready.calendar = make_calendar(plan.season, plan.business.books_start);
    for (const Guess& guess : guesses_of(plan)) ready.guesses.push_back({guess.hash, spread_of(guess.number, guess.rule)});

    const Boat<Number>& boat = plan.boat[0];
    prepare_weather(ready);
    for (const Species<Number>& species : plan.species) {
        ready.ground_moves.push_back(can_be_above_zero(species.day_sd));
        ready.boat_moves.push_back(can_be_above_zero(species.boat_day_sd));
        ready.soaks.push_back(species.usual_soak_nights && species.soak_time_constant_nights);
        ready.any_soak = ready.any_soak || ready.soaks.back();
    }
    ready.sets_gear = can_be_above_zero(boat.fishery[0].setting_days);
    ready.loses_gear = boat.gear_loss && can_be_above_zero(boat.gear_loss->season_fraction);
    ready.pots_dwindle = ready.loses_gear && boat.gear_loss->replace == ReplaceWhen::next_season;
    ready.price_moves_weekly = can_be_above_zero(plan.outlet[0].week_sd);
    ready.same_settlement_delay = !plan.outlet[0].paid_after_days.is_guess;
    ready.overdraft_costs = can_be_above_zero(plan.business.overdraft_rate_fraction);
    ready.may_be_lost = boat.insurance && can_be_above_zero(boat.insurance->total_loss_odds_per_year);
    const Plan& before = before_choices(plan);
    ready.own_base = !plan.base.before;
    ready.base_pots = before.boat[0].fishery[0].count;
    ready.base_season_days = static_cast<int>((*before.season.end - *before.season.start).count()) + 1;
    if (!ready.own_base && ready.base_pots.is_guess) {
        constexpr const char* path = "boat.0.fishery.0.count";  // the guess keeps its address when a choice sets the key
        ready.base_pots_guess = PreparedGuess{path_hash(path), spread_of(ready.base_pots, rules::positive("pots", ""))};
    }
    prepare_events(ready);
    prepare_lead(ready);
    return ready;
}

}  // namespace seasonrisk
