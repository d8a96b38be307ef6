// SPDX-License-Identifier: MIT
#include <algorithm>

#include "prepare_parts.hpp"

namespace seasonrisk {

void prepare_suppose(PreparedPlan& all) {
    using std::chrono::days;
    for (std::size_t n = 0; n < all.plan.suppose.size(); ++n) {
        const Suppose<Number>& event = all.plan.suppose[n];
        const Calendar& calendar = all.years[static_cast<std::size_t>(event.year - 1)];
        Supposed& ready = all.supposed.emplace_back();
        ready.what = event.what;
        ready.place = n;
        ready.year = calendar.year;
        const auto boat = std::ranges::find(all.plan.boat, event.boat, &Boat<Number>::name);
        if (boat != all.plan.boat.end()) ready.boat = static_cast<std::size_t>(boat - all.plan.boat.begin());
        ready.first = event.from ? years_later(*event.from, calendar.year) : calendar.season_start;
        const bool to_the_end = event.what == Event::no_skipper && !event.days;
        ready.last = to_the_end ? calendar.season_end : ready.first + days{event.days.value_or(0) - 1};
    }
}

}  // namespace seasonrisk
