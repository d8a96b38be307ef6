// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "seasonrisk/plan/plan.hpp"

/// \file
/// Days of the calendar as the rule book counts them.
namespace seasonrisk {

/// A run of days, both ends included.
struct Span {
    Date first{};
    Date last{};
    bool contains(Date date) const { return first <= date && date <= last; }
    bool contains(const Span& inner) const { return contains(inner.first) && contains(inner.last); }
    bool meets(const Span& other) const { return first <= other.last && other.first <= last; }
    int days() const { return static_cast<int>((last - first).count()) + 1; }
};

/// "2027-06-01 to 2027-11-30"
std::string span_text(const Span& span);

Span years_later(const Span& span, int years);

/// A season whose days can be walked: it has both ends, in order, in years the calendar knows.
bool has_walkable_season(const Plan& plan);
/// \pre `has_walkable_season(plan)`
Span season_of(const Plan& plan);
/// The last day the boats mean to fish: `stop_on`, or the season's end.
Date last_fishing_day(const Plan& plan);
/// Twelve months from `books_start`, or from the first of the month three months before the season.
Span money_year_of(const Plan& plan);
/// From its `from` to its `to`, or the season's ends.
Span days_of(const Fishery<Number>& fishery, const Plan& plan);

/// Days of the span that are neither rest days nor days off.
int days_to_fish(const SeasonDates<Number>& season, const Span& span);

bool is_weekday(Date date, const std::vector<unsigned>& iso_weekdays);

}  // namespace seasonrisk
