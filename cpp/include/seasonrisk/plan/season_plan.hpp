// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/kinds.hpp"

/// \file
/// Days: the season, its end, the weather, what may stop it.
namespace seasonrisk {

template <class N>
struct SeasonDates {
    std::optional<Date> start{};
    std::optional<Date> end{};
    std::vector<unsigned> rest_days{};  ///< ISO: 1 = Monday ... 7 = Sunday
    std::vector<DayOff> days_off{};
    std::optional<Date> stop_on{};
    bool operator==(const SeasonDates&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.date("start", s.start, Need::required, "first day of the season");
        visit.date("end", s.end, Need::required, "last day of the season, included");
        visit.weekdays("rest_days", s.rest_days, "days of the week on which the boat never goes");
        visit.days_off("days_off", s.days_off);
        visit.date("stop_on", s.stop_on, Need::optional, "last day of fishing, when that is before the season's end; the gear comes in by then if weather allows");
    }
};

/// The end of a season: the gear comes in, and what stopping early costs and saves.
template <class N>
struct Ending {
    N gear_in_days{};
    N crew_notice_days{};
    N crew_leaves_odds{};
    N rehire_cost{};
    N yard_change_fee{};
    N lay_up_refund_per_day{};
    N shore_job_per_week{};
    bool operator==(const Ending&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("gear_in_days", s.gear_in_days, rules::days("days", "fishable days it takes to bring all the gear ashore"), Need::optional);
        visit.number("crew_notice_days", s.crew_notice_days, rules::days("days", "days of pay owed to hands on a day wage when the season is stopped early"), Need::optional);
        visit.number("crew_leaves_odds", s.crew_leaves_odds, rules::fraction("of early stops", "odds that the crew goes elsewhere after an early stop"), Need::optional);
        visit.number("rehire_cost", s.rehire_cost, rules::amount("money", "cost of finding and breaking in a new crew"), Need::optional);
        visit.number("yard_change_fee", s.yard_change_fee, rules::amount("money", "what the yard asks for another haul-out date"), Need::optional);
        visit.number("lay_up_refund_per_day", s.lay_up_refund_per_day, rules::amount("money a day", "premium given back for each day laid up before the season's end"), Need::optional);
        visit.number("shore_job_per_week", s.shore_job_per_week, rules::amount("money a week", "earned ashore from an early stop to the season's end"), Need::optional);
    }
};

/// A date that matters at home. Reported, never priced.
struct FamilyDate {
    std::string name{};
    std::optional<Date> date{};
    bool gear_ashore = true;
    bool operator==(const FamilyDate&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what the date is");
        visit.date("date", s.date, Need::required, "the date");
        visit.flag("gear_ashore", s.gear_ashore, "all the gear should be ashore when the day begins; false: the owner's boats should be in that day");
    }
};

/// A closure or a late opening that may come.
template <class N>
struct Shock {
    std::string name{};
    N odds_per_year{};
    std::optional<Date> from{};
    N days{};
    bool operator==(const Shock&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what may happen");
        visit.number("odds_per_year", s.odds_per_year, rules::fraction("a year", "odds that it happens in a year"), Need::required);
        visit.date("from", s.from, Need::required, "first day it holds; the same date every year");
        visit.number("days", s.days, rules::days("days", "calendar days it holds"), Need::required);
    }
};

/// Something supposed to happen for certain in one year of the history: luck stays as it is, draw for draw.
template <class N>
struct Suppose {
    Event what = Event::closure;
    int year = 1;  ///< 1 = the first of the history
    std::string boat{};
    std::optional<Date> from{};
    std::optional<int> days{};
    N cost{};
    bool operator==(const Suppose&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.word("what", s.what, k_event_words, Need::required, "what is supposed to happen");
        visit.whole("year", s.year, 1, 30, Need::optional, "year of the history in which it happens, 1 the first");
        visit.text("boat", s.boat, Need::optional, "the boat that breaks down or has no skipper");
        visit.date("from", s.from, Need::optional, "its first day, by the calendar of the first year");
        visit.whole("days", s.days, 0, 366, "calendar days it lasts, the first included; of no skipper, left out: to the season's end");
        visit.number("cost", s.cost, rules::amount("money", "repair bill of a breakdown, paid on its first day; no insurer pays any of it"), Need::optional);
    }
};

/// The owner as skipper.
template <class N>
struct SkipperHealth {
    N laid_up_odds_per_season{};
    EventSize weeks_lost{};
    bool operator==(const SkipperHealth&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("laid_up_odds_per_season", s.laid_up_odds_per_season, Rule{0.0, 1.0, false, true, Scale::between, "a season", "odds that the owner is laid up in a season"}, Need::required);
        visit.size("weeks_lost", s.weeks_lost, rules::days("weeks", "weeks lost each time", 52.0), Need::required);
    }
};

template <class N>
struct Weather {
    Months<N> unfishable_fraction{};
    N persistence{};
    N year_sd{};
    N turned_back_fraction{};
    bool operator==(const Weather&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.months("unfishable_fraction", s.unfishable_fraction, rules::fraction("of days", "share of the month's days too bad to fish"), Need::required);
        visit.number("persistence", s.persistence, rules::persistence("how strongly today's weather follows yesterday's"), Need::optional);
        visit.number("year_sd", s.year_sd, Rule{0.0, 3.0, false, false, Scale::above_bound, "on the logit scale", "how much bad weather differs from year to year"}, Need::optional);
        visit.number("turned_back_fraction", s.turned_back_fraction, rules::fraction("of days lost to weather", "how many of them the boat had gone out for: a day's fuel is burned"), Need::optional);
    }
};

}  // namespace seasonrisk
