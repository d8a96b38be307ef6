// SPDX-License-Identifier: MIT
#include "seasonrisk/season/endings.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "prepare_parts.hpp"

namespace seasonrisk {

EndingsBeside::EndingsBeside(PreparedPlan& ready, std::vector<Date> stops) : beside(ready), ready_(ready), stops_(std::move(stops)) {
    if (ready.years.size() != 1) throw std::invalid_argument("years: endings are told beside a single season");
}

void EndingsBeside::turn_to(Date stop) {
    set_stop(ready_, 0, stop);
}

/// Morning of the day on which the first of the gear begins to come in, or of the last day of fishing.
std::size_t EndingsBeside::first_day_of(Date stop, const Workspace& work) {
    double gear_in_days = 0.0;
    SEASONRISK_EACH_LANE gear_in_days = std::max(gear_in_days, std::ceil(work.plan.ending.gear_in_days[i]));
    turn_to(stop);
    const Date first_of_year = ready_.years.front().days.front().date;
    long first = (stop - first_of_year).count();
    for (const PreparedBoat& boat : ready_.boat) {
        for (const PreparedFishery& fishery : boat.fishery) {
            if (!fishery.comes_in.front() || gear_in_days < 1.0) continue;
            const auto to = (fishery.to.front() - first_of_year).count();
            first = gear_in_days > static_cast<double>(to) ? 0 : std::min(first, to - static_cast<long>(gear_in_days) + 1);
        }
    }
    return static_cast<std::size_t>(first);
}

std::span<const Leg> EndingsBeside::legs_of(Workspace& work) {
    const std::size_t days = ready_.years.front().days.size();
    std::vector<Leg> endings;
    for (std::size_t n = 0; n < stops_.size(); ++n) endings.push_back({&beside, first_day_of(stops_[n], work), days, static_cast<int>(n)});
    turn_to(ready_.years.front().season_end);
    std::ranges::stable_sort(endings, {}, &Leg::first);
    legs_.clear();
    std::size_t lived = 0;
    for (const Leg& ending : endings) {
        if (ending.first > lived) legs_.push_back({&work, lived, ending.first});
        lived = ending.first;
        legs_.push_back(ending);
    }
    legs_.push_back({&work, lived, days});
    beside.take_guesses(work);
    return legs_;
}

void EndingsBeside::begin(const Leg& leg, const Workspace& season) {
    beside.take_state(season, leg.first + static_cast<std::size_t>(ready_.years.front().first_today));
    turn_to(stops_[static_cast<std::size_t>(leg.ending)]);
    for (BoatWork& boat : beside.boat) {
        for (FisheryWork& fishery : boat.fishery) {
            // What is the last gear of the year can be another fishery's when the season stops before the next begins.
            if (fishery.prepared->comes_in.front() && !fishery.comes_in) fishery.gear.gear_in_days_left = beside.plan.ending.gear_in_days;
            fishery.take_dates(0);
        }
    }
}

void EndingsBeside::end(const Leg& leg) {
    turn_to(ready_.years.front().season_end);
    told(static_cast<std::size_t>(leg.ending));
}

}  // namespace seasonrisk
