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

bool on_weekday(Date date, const std::vector<unsigned>& weekdays) {
    return std::ranges::find(weekdays, weekday{date}.iso_encoding()) != weekdays.end();
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

namespace {

void note_boat_days(std::vector<Day>& days_of_year) {
    for (std::size_t n = 0; n < days_of_year.size(); ++n) {
        const std::size_t first = n < k_days_in_block ? 0 : n - k_days_in_block;
        for (std::size_t other = first; other < days_of_year.size() && other < n + k_days_in_block; ++other) {
            const bool same_group = group_of(days_of_year[other].slot) == group_of(days_of_year[n].slot);
            if (same_group && !days_of_year[other].nobody_goes()) days_of_year[n].boat_days |= 1u << word_of(days_of_year[other].slot);
        }
    }
}

}  // namespace

Calendar make_calendar(const SeasonDates<Number>& season, const std::optional<Date>& books_start, int year) {
    Calendar calendar;
    const Date very_first = books_start.value_or(default_books_start(*season.start));
    const Date first = years_later(very_first, year);
    const year_month_day first_ymd{first};
    const Date after = Date{(first_ymd.year() / first_ymd.month() + months{12}) / first_ymd.day()};
    calendar.year = year;
    calendar.books_start = first;
    calendar.first_today = static_cast<int>((first - very_first).count());
    calendar.season_start = years_later(*season.start, year);
    calendar.season_end = years_later(*season.end, year);
    calendar.stop = season.stop_on ? years_later(*season.stop_on, year) : calendar.season_end;
    calendar.season_year = static_cast<int>(year_month_day{calendar.season_start}.year());
    for (Date date = first; date < after; date += days{1}) {
        Day day = day_before_season(date);
        const year_month_day ymd{date};
        const auto since = (ymd.year() / ymd.month()) - (first_ymd.year() / first_ymd.month());
        const int month_of_year = std::min(static_cast<int>(since.count()), 11);
        day.money_month = calendar.first_money_month() + month_of_year;
        day.rest_day = on_weekday(date, season.rest_days);
        day.day_off = std::ranges::any_of(season.days_off, [&](const DayOff& off) {
            return years_later(off.from, year) <= date && date <= years_later(off.to, year);
        });
        day.in_season = calendar.season_start <= date && date <= calendar.season_end;
        if (day.in_season) {
            day.first_of_month = day.first_of_month || date == calendar.season_start;
            ++calendar.season_days;
            ++calendar.season_days_in_month[static_cast<std::size_t>(day.month)];
            if (day.rest_day) ++calendar.rest_days;
            else if (day.day_off) ++calendar.days_off;
        }
        if (std::string& name = calendar.money_months[static_cast<std::size_t>(month_of_year)]; name.empty()) {
            const auto number = static_cast<unsigned>(ymd.month());
            name = std::to_string(static_cast<int>(ymd.year())) + (number < 10 ? "-0" : "-") + std::to_string(number);
        }
        calendar.days.push_back(day);
    }
    note_boat_days(calendar.days);
    return calendar;
}

}  // namespace seasonrisk
