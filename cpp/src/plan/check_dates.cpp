// SPDX-License-Identifier: MIT
#include <algorithm>

#include "checks.hpp"
#include "dates.hpp"

namespace seasonrisk {
namespace {

using std::chrono::days;
using std::chrono::year_month_day;

bool is_in_any_calendar(Date date) {
    const int year = static_cast<int>(year_month_day{date}.year());
    return year >= 1950 && year <= 2150;
}

constexpr const char* k_no_such_year = "must be in a year from 1950 to 2150";

/// The first season year in which two fisheries of a boat are both at sea; -1 when there is none. They can be apart
/// in a leap year alone, for 29 February becomes the 28th.
int year_both_fish(const Span& one, const Span& other, int years) {
    for (int y = 0; y < years; ++y) {
        if (years_later(one, y).meets(years_later(other, y))) return y;
    }
    return -1;
}

void check_fishery_dates(const std::string& path, const Boat<Number>& boat, const Plan& plan, Notebook& book) {
    const Span season = season_of(plan);
    std::vector<std::size_t> sound;
    for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
        const std::string at = numbered(path + ".fishery", f);
        const Span span = days_of(boat.fishery[f], plan);
        const std::size_t before = book.findings.size();
        if (!season.contains(span.first))
            book.error(at + ".from", date_text(span.first), "must lie inside the season, " + span_text(season));
        if (!season.contains(span.last))
            book.error(at + ".to", date_text(span.last), "must lie inside the season, " + span_text(season));
        if (book.findings.size() > before) continue;
        if (span.last < span.first) {
            book.error(at + (boat.fishery[f].to ? ".to" : ".from"),
                       date_text(boat.fishery[f].to ? span.last : span.first),
                       "makes a fishery that ends before it begins: " + span_text(span));
            continue;
        }
        for (const std::size_t other : sound) {
            const Span fished = days_of(boat.fishery[other], plan);
            const int year = year_both_fish(fished, span, std::clamp(plan.business.years, 1, 30));
            if (year < 0) continue;
            book.error(path + ".fishery", "",
                       "has numbers " + std::to_string(other) + " and " + std::to_string(f) + " at sea together, "
                           + span_text(years_later(fished, year)) + " and " + span_text(years_later(span, year))
                           + "; a boat fishes one at a time",
                       "give each its from and to; the numbers count from 0");
            break;
        }
        sound.push_back(f);
    }
}

void check_setting_days(const std::string& path, const Fishery<Number>& fishery, const Plan& plan, Notebook& book) {
    const Span season = season_of(plan);
    const Span span = days_of(fishery, plan);
    if (!season.contains(span) || span.last < span.first || plan.season.rest_days.size() == 7) return;  // told already
    const double most = highest_of(fishery.setting_days);
    if (!(most >= 0.0 && most <= 366.0)) return;  // told by its range
    const Date stop = last_fishing_day(plan);
    if (span.first > stop) {
        book.warning(path + ".from", date_text(span.first),
                     "is after season.stop_on, " + date_text(stop) + ": nothing is fished");
        return;
    }
    const int to_fish = days_to_fish(plan.season, {span.first, std::min(span.last, stop)});
    const bool whole_season = span.first == season.first && span.last == season.last;
    if (most > span.days())
        book.error(path + ".setting_days", number_text(most),
                   std::string("must be no more than the ") + (whole_season ? "season's " : "fishery's ")
                       + std::to_string(span.days()) + " days");
    else if (most > 0.0 && most >= to_fish && days_to_fish(plan.season, season) > 0)
        book.warning(path + ".setting_days", number_text(most),
                     "takes all of the " + std::to_string(to_fish) + " days there are to fish: nothing is hauled");
    else if (to_fish == 0 && days_to_fish(plan.season, season) > 0)
        book.warning(path, "", "has no day to fish: rest days and days off cover it, " + span_text(span));
}

/// Each year the season comes again; this boat may still not be there.
void check_arrival(const std::string& path, const Boat<Number>& boat, const Plan& plan, Notebook& book) {
    if (!boat.fish_from) return;
    const Date last = years_later(*plan.season.end, std::clamp(plan.business.years, 1, 30) - 1);
    if (!is_in_any_calendar(*boat.fish_from))
        book.error(path + ".fish_from", date_text(*boat.fish_from), k_no_such_year);
    else if (*boat.fish_from > last)
        book.warning(path + ".fish_from", date_text(*boat.fish_from),
                     "is after the last season's end, " + date_text(last) + ": this boat never fishes");
}

void check_end(const Plan& plan, Notebook& book) {
    const Span season = season_of(plan);
    if (plan.season.stop_on && !season.contains(*plan.season.stop_on)) {
        book.error("season.stop_on", date_text(*plan.season.stop_on),
                   "must lie inside the season, " + span_text(season));
        return;
    }
    const Span fished{season.first, last_fishing_day(plan)};
    const double gear_in = highest_of(plan.ending.gear_in_days);
    if (!(gear_in >= 0.0 && gear_in <= 366.0)) return;  // told by its range
    if (gear_in > fished.days()) {
        book.error("ending.gear_in_days", number_text(gear_in),
                   "must be no more than the " + std::to_string(fished.days()) + " days from the season's start to "
                       + date_text(fished.last));
        return;
    }
    for (std::size_t b = 0; b < plan.boat.size() && gear_in > 0.0; ++b) {
        for (std::size_t f = 0; f < plan.boat[b].fishery.size(); ++f) {
            const auto& fishery = plan.boat[b].fishery[f];
            const Span span = days_of(fishery, plan);
            if (fishery.gear == Gear::trotline || !season.contains(span) || span.last < season.last) continue;
            const int to_fish = days_to_fish(plan.season, {span.first, fished.last});
            const double setting = highest_of(fishery.setting_days);
            if (to_fish > setting && setting + gear_in >= to_fish)
                book.warning("ending.gear_in_days", number_text(gear_in),
                             "and " + number_text(setting) + " setting days take all of the " + std::to_string(to_fish)
                                 + " days that " + plan.boat[b].name + " has to fish: nothing is hauled between");
        }
    }
}

void check_order_dates(const std::string& path, const Order<Number>& order, const Plan& plan, Notebook& book) {
    const Span season = season_of(plan);
    const Span money_year = money_year_of(plan);
    const Span due{order.from.value_or(season.first), order.to.value_or(season.last)};
    const std::size_t before = book.findings.size();
    if (due.first < season.first || due.first > money_year.last)
        book.error(path + ".from", date_text(due.first),
                   "must be from the season's first day, " + date_text(season.first)
                       + ", to the end of the money year, " + date_text(money_year.last));
    if (due.last < season.first || due.last > money_year.last)
        book.error(path + ".to", date_text(due.last),
                   "must be from the season's first day, " + date_text(season.first)
                       + ", to the end of the money year, " + date_text(money_year.last));
    if (book.findings.size() > before) return;
    if (due.last < due.first) {
        book.error(path + (order.to ? ".to" : ".from"), date_text(order.to ? due.last : due.first),
                   "makes an order that ends before it begins: " + span_text(due));
        return;
    }
    bool is_due = order.days.empty();  // told by the chapter on selling
    for (Date date = due.first; date <= due.last && !is_due; date += days{1}) is_due = is_weekday(date, order.days);
    if (!is_due)
        book.warning(path + ".days", "", "has no such weekday from " + span_text(due) + ": the order is never due");
}

void check_limit_dates(const std::string& path, const Limit<Number>& limit, const Plan& plan, Notebook& book) {
    const Span season = season_of(plan);
    const Span held{limit.from.value_or(season.first), limit.to.value_or(season.last)};
    if (limit.from && limit.to && held.last < held.first)
        book.error(path + ".to", date_text(held.last), "is before the limit's first day, " + date_text(held.first));
    else if (held.last < season.first)
        book.warning(path + ".to", date_text(held.last),
                     "is before the season, " + span_text(season) + ": the limit never holds");
    else if (held.first > season.last)
        book.warning(path + ".from", date_text(held.first),
                     "is after the season, " + span_text(season) + ": the limit never holds");
}

void check_shock_dates(const std::string& path, const Shock<Number>& shock, const Plan& plan, Notebook& book) {
    if (!shock.from) return;
    const Span season = season_of(plan);
    const double most = highest_of(shock.days);
    if (!(most >= 0.0 && most <= 366.0)) return;  // told by its range
    if (most == 0.0)
        book.warning(path + ".days", "0", "is no day at all: nothing is stopped");
    else if (*shock.from > season.last)
        book.warning(path + ".from", date_text(*shock.from),
                     "is after the season, " + span_text(season) + ": nothing is stopped");
    else if (*shock.from + days{static_cast<int>(most) - 1} < season.first)
        book.warning(path + ".from", date_text(*shock.from),
                     "and " + number_text(most) + " days from it are before the season, " + span_text(season)
                         + ": nothing is stopped");
}

void check_money_dates(const Plan& plan, Notebook& book) {
    for (std::size_t n = 0; n < plan.asset.size(); ++n) {
        const auto& asset = plan.asset[n];
        if (!asset.bought) continue;
        if (!is_in_any_calendar(*asset.bought)) {
            book.error(numbered("asset", n) + ".bought", date_text(*asset.bought), k_no_such_year);
            continue;
        }
        if (!has_walkable_season(plan)) continue;
        const Date end = years_later(money_year_of(plan).last, std::clamp(plan.business.years, 1, 30) - 1);
        if (*asset.bought > end)
            book.warning(numbered("asset", n) + ".bought", date_text(*asset.bought),
                         "is after the last day of the books, " + date_text(end) + ": it is neither paid nor counted");
    }
    if (!has_walkable_season(plan)) return;
    const Span money_year = money_year_of(plan);
    for (std::size_t n = 0; n < plan.family_date.size(); ++n) {
        const auto& date = plan.family_date[n].date;
        if (date && !money_year.contains(*date))
            book.warning(
                numbered("family_date", n) + ".date", date_text(*date),
                "lies outside the first money year, " + span_text(money_year) + ", so nothing can be told about it",
                "it comes again on the same date in every later year");
    }
}

}  // namespace

void check_dates(const Plan& plan, Notebook& book) {
    check_money_dates(plan, book);
    if (!has_walkable_season(plan)) return;
    check_end(plan, book);
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        const std::string path = numbered("boat", b);
        check_arrival(path, plan.boat[b], plan, book);
        check_fishery_dates(path, plan.boat[b], plan, book);
        for (std::size_t f = 0; f < plan.boat[b].fishery.size(); ++f)
            check_setting_days(numbered(path + ".fishery", f), plan.boat[b].fishery[f], plan, book);
    }
    for (std::size_t n = 0; n < plan.order.size(); ++n)
        check_order_dates(numbered("order", n), plan.order[n], plan, book);
    for (std::size_t n = 0; n < plan.limit.size(); ++n)
        check_limit_dates(numbered("limit", n), plan.limit[n], plan, book);
    for (std::size_t n = 0; n < plan.shock.size(); ++n)
        check_shock_dates(numbered("shock", n), plan.shock[n], plan, book);
}

}  // namespace seasonrisk
