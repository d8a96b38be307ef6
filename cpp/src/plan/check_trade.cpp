// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "checks.hpp"
#include "dates.hpp"

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

/// Outside these a soak says nothing about a pot, and its sums lose their digits.
void check_soak(const std::string& path, const std::optional<Number>& nights, Notebook& book) {
    constexpr double shortest = 0.1;
    constexpr double longest = 366.0;
    if (!nights) return;
    for (const double value : {lowest_of(*nights), highest_of(*nights)}) {
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

void check_species(const std::string& path, const Species<Number>& species, Notebook& book) {
    check_soak(path + ".usual_soak_nights", species.usual_soak_nights, book);
    check_soak(path + ".soak_time_constant_nights", species.soak_time_constant_nights, book);
    if (species.usual_soak_nights && !species.soak_time_constant_nights)
        book.error(path + ".soak_time_constant_nights", "", "is missing beside usual_soak_nights",
                   "give both, or neither");
    if (!species.usual_soak_nights && species.soak_time_constant_nights)
        book.error(path + ".usual_soak_nights", "", "is missing beside soak_time_constant_nights",
                   "give both, or neither");
}

/// A rate moves with a new money year; an early repayment is made while the books are open.
void check_loan_over_years(const std::string& path, const Loan<Number>& loan, const Plan& plan, Notebook& book) {
    if (is_used(loan.rate_change_sd_per_year_fraction) && plan.business.years == 1)
        book.warning(path + ".rate_change_sd_per_year_fraction", value_text(loan.rate_change_sd_per_year_fraction),
                     "does nothing in a plan of one year", "business.years says how many years a history has");
    if (!has_walkable_season(plan)) return;
    const Span first = money_year_of(plan);
    const Span books{first.first, years_later(first.last, std::clamp(plan.business.years, 1, 30) - 1)};
    for (std::size_t n = 0; n < loan.repay.size(); ++n) {
        const auto& date = loan.repay[n].date;
        if (date && !books.contains(*date))
            book.warning(numbered(path + ".repay", n) + ".date", date_text(*date),
                         "lies outside the books, " + span_text(books) + ": nothing is repaid");
    }
}

void check_loan(const std::string& path, const Loan<Number>& loan, Notebook& book) {
    const double per_year = loan.months.empty() ? 12.0 : static_cast<double>(loan.months.size());
    const double years = lowest_of(loan.years_left);
    if (!(years > 0.0 && years <= 60.0)) return;  // told by its range
    if (years * per_year < 0.5) {
        book.error(path + ".years_left", number_text(years), "is too short for even one payment",
                   "a loan paid off once has 1 payment: " + about_text(1.0 / per_year) + " years");
        return;
    }
    // Something must be left to pay the loan off with.
    const double most = highest_of(loan.interest_only_months);
    if (most >= 0.0 && most <= 720.0 && std::floor(most / 12.0 * per_year + 0.5) >= std::floor(years * per_year + 0.5))
        book.error(path + ".interest_only_months", number_text(most),
                   "must end before the loan does, in " + about_text(years * 12.0)
                       + " months, and leave a payment that pays it off");
}

void check_input(const std::string& path, const Input<Number>& input, Notebook& book) {
    if (input.quantity && input.quantity_per_pot)
        book.error(path, "", "has both quantity and quantity_per_pot", "keep one of them");
    if (!input.quantity && !input.quantity_per_pot)
        book.error(path, "", "has no quantity", "give quantity or quantity_per_pot");
    if (is_used(input.spoil_fraction) && !is_used(input.used_per_haul))
        book.warning(path + ".spoil_fraction", value_text(input.spoil_fraction),
                     "does nothing without used_per_haul: what is bought is paid, used or not");
}

void check_asset(const std::string& path, const Asset<Number>& asset, Notebook& book) {
    if (asset.resale.typical > asset.cost.typical)
        book.error(path + ".resale", value_text(asset.resale),
                   "must be no more than its cost, " + value_text(asset.cost));
}

void check_tax(const Household<Number>& household, Notebook& book) {
    if (household.tax_fraction.typical > 0.0 && household.tax_months.empty())
        book.error("household.tax_months", "", "is missing: in which months of the next money year is the tax paid?",
                   "for example tax_months = [\"jan\", \"jul\"]");
}

/// What a year adds is nothing in a plan of one year.
void check_growth(const Plan& plan, Notebook& book) {
    if (plan.business.years == 1 && plan.growth != Growth<Number>{})
        book.warning("growth", "", "does nothing in a plan of one year",
                     "business.years says how many years a history has");
}

/// A refund for being laid up cannot give back more than was paid.
void check_lay_up(const Plan& plan, Notebook& book) {
    const double refund = plan.ending.lay_up_refund_per_day.typical;
    if (!(refund > 0.0) || !has_walkable_season(plan)) return;
    double premiums = 0.0;
    for (const auto& boat : plan.boat) premiums += boat.insurance ? boat.insurance->premium.typical : 0.0;
    const auto early = static_cast<double>((*plan.season.end - last_fishing_day(plan)).count());
    if (premiums == 0.0 && !plan.boat.empty())
        book.warning("ending.lay_up_refund_per_day", number_text(refund), "gives back a premium that no boat pays");
    else if (refund * early > premiums)
        book.warning("ending.lay_up_refund_per_day", number_text(refund),
                     "gives back " + number_text(refund * early) + " for " + number_text(early)
                         + " days, more than the premiums, " + number_text(premiums));
}

void check_ending(const Plan& plan, Notebook& book) {
    const auto& ending = plan.ending;
    if (is_used(ending.crew_leaves_odds) && !is_used(ending.rehire_cost))
        book.warning("ending.crew_leaves_odds", value_text(ending.crew_leaves_odds), "costs nothing: rehire_cost is 0");
    check_lay_up(plan, book);
    const auto is_pots = [](const auto& fishery) { return fishery.gear == Gear::pots; };
    const auto has_pots = [&](const auto& boat) { return std::ranges::any_of(boat.fishery, is_pots); };
    if (is_used(ending.gear_in_days) && !plan.boat.empty() && std::ranges::none_of(plan.boat, has_pots))
        book.warning("ending.gear_in_days", value_text(ending.gear_in_days), "brings in nothing: no boat has pots");
    const auto is_wage = [](const auto& hand) { return hand.pay == PayKind::day_wage || hand.per_day; };
    const auto has_wage = [&](const auto& boat) { return std::ranges::any_of(boat.crew, is_wage); };
    if (is_used(ending.crew_notice_days) && std::ranges::none_of(plan.boat, has_wage))
        book.warning("ending.crew_notice_days", value_text(ending.crew_notice_days),
                     "is owed to nobody: no hand is on a day wage");
}

}  // namespace

void check_trade(const Plan& plan, Notebook& book) {
    check_account(plan.business, book);
    check_growth(plan, book);
    check_ending(plan, book);
    for (std::size_t k = 0; k < plan.species.size(); ++k) check_species(numbered("species", k), plan.species[k], book);
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        const std::string path = numbered("boat", b) + ".standing";
        for (std::size_t n = 0; n < plan.boat[b].standing.size(); ++n)
            check_bill(numbered(path, n), plan.boat[b].standing[n], book);
    }
    for (std::size_t n = 0; n < plan.standing.size(); ++n) check_bill(numbered("standing", n), plan.standing[n], book);
    for (std::size_t n = 0; n < plan.input.size(); ++n) check_input(numbered("input", n), plan.input[n], book);
    for (std::size_t n = 0; n < plan.loan.size(); ++n) {
        check_loan(numbered("loan", n), plan.loan[n], book);
        check_loan_over_years(numbered("loan", n), plan.loan[n], plan, book);
    }
    for (std::size_t n = 0; n < plan.asset.size(); ++n) check_asset(numbered("asset", n), plan.asset[n], book);
    check_tax(plan.household, book);
}

}  // namespace seasonrisk
