// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/season/workspace.hpp"

/// \file
/// What the plan supposes to happen for certain. The same in every history, so each question is asked once for all
/// lanes; no draw is looked at, and all luck stays where it is.
namespace seasonrisk {

/// 1-in-10 low of a standard normal: the catch of a bad year.
inline constexpr double k_bad_catch_z = -1.281551565545;

/// Does this hold today? A breakdown holds by `down_until` instead.
SEASONRISK_STEP bool is_supposed(const PreparedPlan& ready, Event what, const Calendar& calendar, const Day& day, std::size_t b) {
    for (const Supposed& event : ready.supposed) {
        const bool hers = what == Event::closure || event.boat == b;
        if (event.what == what && hers && event.year == calendar.year && event.first <= day.date && day.date <= event.last) return true;
    }
    return false;
}

SEASONRISK_STEP bool is_bad_catch_supposed(const PreparedPlan& ready, const Calendar& calendar) {
    for (const Supposed& event : ready.supposed) {
        if (event.what == Event::bad_catch && event.year == calendar.year) return true;
    }
    return false;
}

/// On the morning of its first day a supposed breakdown takes the boat, the money for its repair and the owner's time,
/// as if she had come home with it the evening before. No insurer pays any of it.
SEASONRISK_STEP void break_down_as_supposed(const PreparedPlan& ready, Workspace& work, const Calendar& calendar, const Day& day, int today) {
    for (const Supposed& event : ready.supposed) {
        if (event.what != Event::breakdown || event.year != calendar.year || event.first != day.date) continue;
        BoatWork& boat = work.boat[event.boat];
        const Lanes& repair = work.plan.suppose[event.place].cost;
        add(work.earned.repairs, repair);
        add(boat.year.repairs, repair);
        pay(work.cash, repair);
        const double last_day_lost = today + static_cast<double>((event.last - event.first).count());
        SEASONRISK_EACH_LANE boat.down_until[i] = last_day_lost > boat.down_until[i] ? last_day_lost : boat.down_until[i];
        if (!ready.boat[event.boat].takes_owner_after) continue;
        const Lanes& owner_days = work.plan.boat[event.boat].owner_days_per_breakdown;
        SEASONRISK_EACH_LANE {
            const double owner_back = today - 1 + owner_days[i];
            work.owner.busy_until[i] = owner_back > work.owner.busy_until[i] ? owner_back : work.owner.busy_until[i];
        }
    }
}

}  // namespace seasonrisk
