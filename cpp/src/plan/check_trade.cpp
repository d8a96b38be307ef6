// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "checks.hpp"

namespace seasonrisk {
namespace {

void check_account(const Business<Number>& business, Notebook& book) {
    const std::string& money = business.money;
    const bool three_capitals =
        money.size() == 3 && std::ranges::all_of(money, [](char c) { return c >= 'A' && c <= 'Z'; });
    if (!money.empty() && !three_capitals)
        book.error("business.money", "\"" + money + "\"",
                   "must be the three capital letters of a currency, such as GBP, EUR or USD");
    if (business.opening_cash.typical < -business.overdraft_limit.typical) {
        book.warning(
            "business.opening_cash", number_text(business.opening_cash.typical),
            "is below the overdraft limit of " + number_text(business.overdraft_limit.typical) + " on the first day");
    }
}

void check_pots(const std::string& path, const Fishery<Number>& fishery, Notebook& book) {
    // Beyond this many days between two hauls of a pot the soak is not followed.
    constexpr double longest_rotation_days = 30.0;
    const double pots = fishery.count.typical;
    const double hauls = fishery.hauls_per_day.typical;
    if (pots <= 0.0 || hauls <= 0.0) return;
    if (pots < hauls)
        book.warning(path + ".hauls_per_day", number_text(hauls),
                     "is more than the " + number_text(pots) + " pots there are: all of them are hauled each day");
    // Of guesses the rare end counts: many pots and few hauls at once.
    const double most_pots = fishery.count.is_guess ? fishery.count.high : pots;
    const double fewest_hauls = fishery.hauls_per_day.is_guess ? fishery.hauls_per_day.low : hauls;
    if (pots <= longest_rotation_days * hauls && fewest_hauls > 0.0 && most_pots > longest_rotation_days * fewest_hauls)
        book.error(path + ".count", number_text(most_pots), "at its high end must be no more than 30 days of hauls at their low end",
                   "at " + number_text(fewest_hauls) + " a day a pot would be hauled once in " + about_text(most_pots / fewest_hauls) + " days");
    if (pots > longest_rotation_days * hauls) {
        book.error(
            path + ".count", number_text(pots), "must be no more than 30 days of hauls",
            "at " + number_text(hauls) + " a day a pot would be hauled once in " + about_text(pots / hauls) + " days");
    }
}

void check_crew(const std::string& path, const std::vector<Crew<Number>>& crew, Notebook& book) {
    double shared_at_most = 0.0;
    for (std::size_t c = 0; c < crew.size(); ++c) {
        const auto& hand = crew[c];
        const std::string share = numbered(path, c) + ".share_fraction";
        const std::string wage = numbered(path, c) + ".per_day";
        if (hand.pay == PayKind::day_wage) {
            if (!hand.per_day) book.error(wage, "", "is missing: a day wage needs an amount for each day out");
            if (hand.share_fraction)
                book.error(share, number_text(hand.share_fraction->typical), "has no meaning for a day wage",
                           "leave it out, or change pay");
            continue;
        }
        if (!hand.share_fraction) book.error(share, "", "is missing: a share needs its fraction");
        if (hand.per_day)
            book.error(wage, number_text(hand.per_day->typical), "has no meaning for a share",
                       "leave it out, or change pay");
        // What is left after bait and fuel is never more than sales, so all shares together must leave something.
        const Number& share_of = hand.share_fraction.value_or(Number(0.0));
        const double fraction = share_of.is_guess ? share_of.high : share_of.typical;
        const bool is_fraction = fraction >= 0.0 && fraction <= 1.0;  // anything else is told by its range
        shared_at_most += is_fraction ? fraction : 0.0;
    }
    constexpr double rounding = 1e-9;  // three thirds may add up to a little more than one
    if (shared_at_most > 1.0 + rounding)
        book.error(path, "",
                   "shares out " + number_text(std::round(shared_at_most * 1e4) / 1e4)
                       + " of one sum; the fractions, guesses at their high end, must add up to no more than 1");
}

/// Outside these a soak says nothing about a pot, and its sums lose their digits.
void check_soak(const std::string& path, const std::optional<Number>& nights, Notebook& book) {
    constexpr double shortest = 0.1;
    constexpr double longest = 366.0;
    if (!nights) return;
    const double low = nights->is_guess ? nights->low : nights->typical;
    const double high = nights->is_guess ? nights->high : nights->typical;
    for (const double value : {low, high}) {
        if (value >= shortest && value <= longest) continue;
        if (!(value > 0.0)) return;  // told by its range
        book.error(path, number_text(value), "must be from 0.1 to 366 nights");
        return;
    }
}

void check_bill(const std::string& path, const Standing<Number>& bill, Notebook& book) {
    if (bill.amount && bill.amount_per_pot)
        book.error(path, "", "has both amount and amount_per_pot", "keep one of them");
    if (!bill.amount && !bill.amount_per_pot) book.error(path, "", "has no amount", "give amount or amount_per_pot");
    if (bill.month != 0 && bill.every_month)
        book.error(path, "", "has both month and every_month = true", "keep one of them");
    if (bill.month == 0 && !bill.every_month)
        book.error(path, "", "has no month", "give month = \"apr\", or every_month = true");
}

void check_boat(const std::string& path, const Boat<Number>& boat, Notebook& book) {
    for (std::size_t f = 0; f < boat.fishery.size(); ++f)
        check_pots(numbered(path + ".fishery", f), boat.fishery[f], book);
    check_crew(path + ".crew", boat.crew, book);
    for (std::size_t n = 0; n < boat.standing.size(); ++n)
        check_bill(numbered(path + ".standing", n), boat.standing[n], book);
    for (std::size_t n = 0; n < boat.breakdown.size() && !boat.insurance; ++n) {
        const double odds = boat.breakdown[n].claimable_odds.typical;
        if (odds > 0.0)
            book.warning(numbered(path + ".breakdown", n) + ".claimable_odds", number_text(odds),
                         "pays nothing: the boat has no [boat.insurance]");
    }
}

}  // namespace

void check_trade(const Plan& plan, Notebook& book) {
    check_account(plan.business, book);
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        const auto& species = plan.species[k];
        const std::string path = numbered("species", k);
        check_soak(path + ".usual_soak_nights", species.usual_soak_nights, book);
        check_soak(path + ".soak_time_constant_nights", species.soak_time_constant_nights, book);
        if (species.usual_soak_nights && !species.soak_time_constant_nights)
            book.error(path + ".soak_time_constant_nights", "", "is missing beside usual_soak_nights",
                       "give both, or neither");
        if (!species.usual_soak_nights && species.soak_time_constant_nights)
            book.error(path + ".usual_soak_nights", "", "is missing beside soak_time_constant_nights",
                       "give both, or neither");
    }
    for (std::size_t b = 0; b < plan.boat.size(); ++b) check_boat(numbered("boat", b), plan.boat[b], book);
    for (std::size_t n = 0; n < plan.standing.size(); ++n) check_bill(numbered("standing", n), plan.standing[n], book);
    for (std::size_t n = 0; n < plan.loan.size(); ++n) {
        const Loan<Number>& loan = plan.loan[n];
        const double per_year = loan.months.empty() ? 12.0 : static_cast<double>(loan.months.size());
        const double years = loan.years_left.is_guess ? loan.years_left.low : loan.years_left.typical;
        if (years > 0.0 && years * per_year < 0.5)
            book.error(numbered("loan", n) + ".years_left", number_text(years), "is too short for even one payment",
                       "a loan paid off once has 1 payment: " + about_text(1.0 / per_year) + " years");
    }
    for (std::size_t n = 0; n < plan.input.size(); ++n) {
        const auto& input = plan.input[n];
        if (input.quantity && input.quantity_per_pot)
            book.error(numbered("input", n), "", "has both quantity and quantity_per_pot", "keep one of them");
        if (!input.quantity && !input.quantity_per_pot)
            book.error(numbered("input", n), "", "has no quantity", "give quantity or quantity_per_pot");
    }
    if (plan.household.tax_fraction.typical > 0.0 && plan.household.tax_months.empty()) {
        book.error("household.tax_months", "", "is missing: in which months of the next money year is the tax paid?",
                   "for example tax_months = [\"jan\", \"jul\"]");
    }
}

}  // namespace seasonrisk
