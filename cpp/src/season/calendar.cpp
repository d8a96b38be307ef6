// SPDX-License-Identifier: MIT
#include "seasonrisk/season/calendar.hpp"

#include <algorithm>
#include <string>

namespace seasonrisk {

using std::chrono::days;
using std::chrono::months;
using std::chrono::weekday;
using std::chrono::year_month_day;

Date default_books_start(Date season_start) {
    const year_month_day start{season_start};
    return Date{(start.year() / start.month() - months{3}) / 1};
}

Date monday_of(Date date) {
    return date - days{static_cast<int>(weekday{date}.iso_encoding()) - 1};
}

Day day_before_season(Date date) {
    const year_month_day ymd{date};
    Day day;
    day.date = date;
    day.slot = day_slot(date);
    day.month = static_cast<int>(static_cast<unsigned>(ymd.month())) - 1;
    day.monday = weekday{date} == std::chrono::Monday;
    day.sunday = weekday{date} == std::chrono::Sunday;
    day.first_of_month = static_cast<unsigned>(ymd.day()) == 1;
    day.last_of_month = ymd == year_month_day{ymd.year() / ymd.month() / std::chrono::last};
    return day;
}

Calendar make_calendar(const SeasonDates<Number>& season, const std::optional<Date>& books_start) {
    Calendar calendar;
    const Date first = books_start.value_or(default_books_start(*season.start));
    const year_month_day first_ymd{first};
    const Date after = Date{(first_ymd.year() / first_ymd.month() + months{12}) / first_ymd.day()};
    calendar.books_start = first;
    calendar.season_year = static_cast<int>(year_month_day{*season.start}.year());
    for (Date date = first; date < after; date += days{1}) {
        Day day = day_before_season(date);
        const year_month_day ymd{date};
        const auto since = (ymd.year() / ymd.month()) - (first_ymd.year() / first_ymd.month());
        day.money_month = std::min(static_cast<int>(since.count()), 11);
        day.in_season = *season.start <= date && date <= *season.end;
        if (day.in_season) {
            const unsigned iso = weekday{date}.iso_encoding();
            day.rest_day = std::ranges::find(season.rest_days, iso) != season.rest_days.end();
            day.day_off = std::ranges::any_of(season.days_off, [&](const DayOff& off) { return off.from <= date && date <= off.to; });
            day.first_of_month = day.first_of_month || date == *season.start;
            ++calendar.season_days;
            ++calendar.season_days_in_month[static_cast<std::size_t>(day.month)];
            if (day.rest_day) ++calendar.rest_days;
            else if (day.day_off) ++calendar.days_off;
        }
        if (calendar.money_months[static_cast<std::size_t>(day.money_month)].empty()) {
            const auto number = static_cast<unsigned>(ymd.month());
            calendar.money_months[static_cast<std::size_t>(day.money_month)] =
                std::to_string(static_cast<int>(ymd.year())) + (number < 10 ? "-0" : "-") + std::to_string(number);
        }
        calendar.days.push_back(day);
    }
    return calendar;
}

}  // namespace seasonrisk
