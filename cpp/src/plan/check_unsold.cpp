// SPDX-License-Identifier: MIT
#include <algorithm>

#include "checks.hpp"
#include "goods.hpp"

namespace seasonrisk {
namespace {

bool are_single(std::vector<std::string> words) {
    std::ranges::sort(words);
    return std::ranges::adjacent_find(words) == words.end();
}

/// Are all goods and prices known by name? If not, a slip would be told twice: once as a name that is not known, and
/// once as a good that nobody buys.
bool can_be_compared(const Plan& plan, const std::vector<Good>& goods) {
    std::vector<std::string> priced = names_of(goods);
    for (const auto& species : plan.species) {
        if (!species.grade.empty()) priced.push_back(species.name);
    }
    const auto is_known = [&](const auto& price) { return std::ranges::find(priced, price.first) != priced.end(); };
    const auto is_sound = [&](const auto& outlet) {
        return !outlet.price.items.empty() && std::ranges::all_of(outlet.price.items, is_known);
    };
    return std::ranges::find(priced, "") == priced.end() && are_single(priced)
           && std::ranges::all_of(plan.outlet, is_sound);
}

/// Days on which boats land and the outlet is closed.
bool closes_on_landing_days(const Outlet<Number>& outlet, const Plan& plan) {
    if (outlet.open_days.empty()) return false;
    for (unsigned day = 1; day <= 7; ++day) {
        const bool rests = std::ranges::find(plan.season.rest_days, day) != plan.season.rest_days.end();
        if (!rests && std::ranges::find(outlet.open_days, day) == outlet.open_days.end()) return true;
    }
    return false;
}

/// A day's room for a good: a number for all, or one of its own.
bool has_room_for(const TotalOrEach<Number>& numbers, const std::string& good) {
    return numbers.total || std::ranges::any_of(numbers.each, [&](const auto& each) { return each.first == good; });
}

void warn_of_unsold(const Good& good, const Plan& plan, Notebook& book) {
    const bool is_ordered =
        std::ranges::any_of(plan.order, [&](const auto& order) { return order.grade == good.name; });
    const bool is_held =
        std::ranges::any_of(plan.holding, [&](const auto& holding) { return holding.grade == good.name; });
    bool is_taken = false;
    bool always_taken = false;
    for (const auto& outlet : plan.outlet) {
        if (!takes(outlet, good, plan)) continue;
        is_taken = true;
        always_taken =
            always_taken
            || (!has_room_for(outlet.daily_limit, good.name) && !has_room_for(outlet.demand_per_open_day, good.name)
                && !closes_on_landing_days(outlet, plan));
    }
    if (!is_taken)
        book.warning(plan.outlet.size() == 1 ? "outlet.0.price" : "outlet", "",
                     (plan.outlet.size() == 1 ? "has no price for " : "none of them has a price for ") + good.name
                         + (is_ordered ? ": what the orders leave is worth nothing"
                                       : ": it is worth nothing and is counted as unsold"),
                     "give it a price; 0.0 says that this is meant");
    else if (!always_taken && !is_held)
        book.warning(
            good.path + ".name", quoted(good.name),
            "may stay unsold, which is worth nothing: each outlet that takes it has a limit, a demand or closed days",
            "a [[holding]] says what becomes of the rest");
}

/// A map of demand that forgets a good sells all there is of it. (A limit that names one good limits no other.)
void warn_of_forgotten(const std::string& path, const Outlet<Number>& outlet, const Plan& plan,
                       const std::vector<Good>& goods, Notebook& book) {
    const auto& each = outlet.demand_per_open_day.each;
    std::vector<std::string> forgotten;
    for (const Good& good : goods) {
        const bool named = std::ranges::any_of(each, [&](const auto& entry) { return entry.first == good.name; });
        if (!named && takes(outlet, good, plan)) forgotten.push_back(good.name);
    }
    if (!each.empty() && !forgotten.empty())
        book.warning(path + ".demand_per_open_day", "",
                     "leaves out " + join(forgotten, ", ") + ", of which it then sells all there is");
}

}  // namespace

void check_unsold(const Plan& plan, Notebook& book) {
    const std::vector<Good> goods = goods_of(plan);
    if (plan.outlet.empty() || !can_be_compared(plan, goods)) return;  // told already
    for (const Good& good : goods) warn_of_unsold(good, plan, book);
    for (std::size_t o = 0; o < plan.outlet.size(); ++o)
        warn_of_forgotten(numbered("outlet", o), plan.outlet[o], plan, goods, book);
}

}  // namespace seasonrisk
