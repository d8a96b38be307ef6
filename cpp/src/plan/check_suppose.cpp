// SPDX-License-Identifier: MIT
#include <algorithm>

#include "checks.hpp"
#include "dates.hpp"

namespace seasonrisk {
namespace {

/// Which keys an event is told by; what does not belong to it would be passed over in silence.
void check_keys(const std::string& path, const Suppose<Number>& event, Notebook& book) {
    const std::string what = k_event_words[static_cast<std::size_t>(event.what)];
    const bool of_boat = event.what == Event::breakdown || event.what == Event::no_skipper;
    const bool of_days = event.what != Event::bad_catch;
    if (!of_boat && !event.boat.empty())
        book.error(path + ".boat", quoted(event.boat), "does not go with \"" + what + "\", which all boats meet");
    if (!of_days && event.from)
        book.error(path + ".from", date_text(*event.from), "does not go with \"" + what + "\", which is the whole year's");
    if (!of_days && event.days)
        book.error(path + ".days", std::to_string(*event.days), "does not go with \"" + what + "\", which is the whole year's");
    if (event.what != Event::breakdown && is_used(event.cost))
        book.error(path + ".cost", value_text(event.cost), "does not go with \"" + what + "\": it is the bill of a breakdown");
    if (!event.from && (event.what == Event::closure || event.what == Event::breakdown))
        book.error(path + ".from", "", "is missing: the first day of the " + what);
    if (!event.days && event.what == Event::closure) book.error(path + ".days", "", "is missing: how many days it lasts");
    if (event.what == Event::closure && event.days == 0)
        book.warning(path + ".days", "0", "is no day at all: nothing is stopped");
    if (event.what == Event::breakdown && event.days.value_or(0) == 0 && !is_used(event.cost))
        book.warning(path, "", "takes no days and costs nothing", "give days, cost, or both");
}

void check_boat(const std::string& path, const Suppose<Number>& event, const Plan& plan, Notebook& book) {
    if (event.what != Event::breakdown && event.what != Event::no_skipper) return;
    std::vector<std::string> names;
    for (const auto& boat : plan.boat) names.push_back(boat.name);
    if (event.boat.empty() && plan.boat.size() > 1)
        book.error(path + ".boat", "", "is missing: which of the boats?");
    else if (!event.boat.empty() && !names.empty() && std::ranges::find(names, event.boat) == names.end())
        book.error(path + ".boat", quoted(event.boat), "is no boat of this plan", did_you_mean(nearest_word(event.boat, names)));
}

}  // namespace

void check_suppose(const Plan& plan, Notebook& book) {
    for (std::size_t n = 0; n < plan.suppose.size(); ++n) {
        const auto& event = plan.suppose[n];
        const std::string path = numbered("suppose", n);
        check_keys(path, event, book);
        check_boat(path, event, plan, book);
        const int years = plan.business.years;
        if (event.year > years && event.year <= 30 && years >= 1)
            book.error(path + ".year", std::to_string(event.year),
                       "must be no more than the " + std::to_string(years) + (years == 1 ? " year" : " years") + " of a history");
        if (!event.from || !has_walkable_season(plan)) continue;
        const Span season = season_of(plan);
        if (event.what != Event::bad_catch && !season.contains(*event.from))
            book.error(path + ".from", date_text(*event.from), "must lie inside the first season, " + span_text(season),
                       "in later years it comes on the same date of theirs");
    }
}

}  // namespace seasonrisk
