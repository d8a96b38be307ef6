// SPDX-License-Identifier: MIT
#include "seasonrisk/season/calendar.hpp"

#include "catch.hpp"

using namespace seasonrisk;
using namespace std::chrono;

namespace {

SeasonDates<Number> season_of(sys_days start, sys_days end) {
    SeasonDates<Number> season;
    season.start = start;
    season.end = end;
    return season;
}

}  // namespace

TEST_CASE("the money year begins on the first of the month three months before the season", "[season]") {
    CHECK(default_books_start(sys_days{2027y / June / 15}) == sys_days{2027y / March / 1});
    CHECK(default_books_start(sys_days{2027y / February / 1}) == sys_days{2026y / November / 1});
}

TEST_CASE("a money year has every day of its twelve months, the leap day too", "[season]") {
    const Calendar leap = make_calendar(season_of(sys_days{2027y / December / 1}, sys_days{2028y / February / 12}), sys_days{2027y / September / 1});

    CHECK(leap.days.size() == 366);
    CHECK(leap.money_months.front() == "2027-09");
    CHECK(leap.money_months.back() == "2028-08");
    CHECK(leap.season_year == 2027);
    CHECK(leap.season_days == 74);
    CHECK(std::ranges::count_if(leap.days, &Day::last_of_month) == 12);
}

TEST_CASE("a day that is both a rest day and a day off is a rest day", "[season]") {
    SeasonDates<Number> season = season_of(sys_days{2027y / June / 1}, sys_days{2027y / November / 30});
    season.rest_days = {7};
    season.days_off = {{sys_days{2027y / August / 9}, sys_days{2027y / August / 15}, "week with the children"}};
    const Calendar calendar = make_calendar(season, {});

    // From checks of the model (months-and-rest-days): 26 Sundays, 6 other days off, 183 days.
    CHECK(calendar.season_days == 183);
    CHECK(calendar.rest_days == 26);
    CHECK(calendar.days_off == 6);
    CHECK(calendar.season_days_in_month[7] == 31);
}

TEST_CASE("the week of a date begins on its Monday", "[season]") {
    CHECK(monday_of(sys_days{2027y / June / 1}) == sys_days{2027y / May / 31});
    CHECK(monday_of(sys_days{2027y / May / 31}) == sys_days{2027y / May / 31});
    CHECK(monday_of(sys_days{2027y / June / 6}) == sys_days{2027y / May / 31});
}
