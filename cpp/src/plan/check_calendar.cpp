// SPDX-License-Identifier: MIT
#include <algorithm>

#include "checks.hpp"
#include "dates.hpp"

namespace seasonrisk {
namespace {

using std::chrono::days;
using std::chrono::year_month_day;
constexpr int k_last_year = 2150;

void check_season_dates(const Plan& plan, Notebook& book) {
    const auto& season = plan.season;
    if (!season.start) book.error("season.start", "", "is missing: first day of the season");
    if (!season.end) book.error("season.end", "", "is missing: last day of the season, included");
    if (!season.start || !season.end) return;
    const int year = static_cast<int>(year_month_day{*season.start}.year());
    if (year < 1950 || year > k_last_year) {
        book.error("season.start", date_text(*season.start), "must be in a year from 1950 to 2150");
    } else if (*season.end < *season.start) {
        book.error("season.end", date_text(*season.end), "is before the season's start, " + date_text(*season.start),
                   "a season over New Year ends in the next year");
    } else if (*season.end - *season.start >= days{366}) {
        book.error("season.end", date_text(*season.end),
                   "makes a season of " + std::to_string((*season.end - *season.start).count() + 1)
                       + " days; must be no more than 366");
    }
    if (const int years = plan.business.years;
        years > 1 && years <= 30 && year <= k_last_year && year + years - 1 > k_last_year)
        book.error("business.years", std::to_string(years),
                   "puts the last season in " + std::to_string(year + years - 1) + "; must be no later than 2150");
    if (season.rest_days.size() == 7) book.error("season.rest_days", "", "leaves no day of the week to fish");
}

void check_money_year(const Plan& plan, Notebook& book) {
    const Span season = season_of(plan);
    const Span year = money_year_of(plan);
    const year_month_day first{year.first};
    if (static_cast<unsigned>(first.day()) != 1) {
        book.error("business.books_start", date_text(year.first),
                   "must be the first of a month, for bills fall on the ends of months",
                   did_you_mean(date_text(Date{first.year() / first.month() / 1})));
        return;
    }
    if (year.contains(season)) return;
    const year_month_day start{season.first};
    if (plan.business.books_start)
        book.error("business.books_start", date_text(year.first),
                   "opens a money year that ends on " + date_text(year.last) + "; the season, " + span_text(season)
                       + ", must lie inside it");
    else
        book.error("season.end", date_text(season.last), "must lie inside the money year, " + span_text(year),
                   "give business.books_start, such as " + date_text(Date{start.year() / start.month() / 1}));
}

void check_days_off(const Plan& plan, Notebook& book) {
    std::vector<DayOff> off_days = plan.season.days_off;
    for (std::size_t n = 0; n < off_days.size(); ++n) {
        const std::string path = numbered("season.days_off", n);
        const std::string written = date_text(off_days[n].from) + " to " + date_text(off_days[n].to);
        if (off_days[n].to < off_days[n].from)
            book.error(path, written, "ends before it begins");
        else if (off_days[n].from < *plan.season.start || off_days[n].to > *plan.season.end)
            book.error(path, written, "must lie inside the season, " + span_text(season_of(plan)));
    }
    std::ranges::sort(off_days, {}, &DayOff::from);
    for (std::size_t n = 1; n < off_days.size(); ++n) {
        if (off_days[n].from <= off_days[n - 1].to)
            book.error("season.days_off", "", "counts " + date_text(off_days[n].from) + " twice",
                       "each day off belongs to one entry");
    }
}

/// What is told by month must say something about each month of the season, or be known to be silent.
void check_months(const Plan& plan, Notebook& book) {
    const auto& fractions = plan.weather.unfishable_fraction.by_month;
    const auto is_given = [](const auto& by_month) {
        return std::ranges::any_of(by_month, [](const auto& month) { return month.has_value(); });
    };
    if (!is_given(fractions))
        book.error("weather.unfishable_fraction", "", "must name at least one month",
                   "0.0 for a month means that every day can be fished");
    if (!has_walkable_season(plan)) return;

    std::vector<std::size_t> in_season;  // by date: a season over New Year begins in autumn
    for (Date date = *plan.season.start; date <= *plan.season.end; date += days{1}) {
        const std::size_t month = static_cast<unsigned>(year_month_day{date}.month()) - 1;
        if (std::ranges::find(in_season, month) == in_season.end()) in_season.push_back(month);
    }
    const auto tell_left_out = [&](const std::string& path, const auto& by_month, const std::string& what_happens) {
        std::vector<std::string> left_out;
        for (const std::size_t month : in_season) {
            if (!by_month[month]) left_out.emplace_back(k_month_words[month]);
        }
        if (is_given(by_month) && !left_out.empty())
            book.warning(path, "", "leaves out " + join(left_out, ", ") + "; " + what_happens);
    };
    tell_left_out("weather.unfishable_fraction", fractions, "there the last month before it that has one counts");
    for (std::size_t k = 0; k < plan.species.size(); ++k)
        tell_left_out(numbered("species", k) + ".month_shape", plan.species[k].month_shape.by_month,
                      "there it counts as 1");
    for (std::size_t o = 0; o < plan.outlet.size(); ++o)
        tell_left_out(numbered("outlet", o) + ".month_factor", plan.outlet[o].month_factor.by_month,
                      "there it counts as 1");
    for (std::size_t n = 0; n < plan.holding.size(); ++n)
        tell_left_out(numbered("holding", n) + ".loss_per_night_fraction",
                      plan.holding[n].loss_per_night_fraction.by_month,
                      "there the last month before it that has one counts");
}

void check_fishing_days(const Plan& plan, Notebook& book) {
    if (plan.season.rest_days.size() == 7) return;  // told already
    if (days_to_fish(plan.season, season_of(plan)) == 0)
        book.error("season.days_off", "", "leaves no day to fish", "rest days and days off cover the whole season");
}

}  // namespace

void check_calendar(const Plan& plan, Notebook& book) {
    check_season_dates(plan, book);
    check_months(plan, book);
    if (!has_walkable_season(plan)) return;
    check_money_year(plan, book);
    check_days_off(plan, book);
    check_fishing_days(plan, book);
}

}  // namespace seasonrisk
