// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/plan.hpp"
#include "seasonrisk/random/address.hpp"

namespace seasonrisk {

/// One calendar day, with everything about it that is the same in every history.
struct Day {
    Date date{};
    DaySlot slot{};
    int month = 0;            ///< 0 = January
    int money_month = 0;      ///< 0 = first month of the first money year
    bool in_season = false;
    bool rest_day = false;    ///< by its weekday, in season or not
    bool day_off = false;
    bool monday = false;
    bool sunday = false;
    bool first_of_month = false;   ///< of the season's part of the month, or of the month itself
    bool last_of_month = false;
    unsigned boat_days = 0;   ///< days of its group of four on which a boat may go out, one bit each

    bool nobody_goes() const { return rest_day || day_off; }
};

/// One money year day by day.
struct Calendar {
    int year = 0;                          ///< 0 = the first money year of a history
    int season_year = 0;                   ///< calendar year in which the season starts
    Date books_start{};
    Date season_start{};
    Date season_end{};
    Date stop{};                           ///< last day of fishing: stop_on, or the season's end
    int first_today = 0;                   ///< days of the history before this year
    std::vector<Day> lead_days{};          ///< days before the season that chains need, the oldest first
    std::vector<Day> days{};               ///< the twelve months of the money year
    int season_days = 0;
    int rest_days = 0;                     ///< season days lost to rest days
    int days_off = 0;                      ///< season days off that are not rest days
    std::array<int, 12> season_days_in_month{};  ///< by calendar month, 0 = January
    std::array<std::string, 12> money_months{};  ///< "2027-03", first to last

    int first_money_month() const { return 12 * year; }
};

/// The money year `year` years after the first. \pre `season` has start and end, and the season lies inside the
/// money year (see `check_plan`)
Calendar make_calendar(const SeasonDates<Number>& season, const std::optional<Date>& books_start, int year = 0);

/// First of the month three months before the season: the money year's start when none is given.
Date default_books_start(Date season_start);

/// A plain day before the season, for chains that must have forgotten their start.
Day day_before_season(Date date);

/// Monday of the week that holds `date`.
Date monday_of(Date date);

/// Is the weekday (ISO: 1 = Monday) of this date in the list?
bool on_weekday(Date date, const std::vector<unsigned>& weekdays);

}  // namespace seasonrisk
