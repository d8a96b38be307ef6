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
    if (pots > longest_rotation_days * hauls) {
        book.error(
            path + ".count", number_text(pots), "must be no more than 30 days of hauls",
            "at " + number_text(hauls) + " a day a pot would be hauled once in " + about_text(pots / hauls) + " days");
    }
}

void check_crew(const std::string& path, const std::vector<Crew<Number>>& crew, Notebook& book) {
    double of_sales = 0.0;
    double after_bait_and_fuel = 0.0;
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
        const double fraction = hand.share_fraction ? hand.share_fraction->typical : 0.0;
        const bool is_fraction = fraction >= 0.0 && fraction <= 1.0;  // anything else is told by its range
        (hand.pay == PayKind::share_of_sales ? of_sales : after_bait_and_fuel) += is_fraction ? fraction : 0.0;
    }
    constexpr double rounding = 1e-9;  // three thirds may add up to a little more than one
    for (const double shared : {of_sales, after_bait_and_fuel}) {
        if (shared > 1.0 + rounding)
            book.error(path, "",
                       "shares out " + number_text(std::round(shared * 1e4) / 1e4)
                           + " of one sum; the fractions must add up to no more than 1");
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
        if (species.usual_soak_nights && !species.soak_time_constant_nights)
            book.error(path + ".soak_time_constant_nights", "", "is missing beside usual_soak_nights",
                       "give both, or neither");
        if (!species.usual_soak_nights && species.soak_time_constant_nights)
            book.error(path + ".usual_soak_nights", "", "is missing beside soak_time_constant_nights",
                       "give both, or neither");
    }
    for (std::size_t b = 0; b < plan.boat.size(); ++b) check_boat(numbered("boat", b), plan.boat[b], book);
    for (std::size_t n = 0; n < plan.standing.size(); ++n) check_bill(numbered("standing", n), plan.standing[n], book);
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
