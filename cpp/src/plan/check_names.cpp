// SPDX-License-Identifier: MIT
#include <algorithm>
#include <set>

#include "checks.hpp"
#include "goods.hpp"

namespace seasonrisk {
namespace {

void check_some(const std::string& list, std::size_t count, Notebook& book) {
    if (count == 0) book.error(list, "", "is missing: one [[" + list.substr(list.rfind('.') + 1) + "]] is needed");
}

/// Draws are addressed by boat, purpose and item with 8 bits for the item; fewer is kinder to the eye as well.
void check_at_most(const std::string& list, std::size_t count, std::size_t most, Notebook& book) {
    if (count > most)
        book.error(list, "", "has " + std::to_string(count) + " entries; must be no more than " + std::to_string(most));
}

/// Results are told by these names, so each must be single.
template <class S>
void check_single(const std::string& list, const std::vector<S>& sections, std::string S::*name, const char* key,
                  Notebook& book, const std::string& hint = "") {
    std::set<std::string> seen;
    for (std::size_t n = 0; n < sections.size(); ++n) {
        const std::string& word = sections[n].*name;
        if (!word.empty() && !seen.insert(word).second)
            book.error(numbered(list, n) + "." + key, quoted(word), "stands twice; each needs a name of its own", hint);
    }
}

/// Results of a year are told by its number behind a full stop, as those of a boat are by its name.
template <class S>
void check_no_year(const std::string& list, const std::vector<S>& sections, std::string S::*name, const char* key,
                   Notebook& book) {
    for (std::size_t n = 0; n < sections.size(); ++n) {
        const std::string& word = sections[n].*name;
        if (word.size() == 4 && word.find_first_not_of("0123456789") == std::string::npos)
            book.error(numbered(list, n) + "." + key, quoted(word),
                       "must not be a year, for results of years are told by it");
    }
}

void check_boat(const std::string& path, const Boat<Number>& boat, Notebook& book) {
    check_some(path + ".fishery", boat.fishery.size(), book);
    check_at_most(path + ".fishery", boat.fishery.size(), 6, book);
    check_at_most(path + ".crew", boat.crew.size(), 20, book);
    check_at_most(path + ".breakdown", boat.breakdown.size(), 200, book);
    check_at_most(path + ".spare", boat.spare.size(), 200, book);
    check_at_most(path + ".standing", boat.standing.size(), 200, book);
    check_at_most(path + ".day_costs", boat.day_costs.size(), 200, book);
    check_single(path + ".crew", boat.crew, &Crew<Number>::name, "name", book);
    check_single(path + ".breakdown", boat.breakdown, &Breakdown<Number>::kind, "kind", book);
    check_no_year(path + ".crew", boat.crew, &Crew<Number>::name, "name", book);
    check_no_year(path + ".breakdown", boat.breakdown, &Breakdown<Number>::kind, "kind", book);
}

/// Where a good's name stands in the plan.
std::string name_path(const Good& good) { return good.path + ".name"; }

/// Prices, limits and orders are told by the names of goods: each single over the whole plan.
void check_goods_single(const Plan& plan, Notebook& book) {
    const std::vector<Good> goods = goods_of(plan);
    check_at_most("species", plan.species.size(), 60, book);
    if (plan.species.size() <= 60 && goods.size() > 60)
        book.error("species", "",
                   "comes to " + std::to_string(goods.size()) + " grades in all; must be no more than 60");
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        const auto& species = plan.species[k];
        check_at_most(numbered("species", k) + ".grade", species.grade.size(), 20, book);
        if (species.name.find('.') != std::string::npos)
            book.error(numbered("species", k) + ".name", quoted(species.name),
                       "must have no full stop in it, for prices are told by this name");
    }
    std::set<std::string> seen;
    for (const Good& good : goods) {
        if (!good.is_grade || good.name.empty()) continue;
        if (good.name.find('.') != std::string::npos)
            book.error(name_path(good), quoted(good.name),
                       "must have no full stop in it, for prices are told by this name");
        const auto same = std::ranges::find(plan.species, good.name, &Species<Number>::name);
        if (same != plan.species.end())
            book.error(name_path(good), quoted(good.name), "is the name of a species too; each needs a name of its own",
                       "a price of that name could mean either: \"" + good.name + " alive\" would do");
        else if (!seen.insert(good.name).second)
            book.error(
                name_path(good), quoted(good.name), "stands twice; each needs a name of its own",
                "grades of two species too: \"" + plan.species[good.species].name + " " + good.name + "\" would do");
    }
}

}  // namespace

void check_names(const Plan& plan, Notebook& book) {
    if (plan.species.empty()) book.error("species", "", "is missing: at least one [[species]] is needed");
    check_some("outlet", plan.outlet.size(), book);
    check_some("boat", plan.boat.size(), book);
    check_at_most("outlet", plan.outlet.size(), 10, book);
    check_at_most("boat", plan.boat.size(), 3, book);
    check_at_most("order", plan.order.size(), 20, book);
    check_at_most("holding", plan.holding.size(), 20, book);
    check_at_most("limit", plan.limit.size(), 20, book);
    check_at_most("shock", plan.shock.size(), 20, book);
    check_at_most("family_date", plan.family_date.size(), 50, book);
    check_at_most("standing", plan.standing.size(), 200, book);
    check_at_most("input", plan.input.size(), 200, book);
    check_at_most("loan", plan.loan.size(), 50, book);
    check_at_most("asset", plan.asset.size(), 50, book);
    check_at_most("suppose", plan.suppose.size(), 20, book);
    check_at_most("stress", plan.stress.size(), 20, book);
    check_at_most("past_year", plan.past_year.size(), 30, book);
    check_single("species", plan.species, &Species<Number>::name, "name", book);
    check_single("outlet", plan.outlet, &Outlet<Number>::name, "name", book);
    check_single("boat", plan.boat, &Boat<Number>::name, "name", book);
    check_single("order", plan.order, &Order<Number>::who, "who", book,
                 "one regular with two orders: say which, \"the inn, Fridays\"");
    check_single("shock", plan.shock, &Shock<Number>::name, "name", book);
    check_single("family_date", plan.family_date, &FamilyDate::name, "name", book);
    check_single("asset", plan.asset, &Asset<Number>::name, "name", book);
    check_single("choice", plan.choice, &Choice::name, "name", book);
    check_single("stress", plan.stress, &Stress::name, "name", book);
    check_no_year("boat", plan.boat, &Boat<Number>::name, "name", book);
    check_goods_single(plan, book);
    for (std::size_t n = 0; n < plan.loan.size(); ++n) check_at_most(numbered("loan", n) + ".repay", plan.loan[n].repay.size(), 50, book);
    for (std::size_t b = 0; b < plan.boat.size(); ++b) check_boat(numbered("boat", b), plan.boat[b], book);
}

}  // namespace seasonrisk
