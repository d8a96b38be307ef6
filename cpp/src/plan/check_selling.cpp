// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "checks.hpp"
#include "goods.hpp"

namespace seasonrisk {
namespace {

bool is_fraction(double value) { return value >= 0.0 && value <= 1.0; }

/// The number to a digit more than the eye compares, for sums that should be one.
std::string sum_text(double sum) { return number_text(std::round(sum * 1e6) / 1e6); }

bool is_weight(const std::string& unit) { return unit == "kg" || unit == "lb" || unit == "lbs"; }

void check_grades(const std::string& path, const Species<Number>& species, Notebook& book) {
    constexpr double rounding = 1e-6;
    constexpr double guessed = 0.02;  // guesses are divided by their sum, so they need not be exact
    if (species.grade.empty()) return;
    double sum = 0.0;
    bool any_guess = false;
    for (const auto& grade : species.grade) {
        if (!is_fraction(grade.fraction.typical)) return;  // told by its range
        sum += grade.fraction.typical;
        any_guess = any_guess || grade.fraction.is_guess;
    }
    if (!any_guess && std::abs(sum - 1.0) > rounding)
        book.error(
            path + ".grade", "",
            "has fractions that add up to " + sum_text(sum) + "; those of " + species.name + " must add up to 1");
    if (any_guess && std::abs(sum - 1.0) > guessed)
        book.error(path + ".grade", "",
                   "has fractions that add up to " + sum_text(sum) + ", guesses at their middle; those of "
                       + species.name + " must add up to 1 within 0.02",
                   "in each season the guesses are then divided by their sum");
    for (std::size_t g = 0; g < species.grade.size(); ++g) {
        const auto& grade = species.grade[g];
        const std::string at = numbered(path + ".grade", g);
        const bool other_unit = !grade.sold_by.empty() && grade.sold_by != species.unit;
        const bool converts = is_used(grade.sold_units_per_unit, 1.0);
        if (other_unit && !converts)
            book.warning(at + ".sold_by", quoted(grade.sold_by), "counts as many as there are " + species.unit,
                         "give sold_units_per_unit: how many " + grade.sold_by + " one " + species.unit + " makes");
        const double dozens = grade.sold_units_per_unit.typical;
        if (other_unit && dozens >= 2.0 && grade.sold_by.starts_with("dozen") && is_weight(species.unit))
            book.warning(at + ".sold_units_per_unit", number_text(dozens),
                         "says that one " + species.unit + " makes " + number_text(dozens) + " dozen",
                         did_you_mean(about_text(1.0 / dozens)));
        if (!other_unit && converts)
            book.warning(at + ".sold_units_per_unit", value_text(grade.sold_units_per_unit),
                         "changes the count, but it is sold by the " + species.unit + " it is caught in",
                         "give sold_by, such as \"dozen\"");
        if (species.grade.size() == 1 && is_used(grade.year_sd))
            book.warning(at + ".year_sd", value_text(grade.year_sd),
                         "does nothing: an only grade is always the whole catch");
    }
}

/// The counts a day's customers make: the spread must be one that counts can have.
void check_demand(const std::string& path, const Outlet<Number>& outlet, Notebook& book) {
    const std::string key = path + ".demand_sd";
    if (!outlet.demand_sd) return;
    const Number& sd = *outlet.demand_sd;
    if (outlet.demand_per_open_day.empty()) {
        book.warning(key, value_text(sd), "does nothing without demand_per_open_day");
        return;
    }
    std::vector<std::pair<std::string, Number>> means = outlet.demand_per_open_day.each;
    if (outlet.demand_per_open_day.total) means.emplace_back("", *outlet.demand_per_open_day.total);
    for (const auto& [good, mean] : means) {
        const std::string of = good.empty() ? "" : " of " + good;
        const double m = mean.typical;
        const double s = sd.typical;
        if (!(m >= 0.0) || !(s >= 0.0)) continue;  // told by their ranges
        if (m == 0.0 && !mean.is_guess && is_used(sd))
            book.error(key, value_text(sd), "cannot differ around a demand" + of + " of 0",
                       "leave demand_sd out, or give the demand");
        else if (m > 0.0 && s * s > m + 9.0 * m * m)
            book.error(key, value_text(sd),
                       "is too wild beside a demand" + of + " of " + number_text(m) + "; must be no more than "
                           + about_text(std::sqrt(m + 9.0 * m * m)));
        else if (m > 0.0 && s * s <= m)
            book.warning(key, value_text(sd),
                         "is no more than chance alone makes of a demand" + of + " of " + number_text(m) + ", "
                             + about_text(std::sqrt(m)) + ": chance alone is used");
    }
}

void check_outlet(const std::string& path, const Outlet<Number>& outlet, const Plan& plan, Notebook& book) {
    check_demand(path, outlet, book);
    if (outlet.own_landings_flexibility.typical > 0.0)
        book.warning(path + ".own_landings_flexibility", value_text(outlet.own_landings_flexibility),
                     "raises the price when more is landed",
                     "a price that falls has a flexibility below 0, such as -0.2");
    const auto rests = [&](unsigned day) {
        return std::ranges::find(plan.season.rest_days, day) != plan.season.rest_days.end();
    };
    const bool only_rest_days = !outlet.open_days.empty() && std::ranges::all_of(outlet.open_days, rests);
    const bool any_held = std::ranges::any_of(goods_of(plan), [&](const Good& good) {
        return takes(outlet, good, plan)
               && std::ranges::find(plan.holding, good.name, &Holding<Number>::grade) != plan.holding.end();
    });
    if (only_rest_days && !any_held && plan.season.rest_days.size() < 7)
        book.warning(path + ".open_days", "",
                     "are rest days, on which nothing is landed: without a [[holding]] it never sells");
}

void check_order(const std::string& path, const Order<Number>& order, Notebook& book) {
    if (order.days.empty())
        book.error(path + ".days", "", "is missing: on which weekdays is it due?", "for example days = [\"Friday\"]");
    if (order.buy_in_price && order.refund_per_unit)
        book.error(path, "", "has both buy_in_price and refund_per_unit",
                   "what is short is bought in, or paid back: keep one of them");
    else if (order.buy_in_price && highest_of(*order.buy_in_price) < lowest_of(order.price))
        book.warning(path + ".buy_in_price", value_text(*order.buy_in_price),
                     "is below the order's price, " + value_text(order.price) + ": being short earns money");
    else if (order.refund_per_unit && lowest_of(*order.refund_per_unit) > highest_of(order.price))
        book.warning(path + ".refund_per_unit", value_text(*order.refund_per_unit),
                     "pays back more than the order's price, " + value_text(order.price));
}

void check_holding(const std::string& path, const Holding<Number>& holding, Notebook& book) {
    if (holding.keep_for.empty() && is_used(holding.keep_fraction))
        book.warning(path + ".keep_fraction", value_text(holding.keep_fraction), "does nothing without keep_for",
                     "name the outlet it is kept for; what no outlet took is held in any case");
    if (!is_used(holding.capacity))
        book.warning(path + ".capacity", "0", "has room for nothing: what is left in the evening is sold off");
    else if (!is_used(holding.longest_days))
        book.warning(path + ".longest_days", "0", "keeps nothing over night: what is left in the evening is sold off");
    if (is_used(holding.die_off_odds_per_day) && !is_used(holding.die_off_fraction))
        book.warning(path + ".die_off_odds_per_day", value_text(holding.die_off_odds_per_day),
                     "takes nothing: die_off_fraction is 0");
    if (!is_used(holding.forced_price_fraction))
        book.warning(path, "", "has no forced_price_fraction: what is too old or too much is given away",
                     "0.5 would be half of the lowest price of the day");
}

void check_limit(const std::string& path, const Limit<Number>& limit, Notebook& book) {
    if (limit.over == Over::lease && !limit.lease_price)
        book.error(path + ".lease_price", "",
                   "is missing: over = \"lease\" needs the cost of one unit above the limit");
    if (limit.over == Over::stop && limit.lease_price)
        book.error(path + ".over", "\"stop\"", "does not go with lease_price",
                   "leave the price out, or write over = \"lease\"");
}

}  // namespace

void check_selling(const Plan& plan, Notebook& book) {
    for (std::size_t k = 0; k < plan.species.size(); ++k) check_grades(numbered("species", k), plan.species[k], book);
    for (std::size_t o = 0; o < plan.outlet.size(); ++o)
        check_outlet(numbered("outlet", o), plan.outlet[o], plan, book);
    for (std::size_t n = 0; n < plan.order.size(); ++n) check_order(numbered("order", n), plan.order[n], book);
    for (std::size_t n = 0; n < plan.holding.size(); ++n) check_holding(numbered("holding", n), plan.holding[n], book);
    for (std::size_t n = 0; n < plan.limit.size(); ++n) check_limit(numbered("limit", n), plan.limit[n], book);
}

}  // namespace seasonrisk
