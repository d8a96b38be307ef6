// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/kinds.hpp"

/// \file
/// What a lender asks for beside the numbers of the plan. None of it touches the simulation.
namespace seasonrisk {

/// What a past year came to. Each key but `year` is the name of the column of results it stands beside.
template <class N>
struct PastYear {
    int year = 0;
    std::optional<N> sales{}, days_fished{}, fuel{}, bait{}, day_costs{}, crew_pay{}, selling_costs{}, repairs{}, pots_lost_cost{};
    std::optional<N> standing_costs{}, inputs{}, loan_payments{}, tax{}, draw{}, other_income{}, lowest_cash{};
    bool operator==(const PastYear&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.whole("year", s.year, 1950, 2150, Need::required, "calendar year in which that season began");
        visit.number("sales", s.sales, rules::amount("money", "sales of the catch"));
        visit.number("days_fished", s.days_fished, rules::days("days", "days out with the gear, of all boats together", 1098.0));
        visit.number("fuel", s.fuel, rules::amount("money", "fuel burned"));
        visit.number("bait", s.bait, rules::amount("money", "bait used"));
        visit.number("day_costs", s.day_costs, rules::amount("money", "costs of the days out"));
        visit.number("crew_pay", s.crew_pay, rules::amount("money", "pay of all hands"));
        visit.number("selling_costs", s.selling_costs, rules::amount("money", "levy and cost of selling"));
        visit.number("repairs", s.repairs, rules::amount("money", "repair bills before claims"));
        visit.number("pots_lost_cost", s.pots_lost_cost, rules::amount("money", "pots lost, at the cost of a new one"));
        visit.number("standing_costs", s.standing_costs, rules::amount("money", "bills owed whether the boat fishes or not, premium among them"));
        visit.number("inputs", s.inputs, rules::amount("money", "bought ahead of the season"));
        visit.number("loan_payments", s.loan_payments, rules::amount("money", "interest and principal"));
        visit.number("tax", s.tax, rules::amount("money", "tax on the year"));
        visit.number("draw", s.draw, rules::amount("money", "taken for the household"));
        visit.number("other_income", s.other_income, rules::amount("money", "other income of the household"));
        visit.number("lowest_cash", s.lowest_cash, rules::any_sign("money", "lowest month-end balance"));
    }
};

/// What the owner says to the lender in his own words.
template <class N>
struct Note {
    std::string lender{};
    std::optional<N> ask{};
    std::string purpose{};
    std::optional<N> reserve{};
    std::string in_a_bad_year{};
    std::string records{};
    std::string licence{};
    std::string skipper_if_hurt{};
    std::string checked_by{};
    bool operator==(const Note&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("lender", s.lender, Need::optional, "who is asked");
        visit.number("ask", s.ask, rules::amount("money", "sum asked for"));
        visit.prose("purpose", s.purpose, Need::optional, "what it is for");
        visit.number("reserve", s.reserve, rules::amount("money", "put by outside the account for a bad year; the simulation does not count on it"));
        visit.prose("in_a_bad_year", s.in_a_bad_year, Need::optional, "what would be done in a bad year");
        visit.prose("records", s.records, Need::optional, "which records there are: landings, books, returns");
        visit.prose("licence", s.licence, Need::optional, "whose the licence is, and whether it can be passed on or pledged");
        visit.prose("skipper_if_hurt", s.skipper_if_hurt, Need::optional, "who runs the boat if the skipper is hurt");
        visit.prose("checked_by", s.checked_by, Need::optional, "who looked over the numbers, and when");
    }
};

/// Where a number came from, or all the numbers of a section that have no source of their own.
struct Source {
    std::string path{};  ///< key path of a number, or of a section that holds some
    Origin from = Origin::owners_estimate;
    std::string where{};
    bool operator==(const Source&) const = default;
};

}  // namespace seasonrisk
