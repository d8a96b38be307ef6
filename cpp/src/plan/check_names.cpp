// SPDX-License-Identifier: MIT
#include <algorithm>
#include <set>

#include "checks.hpp"

namespace seasonrisk {
namespace {

bool knows(const std::vector<std::string>& words, const std::string& word) {
    return std::ranges::find(words, word) != words.end();
}

/// This many sections there must be, of the many there may be one day.
void check_one(const std::string& list, std::size_t count, const std::string& second, Notebook& book) {
    if (count == 0) book.error(list, "", "is missing: one [[" + list.substr(list.rfind('.') + 1) + "]] is needed");
    if (count > 1) book.not_yet(numbered(list, 1), second);
}

/// Draws are addressed by boat, purpose and item with 8 bits for the item; fewer is kinder to the eye as well.
void check_at_most(const std::string& list, std::size_t count, std::size_t most, Notebook& book) {
    if (count > most)
        book.error(list, "", "has " + std::to_string(count) + " entries; must be no more than " + std::to_string(most));
}

/// Results are told by these names, so each must be single.
template <class S>
void check_single(const std::string& list, const std::vector<S>& sections, std::string S::*name, const char* key,
                  Notebook& book) {
    std::set<std::string> seen;
    for (std::size_t n = 0; n < sections.size(); ++n) {
        const std::string& word = sections[n].*name;
        if (!word.empty() && !seen.insert(word).second)
            book.error(numbered(list, n) + "." + key, "\"" + word + "\"", "stands twice; each needs a name of its own");
    }
}

void check_boat(const std::string& path, const Boat<Number>& boat, Notebook& book) {
    check_one(path + ".fishery", boat.fishery.size(), "a second fishery", book);
    if (boat.skipper == Skipper::hired) book.not_yet(path + ".skipper", "a hired skipper");
    for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
        if (boat.fishery[f].gear == Gear::trotline)
            book.not_yet(numbered(path + ".fishery", f) + ".gear", "a trotline");
    }
    check_at_most(path + ".crew", boat.crew.size(), 20, book);
    check_at_most(path + ".breakdown", boat.breakdown.size(), 200, book);
    check_at_most(path + ".standing", boat.standing.size(), 200, book);
    check_at_most(path + ".day_costs", boat.day_costs.size(), 200, book);
    check_single(path + ".crew", boat.crew, &Crew<Number>::name, "name", book);
    check_single(path + ".breakdown", boat.breakdown, &Breakdown<Number>::kind, "kind", book);
}

void check_prices(const Plan& plan, const std::vector<std::string>& species, Notebook& book) {
    for (std::size_t o = 0; o < plan.outlet.size(); ++o) {
        const std::string path = numbered("outlet", o) + ".price";
        std::vector<std::string> priced;
        for (const auto& [name, price] : plan.outlet[o].price.items) priced.push_back(name);
        for (const std::string& name : priced) {
            if (!knows(species, name))
                book.error(path + "." + name, "", "is the price of no species of this plan",
                           did_you_mean(nearest_word(name, species)));
        }
        for (const std::string& name : species) {
            if (!knows(priced, name))
                book.error(path, "", "has no price for " + name,
                           "what nobody buys is worth nothing; write 0.0 if that is so");
        }
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
                    book.error(path, "\"" + names[n] + "\"", "is no species of this plan",
                               did_you_mean(nearest_word(names[n], species)));
                if (std::find(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(n), names[n])
                    != names.begin() + static_cast<std::ptrdiff_t>(n)) {
                    book.error(path, "\"" + names[n] + "\"", "stands twice in the list");
                }
            }
            caught.insert(caught.end(), names.begin(), names.end());
        }
    }
    for (std::size_t k = 0; k < species.size() && !caught.empty(); ++k) {
        if (!knows(caught, species[k]))
            book.error(numbered("species", k) + ".name", "\"" + species[k] + "\"", "is caught by no fishery",
                       "name it in boat.0.fishery.0.species, or leave the species out");
    }
}

}  // namespace

void check_names(const Plan& plan, Notebook& book) {
    if (plan.species.empty()) book.error("species", "", "is missing: at least one [[species]] is needed");
    check_one("outlet", plan.outlet.size(), "a second outlet", book);
    check_one("boat", plan.boat.size(), "a second boat", book);
    check_at_most("species", plan.species.size(), 60, book);
    check_at_most("standing", plan.standing.size(), 200, book);
    check_at_most("input", plan.input.size(), 200, book);
    check_at_most("loan", plan.loan.size(), 50, book);
    check_single("species", plan.species, &Species<Number>::name, "name", book);
    check_single("outlet", plan.outlet, &Outlet<Number>::name, "name", book);
    check_single("boat", plan.boat, &Boat<Number>::name, "name", book);
    check_single("choice", plan.choice, &Choice::name, "name", book);
    for (std::size_t b = 0; b < plan.boat.size(); ++b) check_boat(numbered("boat", b), plan.boat[b], book);

    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        if (plan.species[k].name.find('.') != std::string::npos)
            book.error(numbered("species", k) + ".name", "\"" + plan.species[k].name + "\"",
                       "must have no full stop in it, for prices are told by this name");
    }

    std::vector<std::string> species;
    for (const auto& each : plan.species) species.push_back(each.name);
    if (species.empty() || knows(species, "")) return;  // told already; names cannot be compared with no name
    check_prices(plan, species, book);
    check_catches(plan, species, book);
}

}  // namespace seasonrisk
