// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/season/going_out.hpp"
#include "seasonrisk/season/workspace.hpp"

/// \file
/// Dates that matter at home, closures that may come, and what is left to do after the season.
namespace seasonrisk {

SEASONRISK_STEP void draw_shocks(Workspace& work, BatchAddress at_batch, const Calendar& calendar) {
    for (std::size_t s = 0; s < work.shock.size(); ++s) {
        const Lanes uniforms = uniforms_at(at_batch.draw, at_batch.key,
                                           in_year(calendar.season_year, Purpose::shock, {0, static_cast<std::uint32_t>(s)}), at_batch.first_history);
        SEASONRISK_EACH_LANE work.shock[s][i] = uniforms[i] < work.plan.shock[s].odds_per_year[i] ? 1.0 : 0.0;
    }
}

/// Whose boats count at home: the owner's, or all when none is his to skipper.
SEASONRISK_STEP bool counts_at_home(const PreparedPlan& ready, const BoatWork& boat) {
    bool some_owned = false;
    for (const PreparedBoat& each : ready.boat) some_owned = some_owned || each.owners;
    return boat.prepared->owners || !some_owned;
}

/// 1 where pots are in the water.
SEASONRISK_STEP Lanes gear_out(const FisheryWork& fishery) {
    Lanes out(0.0);
    if (!fishery.worked_before || !fishery.prepared->pots) return out;
    SEASONRISK_EACH_LANE out[i] = fishery.gear.in_water[i] > 0.0 ? 1.0 : 0.0;
    return out;
}

/// As the day begins: is all the gear ashore?
SEASONRISK_STEP void meet_family_dates(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day) {
    for (std::size_t n = 0; n < work.family.size(); ++n) {
        const FamilyDate& date = ready.plan.family_date[n];
        if (!date.gear_ashore || day.date != years_later(*date.date, calendar.year)) continue;
        work.family[n] = Lanes(1.0);
        for (const BoatWork& boat : work.boat) {
            if (!counts_at_home(ready, boat)) continue;
            for (const FisheryWork& fishery : boat.fishery) {
                const Lanes out = gear_out(fishery);
                SEASONRISK_EACH_LANE work.family[n][i] *= 1.0 - out[i];
            }
        }
    }
}

/// As it ends: did the boats stay in?
SEASONRISK_STEP void meet_at_home(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day) {
    for (std::size_t n = 0; n < work.family.size(); ++n) {
        const FamilyDate& date = ready.plan.family_date[n];
        if (date.gear_ashore || day.date != years_later(*date.date, calendar.year)) continue;
        work.family[n] = Lanes(1.0);
        for (const BoatWork& boat : work.boat) {
            if (!work.told_today || !boat.tried || !counts_at_home(ready, boat)) continue;
            SEASONRISK_EACH_LANE work.family[n][i] *= 1.0 - boat.out[i];
        }
    }
}

/// After the last day of fishing: is there no gear left to bring in, in any history?
SEASONRISK_STEP bool is_all_ashore(const PreparedPlan& ready, Workspace& work) {
    if (!ready.gear_in || work.all_ashore) return true;
    for (const BoatWork& boat : work.boat) {
        for (const FisheryWork& fishery : boat.fishery) {
            if (any_above_zero(fishery.gear.gear_in_days_left)) return false;
        }
    }
    work.all_ashore = true;
    return true;
}

/// After the season there is still work while gear comes in, something is kept, or something is promised.
SEASONRISK_STEP bool goes_on(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day) {
    if (work.store_holds) return true;
    for (const Order<Number>& order : ready.plan.order) {
        if (order.to && day.date <= years_later(*order.to, calendar.year)) return true;
    }
    return !is_all_ashore(ready, work);
}

/// Days on which several boats fished.
SEASONRISK_STEP void count_both(Workspace& work, const Day& day) {
    if (work.boat.size() < 2 || !day.in_season) return;
    Lanes out(0.0);
    for (const BoatWork& boat : work.boat) add(out, boat.out);
    SEASONRISK_EACH_LANE work.days_both[i] += out[i] >= 2.0 ? 1.0 : 0.0;
}

}  // namespace seasonrisk
