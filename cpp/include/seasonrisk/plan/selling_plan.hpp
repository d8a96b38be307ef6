// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/kinds.hpp"

/// \file
/// Selling: outlets, orders of regulars, holding alive.
namespace seasonrisk {

template <class N>
struct Outlet {
    std::string name{};
    ByName<N> price{};
    Months<N> month_factor{};
    N year_sd{};
    N year_carry{};
    N week_sd{};
    N week_persistence{};
    TotalOrEach<N> daily_limit{};
    std::vector<unsigned> open_days{};  ///< ISO: 1 = Monday; empty = every day
    TotalOrEach<N> demand_per_open_day{};
    std::optional<N> demand_sd{};
    N cost_per_open_day{};
    N hours_per_open_day{};
    N cost_per_unit{};
    N own_landings_flexibility{};
    N missed_settlement_odds_per_year{};
    N paid_after_days{};
    bool operator==(const Outlet&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "who buys");
        visit.by_name("price", s.price, rules::amount("money a unit", "usual price paid"), Need::required, "species or grade");
        visit.months("month_factor", s.month_factor, rules::amount("times the price", "how the month's price compares"), Need::optional);
        visit.number("year_sd", s.year_sd, rules::log_sd("how much a year's price differs"), Need::optional);
        visit.number("year_carry", s.year_carry, rules::correlation("how much of this year's price level is left next year"), Need::optional);
        visit.number("week_sd", s.week_sd, rules::log_sd("how much a week's price differs"), Need::optional);
        visit.number("week_persistence", s.week_persistence, rules::persistence("how strongly a week's price follows the week before"), Need::optional);
        visit.total_or_each("daily_limit", s.daily_limit, rules::amount("sold units a day", "most it takes in a day, of all grades together or of each"), "grade");
        visit.weekdays("open_days", s.open_days, "days of the week it buys; left out, every day");
        visit.total_or_each("demand_per_open_day", s.demand_per_open_day, Rule{0.0, 100000.0, false, false, Scale::above_bound, "sold units an open day", "mean of what walk-up customers ask for, a count"}, "grade");
        visit.number("demand_sd", s.demand_sd, rules::amount("sold units", "how much a day's demand differs; left out, as chance alone has it"));
        visit.number("cost_per_open_day", s.cost_per_open_day, rules::amount("money an open day", "pitch, ice and change of an open day of the season"), Need::optional);
        visit.number("hours_per_open_day", s.hours_per_open_day, rules::amount("hours an open day", "owner's or family's hours on an open day of the season"), Need::optional);
        visit.number("cost_per_unit", s.cost_per_unit, rules::amount("money a unit", "cost of selling one unit"), Need::optional);
        visit.number("own_landings_flexibility", s.own_landings_flexibility, Rule{-5.0, 5.0, false, false, Scale::plain, "", "how the price answers own landings: -0.2 is 2 in 100 lower for 10 in 100 more"}, Need::optional);
        visit.number("paid_after_days", s.paid_after_days, rules::days("days", "days from the sale to the money"), Need::optional);
        visit.number("missed_settlement_odds_per_year", s.missed_settlement_odds_per_year, Rule{0.0, 1.0, false, true, Scale::between, "a year", "odds that in some week of the season the buyer never pays"}, Need::optional);
    }
};

/// What is promised to a regular.
template <class N>
struct Order {
    std::string who{};
    std::string grade{};
    N quantity{};
    std::vector<unsigned> days{};  ///< ISO: 1 = Monday
    std::optional<Date> from{};
    std::optional<Date> to{};
    N price{};
    std::optional<N> buy_in_price{};
    std::optional<N> refund_per_unit{};
    N leave_fraction{};
    bool operator==(const Order&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("who", s.who, Need::required, "the regular");
        visit.text("grade", s.grade, Need::required, "species or grade that is promised");
        visit.number("quantity", s.quantity, rules::amount("sold units", "promised for each of the days"), Need::required);
        visit.weekdays("days", s.days, "days of the week it is due");
        visit.date("from", s.from, Need::optional, "first day; left out, the season's first");
        visit.date("to", s.to, Need::optional, "last day; left out, the season's last");
        visit.number("price", s.price, rules::amount("money a sold unit", "price agreed; paid at once"), Need::required);
        visit.number("buy_in_price", s.buy_in_price, rules::amount("money a sold unit", "what is short is bought in at this price"));
        visit.number("refund_per_unit", s.refund_per_unit, rules::amount("money a sold unit", "paid back for what is short"));
        visit.number("leave_fraction", s.leave_fraction, rules::fraction("of the part that was short", "how much of what was short is not ordered again"), Need::optional);
    }
};

/// A grade kept alive.
template <class N>
struct Holding {
    std::string grade{};
    std::string keep_for{};
    N keep_fraction{};
    N capacity{};
    N longest_days{};
    Months<N> loss_per_night_fraction{};
    N die_off_odds_per_day{};
    N die_off_fraction{};
    N forced_price_fraction{};
    bool operator==(const Holding&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("grade", s.grade, Need::required, "species or grade that is kept");
        visit.text("keep_for", s.keep_for, Need::optional, "outlet it is kept for; left out, what no outlet took");
        visit.number("keep_fraction", s.keep_fraction, rules::fraction("of the landing", "part of the day's landing, after orders, that is kept"), Need::optional);
        visit.number("capacity", s.capacity, rules::amount("sold units", "most that can be kept"), Need::required);
        visit.number("longest_days", s.longest_days, rules::days("days", "last day it can be kept, counted from the landing", 120.0), Need::required);
        visit.months("loss_per_night_fraction", s.loss_per_night_fraction, rules::fraction("of the stock", "what a night costs in deaths"), Need::optional);
        visit.number("die_off_odds_per_day", s.die_off_odds_per_day, rules::fraction("a day", "odds of a die-off"), Need::optional);
        visit.number("die_off_fraction", s.die_off_fraction, rules::fraction("of the stock", "what a die-off takes"), Need::optional);
        visit.number("forced_price_fraction", s.forced_price_fraction, rules::fraction("of the lowest open price", "what a sale in a hurry brings"), Need::optional);
    }
};

}  // namespace seasonrisk
