// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "seasonrisk/plan/finding.hpp"
#include "seasonrisk/plan/plan.hpp"
#include "words.hpp"

/// \file
/// The chapters of the rule book. Each looks at the whole plan and writes down what it finds.
namespace seasonrisk {

class Notebook {
public:
    std::vector<Finding> findings{};

    void error(const std::string& path, const std::string& value, std::string message, std::string hint = "") {
        findings.push_back({Severity::error, path, value, std::move(message), std::move(hint), "", 0, 0});
    }
    void warning(const std::string& path, const std::string& value, std::string message, std::string hint = "") {
        findings.push_back({Severity::warning, path, value, std::move(message), std::move(hint), "", 0, 0});
    }
};

/// Highest and lowest of the points a number is told by: guesses have a rare end, others one value.
inline double highest_of(const Number& number) { return number.is_guess ? number.high : number.typical; }
inline double lowest_of(const Number& number) { return number.is_guess ? number.low : number.typical; }

/// Does the value differ from the one that means "nothing"?
inline bool is_used(const Number& number, double neutral = 0.0) { return number.is_guess || number.typical != neutral; }
inline bool is_used(const EventSize& size) { return size.is_spread || size.typical != 0.0; }

/// The value as it stands in a finding: a guess by its middle.
inline std::string value_text(const Number& number) { return number_text(number.typical); }
inline std::string quoted(const std::string& word) { return "\"" + word + "\""; }

/// Each value against the range of its own key.
void check_ranges(const Plan& plan, Notebook& book);
/// The season: its dates, days off, and what is told by month.
void check_calendar(const Plan& plan, Notebook& book);
/// All other dates: fisheries, an early stop, orders, limits, shocks, assets, family dates.
void check_dates(const Plan& plan, Notebook& book);
/// How many sections there are, and whether names are single.
void check_names(const Plan& plan, Notebook& book);
/// Whether what is spoken of by name is there, and is caught.
void check_goods(const Plan& plan, Notebook& book);
/// What may stay unsold.
void check_unsold(const Plan& plan, Notebook& book);
/// Grades, outlets, orders, holdings, limits: what must stand together, and what must not.
void check_selling(const Plan& plan, Notebook& book);
/// The same of boats: gear and crew.
void check_boats(const Plan& plan, Notebook& book);
/// The same of what may go wrong: breakdowns, storms, a skipper who is missing.
void check_mishaps(const Plan& plan, Notebook& book);
/// The same of money and luck ashore: account, bills, loans, assets, tax, the end of the season.
void check_trade(const Plan& plan, Notebook& book);
/// What is supposed to happen for certain.
void check_suppose(const Plan& plan, Notebook& book);
/// What a lender asks for: past years, and where numbers came from.
void check_lender(const Plan& plan, Notebook& book);
/// Ties between years, species and prices; guesses that would share their draws.
void check_ties(const Plan& plan, Notebook& book);

}  // namespace seasonrisk
