// SPDX-License-Identifier: MIT
#include <algorithm>

#include "prepare_parts.hpp"

namespace seasonrisk {
namespace {

using std::chrono::days;

/// First and last day of a fishery in a year, before the boat's own arrival is looked at.
std::pair<Date, Date> dates_of(const Fishery<Number>& fishery, const Calendar& year) {
    return {fishery.from ? years_later(*fishery.from, year.year) : year.season_start,
            fishery.to ? years_later(*fishery.to, year.year) : year.season_end};
}

void lay_out_dates(PreparedFishery& ready, const Fishery<Number>& fishery, const Boat<Number>& boat, const std::vector<Calendar>& years) {
    for (const Calendar& year : years) {
        auto [from, to] = dates_of(fishery, year);
        if (boat.fish_from) from = std::max(from, *boat.fish_from);
        ready.from.push_back(from);
        ready.to.push_back(std::min(to, year.stop));
        ready.last.push_back(to);
        ready.comes_in.push_back(false);
    }
}

/// Pots and days at risk of the plan before choices; a fishery that is not in it is its own base.
void look_at_base(PreparedFishery& ready, const PreparedPlan& all, std::size_t b, std::size_t f) {
    const Plan& before = before_choices(all.plan);
    const bool is_there = b < before.boat.size() && f < before.boat[b].fishery.size();
    const Fishery<Number>& fishery = is_there ? before.boat[b].fishery[f] : all.plan.boat[b].fishery[f];
    ready.base_pots.known = fishery.count.typical;
    if (fishery.count.is_guess) {
        const std::string path = "boat." + std::to_string(b) + ".fishery." + std::to_string(f) + ".count";
        ready.base_pots.guess = PreparedGuess{path_hash(path), spread_of(fishery.count, rules::positive("pots", ""))};
    }
    const Plan& dated = is_there ? before : all.plan;
    for (const Calendar& year : all.years) {
        const Calendar of_base = make_calendar(dated.season, dated.business.books_start, year.year);
        const auto [from, to] = dates_of(fishery, of_base);
        if (year.year == 0) ready.base_days = static_cast<int>((to - from).count()) + 1;
        std::array<int, 12>& in_month = ready.days_in_month.emplace_back();
        for (Date date = from; date <= to; date += days{1}) ++in_month[static_cast<unsigned>(std::chrono::year_month_day{date}.month()) - 1];
    }
}

void prepare_fishery(PreparedPlan& all, std::size_t b, std::size_t f) {
    const Boat<Number>& boat = all.plan.boat[b];
    const Fishery<Number>& fishery = boat.fishery[f];
    PreparedFishery& ready = all.boat[b].fishery.emplace_back();
    ready.pots = fishery.gear == Gear::pots;
    ready.sets_gear = ready.pots && can_be_above_zero(fishery.setting_days);
    const bool storms = boat.gear_loss && can_be_above_zero(boat.gear_loss->storm_odds_per_season);
    ready.loses_gear = ready.pots && boat.gear_loss && (storms || can_be_above_zero(boat.gear_loss->season_fraction));
    ready.pots_dwindle = ready.loses_gear && boat.gear_loss->replace == ReplaceWhen::next_season;
    for (const std::string& name : fishery.species) {
        const auto place = std::ranges::find(all.plan.species, name, &Species<Number>::name);
        ready.species.push_back(static_cast<std::size_t>(place - all.plan.species.begin()));
    }
    lay_out_dates(ready, fishery, boat, all.years);
    look_at_base(ready, all, b, f);
}

/// Only the last pot fishery of a year takes gear-in days; the others are lifted when the next begins.
void mark_gear_in(PreparedPlan& all, PreparedBoat& boat) {
    for (std::size_t y = 0; y < all.years.size(); ++y) {
        PreparedFishery* last = nullptr;
        for (PreparedFishery& fishery : boat.fishery) {
            fishery.comes_in[y] = false;
            const bool is_worked = fishery.pots && fishery.from[y] <= fishery.to[y];
            if (is_worked && (last == nullptr || fishery.to[y] > last->to[y])) last = &fishery;
        }
        if (all.gear_in && last != nullptr) last->comes_in[y] = true;
    }
}

}  // namespace

void set_stop(PreparedPlan& all, std::size_t year, Date stop) {
    all.years[year].stop = stop;
    for (PreparedBoat& boat : all.boat) {
        for (PreparedFishery& fishery : boat.fishery) fishery.to[year] = std::min(fishery.last[year], stop);
        mark_gear_in(all, boat);
    }
}

void prepare_boats(PreparedPlan& all) {
    for (std::size_t b = 0; b < all.plan.boat.size(); ++b) {
        const Boat<Number>& boat = all.plan.boat[b];
        PreparedBoat& ready = all.boat.emplace_back();
        for (std::size_t f = 0; f < boat.fishery.size(); ++f) prepare_fishery(all, b, f);
        mark_gear_in(all, ready);
        for (const Breakdown<Number>& kind : boat.breakdown) {
            const std::vector<Spread> sizes = spreads_of_sizes(kind);
            const bool wears = kind.wear_reference_hours && (kind.wear_shape.is_guess || kind.wear_shape.typical != 1.0);
            ready.breakdowns.push_back({sizes[0], sizes[1], wears});
        }
        ready.owners = boat.skipper == Skipper::owner;
        ready.gaps = !ready.owners && can_be_above_zero(boat.skipper_gap_odds_per_year);
        ready.gap_weeks = spreads_of_sizes(boat).at(0);
        ready.takes_owner = can_be_above_zero(boat.owner_days_per_month);
        const auto breaks_her = [&](const Supposed& event) { return event.what == Event::breakdown && event.boat == b; };
        ready.takes_owner_after = can_be_above_zero(boat.owner_days_per_breakdown) && (!boat.breakdown.empty() || std::ranges::any_of(all.supposed, breaks_her));
        ready.hands_miss = std::ranges::any_of(boat.crew, [](const Crew<Number>& hand) { return can_be_above_zero(hand.no_show_fraction); });
        if (boat.gear_loss) {
            ready.storm_loss = spreads_of_sizes(*boat.gear_loss).at(0);
            ready.meets_storms = all.weather_varies && can_be_above_zero(boat.gear_loss->storm_odds_per_season);
        }
        all.storms = all.storms || ready.meets_storms;
        ready.may_be_lost = boat.insurance && can_be_above_zero(boat.insurance->total_loss_odds_per_year);
        if (boat.ground_share.is_guess || boat.ground_share.typical != 1.0) all.shares_ground = all.plan.boat.size() > 1;
    }
    all.owner_taken = std::ranges::any_of(all.boat, [](const PreparedBoat& boat) { return boat.takes_owner || boat.takes_owner_after; });
    for (std::size_t b = 0; b < all.boat.size(); ++b) {
        PreparedBoat& ready = all.boat[b];
        const Boat<Number>& boat = all.plan.boat[b];
        const bool whole_season = boat.fishery.size() == 1 && !boat.fishery[0].from && !boat.fishery[0].to && !boat.fish_from && !all.plan.season.stop_on;
        ready.more_causes = !whole_season || all.gear_in || (ready.owners && (all.owner_laid_up || all.owner_taken)) || ready.gaps || ready.hands_miss
                            || boat.stay_in_below || !all.plan.limit.empty() || !all.plan.shock.empty() || all.turns_back
                            || std::ranges::any_of(all.supposed, [](const Supposed& event) { return event.what != Event::bad_catch; });
    }
}

}  // namespace seasonrisk
