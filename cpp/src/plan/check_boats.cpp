// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "checks.hpp"
#include "dates.hpp"

namespace seasonrisk {
namespace {

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
    const double most_pots = highest_of(fishery.count);
    const double fewest_hauls = lowest_of(fishery.hauls_per_day);
    if (pots <= longest_rotation_days * hauls && fewest_hauls > 0.0 && most_pots > longest_rotation_days * fewest_hauls)
        book.error(path + ".count", number_text(most_pots),
                   "at its high end must be no more than 30 days of hauls at their low end",
                   "at " + number_text(fewest_hauls) + " a day a pot would be hauled once in "
                       + about_text(most_pots / fewest_hauls) + " days");
    if (pots > longest_rotation_days * hauls) {
        book.error(
            path + ".count", number_text(pots), "must be no more than 30 days of hauls",
            "at " + number_text(hauls) + " a day a pot would be hauled once in " + about_text(pots / hauls) + " days");
    }
}

/// A trotline is run as it is: nothing is set for good, soaks, gets lost or comes in.
void check_trotline(const std::string& path, const Fishery<Number>& fishery, Notebook& book) {
    if (is_used(fishery.setting_days))
        book.error(path + ".setting_days", value_text(fishery.setting_days),
                   "has no meaning for a trotline, which is set and run each day", "leave it out");
    if (is_used(fishery.spare))
        book.error(path + ".spare", value_text(fishery.spare), "has no meaning for a trotline, which loses no pots",
                   "leave it out");
}

/// Number of the fishery that a year begins with, which the plan may name in any place; one past the last when
/// the dates cannot be compared.
std::size_t first_fishery(const Boat<Number>& boat, const Plan& plan) {
    std::size_t first = 0;
    for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
        if (!has_walkable_season(plan)) return boat.fishery.size();
        const Span span = days_of(boat.fishery[f], plan);
        if (span.last < span.first) return boat.fishery.size();
        if (span.first < days_of(boat.fishery[first], plan).first) first = f;
    }
    return first;
}

void check_gear(const std::string& path, const Boat<Number>& boat, const Plan& plan, Notebook& book) {
    const std::size_t first = first_fishery(boat, plan);
    for (std::size_t f = 0; f < boat.fishery.size(); ++f) {
        const auto& fishery = boat.fishery[f];
        const std::string at = numbered(path + ".fishery", f);
        if (fishery.gear == Gear::trotline)
            check_trotline(at, fishery, book);
        else
            check_pots(at, fishery, book);
        if (f == first && is_used(fishery.switch_cost))
            book.warning(at + ".switch_cost", value_text(fishery.switch_cost),
                         "is never paid: the first fishery of a year has none");
        if (fishery.gear == Gear::pots && is_used(fishery.spare) && !boat.gear_loss)
            book.warning(at + ".spare", value_text(fishery.spare), "is never needed: the boat has no [boat.gear_loss]");
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
        const double fraction = highest_of(hand.share_fraction.value_or(Number(0.0)));
        const bool is_fraction = fraction >= 0.0 && fraction <= 1.0;  // anything else is told by its range
        shared_at_most += is_fraction ? fraction : 0.0;
    }
    constexpr double rounding = 1e-9;  // three thirds may add up to a little more than one
    if (shared_at_most > 1.0 + rounding)
        book.error(path, "",
                   "shares out " + number_text(std::round(shared_at_most * 1e4) / 1e4)
                       + " of one sum; the fractions, guesses at their high end, must add up to no more than 1");
}

void check_absence(const std::string& path, const Crew<Number>& hand, Notebook& book) {
    const std::string alone = path + ".alone_hauls_fraction";
    if (is_used(hand.no_show_fraction) && !hand.alone_hauls_fraction)
        book.error(alone, "", "is missing beside no_show_fraction: how much is hauled without this hand?",
                   "0.7 would be 70 in 100 of the hauls; 0: the boat stays in");
    if (is_used(hand.no_show_fraction) && hand.alone_hauls_fraction && !hand.alone_hauls_fraction->is_guess
        && hand.alone_hauls_fraction->typical == 1.0)
        book.error(alone, "1", "must be below 1: a hand whose absence costs no haul need not be told of",
                   "leave out no_show_fraction");
}

}  // namespace

void check_boats(const Plan& plan, Notebook& book) {
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        const auto& boat = plan.boat[b];
        const std::string path = numbered("boat", b);
        check_gear(path, boat, plan, book);
        check_crew(path + ".crew", boat.crew, book);
        for (std::size_t c = 0; c < boat.crew.size(); ++c)
            check_absence(numbered(path + ".crew", c), boat.crew[c], book);
        if (plan.boat.size() == 1 && is_used(boat.ground_share, 1.0))
            book.warning(path + ".ground_share", value_text(boat.ground_share),
                         "does nothing: there is no other boat on the ground");
    }
}

}  // namespace seasonrisk
