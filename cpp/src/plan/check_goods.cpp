// SPDX-License-Identifier: MIT
#include "goods.hpp"

#include <algorithm>

#include "checks.hpp"

namespace seasonrisk {
namespace {

bool knows(const std::vector<std::string>& words, const std::string& word) {
    return std::ranges::find(words, word) != words.end();
}

/// The names a plan speaks of, worked out once.
struct Names {
    std::vector<Good> goods{};
    std::vector<std::string> good{};
    std::vector<std::string> species{};
    std::vector<std::string> priced{};  ///< what a price can be of: goods, and species that have grades
    std::vector<std::string> outlet{};
};

Names names_in(const Plan& plan) {
    Names names;
    names.goods = goods_of(plan);
    names.good = names_of(names.goods);
    names.priced = names.good;
    for (const auto& species : plan.species) {
        names.species.push_back(species.name);
        if (!species.grade.empty()) names.priced.push_back(species.name);
    }
    for (const auto& outlet : plan.outlet) names.outlet.push_back(outlet.name);
    return names;
}

/// Something is promised, kept or limited by the name of a good: a species that has grades is not one.
void check_good(const std::string& path, const std::string& name, const Plan& plan, const Names& names,
                Notebook& book) {
    if (name.empty() || knows(names.good, name)) return;
    const auto species = std::ranges::find(plan.species, name, &Species<Number>::name);
    if (species == plan.species.end()) {
        book.error(path, quoted(name), "is no species or grade of this plan",
                   did_you_mean(nearest_word(name, names.good)));
        return;
    }
    std::vector<std::string> grades;
    for (const auto& grade : species->grade) grades.push_back(grade.name);
    book.error(path, quoted(name), "is sold by its grades", "name one of them: " + join(grades, ", "));
}

/// Limits and demand of each good: only of what the outlet takes.
void check_map(const std::string& path, const TotalOrEach<Number>& numbers, const Outlet<Number>& outlet,
               const Plan& plan, const Names& names, Notebook& book) {
    for (const auto& [name, number] : numbers.each) {
        const auto good = std::ranges::find(names.goods, name, &Good::name);
        if (good == names.goods.end())
            check_good(path + "." + name, name, plan, names, book);
        else if (!takes(outlet, *good, plan))
            book.error(path + "." + name, value_text(number),
                       "is of no use: " + outlet.name + " has no price for " + name,
                       "give it a price there, or leave it out");
    }
}

void check_price_names(const Plan& plan, const Names& names, Notebook& book) {
    for (std::size_t o = 0; o < plan.outlet.size(); ++o) {
        const auto& outlet = plan.outlet[o];
        const std::string path = numbered("outlet", o);
        if (outlet.price.items.empty()) {
            book.error(path + ".price", "",
                       "must name at least one species or grade, such as { "
                           + (names.priced.empty() ? "crab" : names.priced[0]) + " = 2.70 }");
        }
        for (const auto& [name, price] : outlet.price.items) {
            if (!knows(names.priced, name)) {
                book.error(path + ".price." + name, value_text(price),
                           "is the price of no species or grade of this plan",
                           did_you_mean(nearest_word(name, names.priced)));
            }
            const auto species = std::ranges::find(plan.species, name, &Species<Number>::name);
            if (species == plan.species.end() || species->grade.empty()) continue;
            const bool all_priced = std::ranges::all_of(species->grade, [&](const auto& grade) {
                return std::ranges::any_of(outlet.price.items,
                                           [&](const auto& other) { return other.first == grade.name; });
            });
            if (all_priced)
                book.warning(path + ".price." + name, value_text(price),
                             "is never asked: each grade of " + name + " has a price of its own here");
        }
        check_map(path + ".daily_limit", outlet.daily_limit, outlet, plan, names, book);
        check_map(path + ".demand_per_open_day", outlet.demand_per_open_day, outlet, plan, names, book);
    }
}

void check_catches(const Plan& plan, const std::vector<std::string>& species, Notebook& book) {
    std::vector<std::string> caught;
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        for (std::size_t f = 0; f < plan.boat[b].fishery.size(); ++f) {
            const std::string path = numbered(numbered("boat", b) + ".fishery", f) + ".species";
            const std::vector<std::string>& names = plan.boat[b].fishery[f].species;
            if (names.empty()) book.error(path, "", "must name at least one species");
            for (std::size_t n = 0; n < names.size(); ++n) {
                if (!knows(species, names[n]))
                    book.error(path, quoted(names[n]), "is no species of this plan",
                               did_you_mean(nearest_word(names[n], species)));
                if (std::find(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(n), names[n])
                    != names.begin() + static_cast<std::ptrdiff_t>(n)) {
                    book.error(path, quoted(names[n]), "stands twice in the list");
                }
            }
            caught.insert(caught.end(), names.begin(), names.end());
        }
    }
    const bool all_known = std::ranges::all_of(caught, [&](const std::string& name) { return knows(species, name); });
    for (std::size_t k = 0; k < species.size() && !caught.empty(); ++k) {
        const bool is_meant = !all_known && std::ranges::any_of(caught, [&](const std::string& name) {
            return !knows(species, name) && nearest_word(name, species) == species[k];
        });
        if (!knows(caught, species[k]) && !is_meant)
            book.error(numbered("species", k) + ".name", quoted(species[k]), "is caught by no fishery",
                       "name it in boat.0.fishery.0.species, or leave the species out");
    }
}

void check_limits_and_orders(const Plan& plan, const Names& names, Notebook& book) {
    for (std::size_t n = 0; n < plan.limit.size(); ++n) {
        const std::string& name = plan.limit[n].species;
        if (name.empty() || knows(names.species, name)) continue;
        const auto grade = std::ranges::find(names.goods, name, &Good::name);
        book.error(
            numbered("limit", n) + ".species", quoted(name),
            grade == names.goods.end() ? "is no species of this plan" : "is a grade; a limit is on a whole species",
            did_you_mean(grade == names.goods.end() ? nearest_word(name, names.species)
                                                    : names.species[grade->species]));
    }
    for (std::size_t n = 0; n < plan.order.size(); ++n)
        check_good(numbered("order", n) + ".grade", plan.order[n].grade, plan, names, book);
}

void check_holdings(const Plan& plan, const Names& names, Notebook& book) {
    std::vector<std::string> held;
    for (std::size_t n = 0; n < plan.holding.size(); ++n) {
        const auto& holding = plan.holding[n];
        const std::string path = numbered("holding", n);
        check_good(path + ".grade", holding.grade, plan, names, book);
        if (!holding.grade.empty() && knows(held, holding.grade))
            book.error(path + ".grade", quoted(holding.grade), "is held twice; each grade has one [[holding]]");
        held.push_back(holding.grade);
        if (holding.keep_for.empty()) continue;
        const auto outlet = std::ranges::find(plan.outlet, holding.keep_for, &Outlet<Number>::name);
        const auto good = std::ranges::find(names.goods, holding.grade, &Good::name);
        if (outlet == plan.outlet.end())
            book.error(path + ".keep_for", quoted(holding.keep_for), "is no outlet of this plan",
                       did_you_mean(nearest_word(holding.keep_for, names.outlet)));
        else if (good != names.goods.end() && !outlet->price.items.empty() && !takes(*outlet, *good, plan))
            book.error(path + ".keep_for", quoted(holding.keep_for),
                       "has no price for " + holding.grade + ", which is kept for it",
                       "give it a price there, or name another outlet");
    }
}

/// What names things on a boat or ashore: parts for a kind of breakdown, what a loan is secured on.
void check_things(const Plan& plan, Notebook& book) {
    std::vector<std::string> secured;
    for (const auto& boat : plan.boat) secured.push_back(boat.name);
    for (const auto& asset : plan.asset) secured.push_back(asset.name);
    for (std::size_t n = 0; n < plan.loan.size(); ++n) {
        const std::string& name = plan.loan[n].secured_on;
        if (!name.empty() && !knows(secured, name))
            book.warning(numbered("loan", n) + ".secured_on", quoted(name), "is no boat or [[asset]] of this plan",
                         did_you_mean(nearest_word(name, secured)));
    }
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        std::vector<std::string> kinds;
        for (const auto& breakdown : plan.boat[b].breakdown) kinds.push_back(breakdown.kind);
        for (std::size_t n = 0; n < plan.boat[b].spare.size(); ++n) {
            const std::string& kind = plan.boat[b].spare[n].for_kind;
            if (!kind.empty() && !knows(kinds, kind))
                book.error(
                    numbered(numbered("boat", b) + ".spare", n) + ".for", quoted(kind),
                    "is no kind of breakdown of this boat",
                    kinds.empty() ? "the boat has no [[boat.breakdown]]" : did_you_mean(nearest_word(kind, kinds)));
        }
    }
}

}  // namespace

void check_goods(const Plan& plan, Notebook& book) {
    check_things(plan, book);
    const Names names = names_in(plan);
    // Told already: names cannot be compared with no name.
    if (names.species.empty() || knows(names.species, "") || knows(names.good, "")) return;
    check_catches(plan, names.species, book);
    check_price_names(plan, names, book);
    check_limits_and_orders(plan, names, book);
    check_holdings(plan, names, book);
}

}  // namespace seasonrisk
