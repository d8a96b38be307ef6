// SPDX-License-Identifier: MIT
#include "dates.hpp"

#include <algorithm>

#include "words.hpp"

namespace seasonrisk {

using std::chrono::days;
using std::chrono::months;
using std::chrono::year_month_day;

std::string span_text(const Span& span) { return date_text(span.first) + " to " + date_text(span.last); }

Date years_later(Date date, int years) {
    const year_month_day moved = year_month_day{date} + std::chrono::years{years};
    return moved.ok() ? Date{moved} : Date{moved.year() / moved.month() / std::chrono::last};
}

Span years_later(const Span& span, int years) {
    return {years_later(span.first, years), years_later(span.last, years)};
}

bool has_walkable_season(const Plan& plan) {
    const auto& season = plan.season;
    if (!season.start || !season.end || *season.end < *season.start) return false;
    const int year = static_cast<int>(year_month_day{*season.start}.year());
    return year >= 1950 && year <= 2150 && *season.end - *season.start < days{366};
}

Span season_of(const Plan& plan) { return {*plan.season.start, *plan.season.end}; }

Date last_fishing_day(const Plan& plan) {
    const Span season = season_of(plan);
    const Date stop = plan.season.stop_on.value_or(season.last);
    return season.contains(stop) ? stop : season.last;
}

Span money_year_of(const Plan& plan) {
    const year_month_day start{*plan.season.start};
    const Date first = plan.business.books_start.value_or(Date{(start.year() / start.month() - months{3}) / 1});
    const year_month_day opened{first};
    return {first, Date{(opened.year() / opened.month() + months{12}) / 1} - days{1}};
}

Span days_of(const Fishery<Number>& fishery, const Plan& plan) {
    const Span season = season_of(plan);
    return {fishery.from.value_or(season.first), fishery.to.value_or(season.last)};
}

int days_to_fish(const SeasonDates<Number>& season, const Span& span) {
    int count = 0;
    for (Date date = span.first; date <= span.last; date += days{1}) {
        const bool off =
            std::ranges::any_of(season.days_off, [&](const DayOff& run) { return run.from <= date && date <= run.to; });
        if (!off && !is_weekday(date, season.rest_days)) ++count;
    }
    return count;
}

bool is_weekday(Date date, const std::vector<unsigned>& iso_weekdays) {
    return std::ranges::find(iso_weekdays, std::chrono::weekday{date}.iso_encoding()) != iso_weekdays.end();
}

}  // namespace seasonrisk
