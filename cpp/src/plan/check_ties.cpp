// SPDX-License-Identifier: MIT
#include <cmath>
#include <map>

#include "checks.hpp"
#include "seasonrisk/plan/guesses.hpp"

namespace seasonrisk {
namespace {

/// With different carries the year factors would not be tied as the plan says.
void check_same_carry(const std::string& list, const auto& sections, Notebook& book) {
    for (std::size_t n = 1; n < sections.size(); ++n) {
        if (sections[n].year_carry == sections[0].year_carry) continue;
        const bool left_out = sections[n].year_carry == Number(0.0);
        book.error(
            numbered(list, n) + ".year_carry", number_text(sections[n].year_carry.typical),
            "must be the same for every " + list + "; the first has " + number_text(sections[0].year_carry.typical),
            left_out ? "write it here too, also where years do not differ" : "");
    }
}

bool is_tie(double correlation) { return std::abs(correlation) < 1.0; }

/// The catch of each species is part weather, part common, part its own: the parts' squares add up to one,
/// so none may be below 0.
void check_species_tie(const Plan& plan, Notebook& book) {
    const Number& species = plan.together.species_year_correlation;
    const Number& weather = plan.together.weather_catch_correlation;
    const std::string path = "together.species_year_correlation";
    if (plan.species.size() > 1 && (species.is_guess || weather.is_guess)) {
        book.error(species.is_guess ? path : "together.weather_catch_correlation", "",
                   "must be one number when there are several species",
                   "a guess of it would reach where the species cannot be tied so");
        return;
    }
    const double least = weather.typical * weather.typical;
    if (!is_tie(species.typical) || !is_tie(weather.typical)) return;
    if (species.typical < 0.0) {
        book.error(path, number_text(species.typical), "must be 0 or more, for all species share one common part");
    } else if (plan.species.size() > 1 && species.typical < least) {
        book.error(path, number_text(species.typical),
                   "must be at least the square of weather_catch_correlation, " + about_text(least),
                   "species that all follow the weather follow each other");
    }
}

/// The hidden parts of catch and price carry over too; what the plan says must leave them room to.
void check_carries(const Plan& plan, Notebook& book) {
    if (plan.species.empty() || plan.outlet.empty()) return;
    const double r_wc = plan.together.weather_catch_correlation.typical;
    const double r_pc = plan.together.price_catch_correlation.typical;
    const double catch_carry = plan.species[0].year_carry.typical;
    const double price_carry = plan.outlet[0].year_carry.typical;
    if (!is_tie(r_wc) || !is_tie(r_pc) || !is_tie(catch_carry) || !is_tie(price_carry)) return;
    if (!is_tie(catch_carry / (1.0 - r_wc * r_wc))) {
        book.error("species.0.year_carry", number_text(catch_carry),
                   "is too large beside weather_catch_correlation = " + number_text(r_wc),
                   "must be within " + about_text(1.0 - r_wc * r_wc) + " of 0");
    }
    if (!is_tie((price_carry - r_pc * r_pc * catch_carry) / (1.0 - r_pc * r_pc))) {
        book.error("outlet.0.year_carry", number_text(price_carry),
                   "does not go with price_catch_correlation = " + number_text(r_pc)
                       + " and the species' year_carry = " + number_text(catch_carry),
                   "bring the two carries nearer to each other");
    }
}

/// Last year is told against a middling year, in steps of how much years differ.
void check_last_years(const Plan& plan, Notebook& book) {
    for (std::size_t k = 0; k < plan.species.size(); ++k) {
        const auto& species = plan.species[k];
        const std::string path = numbered("species", k) + ".last_year_fraction";
        if (!species.last_year_fraction) continue;
        const double last = species.last_year_fraction->typical;
        if (!is_used(species.year_sd))
            book.error(path, number_text(last), "says nothing while years do not differ: year_sd is 0",
                       "give year_sd, or leave it out");
        else if (last >= 5.0 || (last > 0.0 && last <= 0.05))
            book.warning(path, number_text(last), "is very far from a middling year, which is 1",
                         last >= 20.0 && last <= 300.0 ? did_you_mean(number_text(last / 100.0)) : "");
    }
}

/// A guess is drawn at the hash of its path: two with one hash would rise and fall together.
void check_addresses(const Plan& plan, Notebook& book) {
    std::map<std::uint32_t, std::string> seen;
    for (const Guess& guess : guesses_of(plan)) {
        const auto [place, is_new] = seen.emplace(guess.hash, guess.path);
        if (!is_new)
            book.error(guess.path, "", "would share its draws with " + place->second,
                       "give one of the two a single number");
    }
}

}  // namespace

void check_ties(const Plan& plan, Notebook& book) {
    check_same_carry("species", plan.species, book);
    check_same_carry("outlet", plan.outlet, book);
    check_species_tie(plan, book);
    check_carries(plan, book);
    check_last_years(plan, book);
    check_addresses(plan, book);
}

}  // namespace seasonrisk
