// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/kinds.hpp"

/// \file
/// The account: business, growth, prices, bills, loans, assets, household.
namespace seasonrisk {

template <class N>
struct Business {
    std::string name{};
    std::string money{};
    std::optional<Date> books_start{};
    int years = 1;
    N opening_cash{};
    N spend_now{};
    N overdraft_limit{};
    N overdraft_rate_fraction{};
    bool operator==(const Business&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "name of the business, invented or real");
        visit.text("money", s.money, Need::required, "three letters of the currency, such as GBP");
        visit.date("books_start", s.books_start, Need::optional,
                   "first day of the money year; left out, the first of the month three months before the season");
        visit.whole("years", s.years, 1, 30, Need::optional, "years in a history");
        visit.number("opening_cash", s.opening_cash, rules::any_sign("money", "in the account on the first day of the money year"), Need::required);
        visit.number("spend_now", s.spend_now, rules::amount("money", "spent once, paid at the end of the first month, such as rebuilding an engine; counted with what is bought ahead"), Need::optional);
        visit.number("overdraft_limit", s.overdraft_limit, rules::amount("money", "how far the account may go below zero"), Need::optional);
        visit.number("overdraft_rate_fraction", s.overdraft_rate_fraction, rules::fraction("a year", "overdraft interest a year on what is overdrawn"), Need::optional);
    }
};

/// What a year adds: (1 + g)^y in year y, 0 first. Loans and deductibles do not grow.
template <class N>
struct Growth {
    N costs_per_year_fraction{};
    N fuel_per_year_fraction{};
    N bait_per_year_fraction{};
    N wages_per_year_fraction{};
    N prices_per_year_fraction{};
    N catch_per_year_fraction{};
    bool operator==(const Growth&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("costs_per_year_fraction", s.costs_per_year_fraction, rules::growth("bills, premium, inputs, day costs and the draw"), Need::optional);
        visit.number("fuel_per_year_fraction", s.fuel_per_year_fraction, rules::growth("fuel price"), Need::optional);
        visit.number("bait_per_year_fraction", s.bait_per_year_fraction, rules::growth("bait price"), Need::optional);
        visit.number("wages_per_year_fraction", s.wages_per_year_fraction, rules::growth("day wages and the household's other income"), Need::optional);
        visit.number("prices_per_year_fraction", s.prices_per_year_fraction, rules::growth("prices of outlets and orders"), Need::optional);
        visit.number("catch_per_year_fraction", s.catch_per_year_fraction, rules::growth("catch a haul"), Need::optional);
    }
};

template <class N>
struct Prices {
    N fuel_per_l{};
    N bait_per_haul{};
    N fuel_year_sd{};
    N fuel_year_carry{};
    N bait_year_sd{};
    N bait_year_carry{};
    N levy_fraction{};
    bool operator==(const Prices&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("fuel_per_l", s.fuel_per_l, rules::amount("money a litre", "fuel price"), Need::required);
        visit.number("bait_per_haul", s.bait_per_haul, rules::amount("money a pot-haul", "bait for one pot"), Need::required);
        visit.number("fuel_year_sd", s.fuel_year_sd, rules::log_sd("how much a year's fuel price differs"), Need::optional);
        visit.number("fuel_year_carry", s.fuel_year_carry, rules::correlation("how much of this year's fuel price is left next year"), Need::optional);
        visit.number("bait_year_sd", s.bait_year_sd, rules::log_sd("how much a year's bait price differs"), Need::optional);
        visit.number("bait_year_carry", s.bait_year_carry, rules::correlation("how much of this year's bait price is left next year"), Need::optional);
        visit.number("levy_fraction", s.levy_fraction, rules::fraction("of sales", "levy taken from sales"), Need::optional);
    }
};

/// Something bought ahead of the season; a standing cost.
template <class N>
struct Input {
    std::string name{};
    std::optional<N> quantity{};
    std::optional<N> quantity_per_pot{};
    N unit_cost{};
    unsigned pay_month = 0;  ///< 1 = January
    N used_per_haul{};
    N spoil_fraction{};
    bool operator==(const Input&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what is bought");
        visit.number("quantity", s.quantity, rules::amount("units", "how many are bought"));
        visit.number("quantity_per_pot", s.quantity_per_pot, rules::amount("units a pot", "how many are bought for each pot"));
        visit.number("unit_cost", s.unit_cost, rules::amount("money a unit", "cost of one"), Need::required);
        visit.one_month("pay_month", s.pay_month, Need::required, "month the bill is paid");
        visit.number("used_per_haul", s.used_per_haul, rules::amount("units a pot-haul", "how much a haul uses up; what is not in store is bought that day"), Need::optional);
        visit.number("spoil_fraction", s.spoil_fraction, rules::fraction("of the quantity", "how much of it spoils before it is used"), Need::optional);
    }
};

/// A bill that is owed whether the boat fishes or not.
template <class N>
struct Standing {
    std::string name{};
    std::optional<N> amount{};
    std::optional<N> amount_per_pot{};
    unsigned month = 0;  ///< 1 = January; 0 when `every_month`
    bool every_month = false;
    bool operator==(const Standing&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what the bill is for");
        visit.number("amount", s.amount, rules::amount("money", "the bill; in each month when every_month is true"));
        visit.number("amount_per_pot", s.amount_per_pot, rules::amount("money a pot", "the bill for each pot set"));
        visit.one_month("month", s.month, Need::optional, "month it is paid");
        visit.flag("every_month", s.every_month, "the same amount in every month");
    }
};

/// Repaid on a loan beside its payments.
template <class N>
struct Repayment {
    std::optional<Date> date{};
    N amount{};
    bool operator==(const Repayment&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.date("date", s.date, Need::required, "day of the early repayment; it is made at the end of its month");
        visit.number("amount", s.amount, rules::amount("money", "repaid early, no more than is owed"), Need::required);
    }
};

template <class N>
struct Loan {
    std::string name{};
    N balance{};
    N rate_fraction{};
    N rate_change_sd_per_year_fraction{};
    N years_left{};
    LoanPay pay = LoanPay::monthly;
    N interest_only_months{};
    std::string secured_on{};
    std::vector<unsigned> months{};  ///< named payment months, 1 = January; empty = monthly
    std::vector<Repayment<N>> repay{};
    bool operator==(const Loan&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "which loan");
        visit.number("balance", s.balance, rules::amount("money", "owed on the first day of the money year"), Need::required);
        visit.number("rate_fraction", s.rate_fraction, Rule{0.0, 1.0, false, true, Scale::between, "a year", "interest rate"}, Need::required);
        visit.number("rate_change_sd_per_year_fraction", s.rate_change_sd_per_year_fraction, rules::fraction("a year", "how much the rate moves with each new money year (standard deviation); never below 0"), Need::optional);
        visit.number("years_left", s.years_left, Rule{0.0, 60.0, true, false, Scale::above_bound, "years", "years until it is paid off"}, Need::required);
        visit.word("pay", s.pay, k_loan_pay_words, Need::optional, "monthly, unless months are named");
        visit.month_list("months", s.months, "months of the payments, each the same");
        visit.number("interest_only_months", s.interest_only_months, rules::days("months", "months at the start with interest alone, inside the term", 720.0), Need::optional);
        visit.text("secured_on", s.secured_on, Need::optional, "what the lender holds against it");
        visit.list("repay", s.repay, Need::optional);
    }
};

/// Something of value: it touches cash when it is bought, and the end position; worn straight from cost to resale.
template <class N>
struct Asset {
    std::string name{};
    N cost{};
    std::optional<Date> bought{};
    N life_years{10.0};
    N resale{};
    N survey_value{};
    N forced_sale_fraction{};
    bool operator==(const Asset&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what it is");
        visit.number("cost", s.cost, rules::amount("money", "what it cost, or will cost"), Need::required);
        visit.date("bought", s.bought, Need::required, "day it was or will be bought; from the first day of the money year on it is paid from the account");
        visit.number("life_years", s.life_years, Rule{0.0, 100.0, true, false, Scale::above_bound, "years", "years in which it wears from cost to resale"}, Need::required);
        visit.number("resale", s.resale, rules::amount("money", "what it fetches when worn"), Need::optional);
        visit.number("survey_value", s.survey_value, rules::amount("money", "what a survey says it is worth today"), Need::optional);
        visit.number("forced_sale_fraction", s.forced_sale_fraction, rules::fraction("of its value", "what a sale in a hurry would bring"), Need::optional);
    }
};

template <class N>
struct Household {
    Months<N> draw_per_month{};
    Months<N> other_income_per_month{};
    N tax_fraction{};
    N wear_allowance{};
    std::vector<unsigned> tax_months{};
    Months<N> hours{};
    bool operator==(const Household&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.months("draw_per_month", s.draw_per_month, rules::amount("money a month", "what the household takes"), Need::optional);
        visit.months("other_income_per_month", s.other_income_per_month, rules::amount("money a month", "other income of the household"), Need::optional);
        visit.number("tax_fraction", s.tax_fraction, rules::fraction("of the taxable surplus", "tax rate; 0 if tax is not counted"), Need::optional);
        visit.number("wear_allowance", s.wear_allowance, rules::amount("money a year", "yearly allowance for wear, taken off before tax"), Need::optional);
        visit.month_list("tax_months", s.tax_months, "months of the next money year in which this year's tax is paid");
        visit.months("hours", s.hours, rules::amount("hours a month", "unpaid work of owner and family ashore, beside stalls and pots"), Need::optional);
    }
};

}  // namespace seasonrisk
