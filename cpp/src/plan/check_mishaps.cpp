// SPDX-License-Identifier: MIT
#include <algorithm>

#include "checks.hpp"
#include "dates.hpp"

// Odds without a size are told; a size whose odds are 0 is not, for a choice may turn it on.
namespace seasonrisk {
namespace {

void check_wear(const std::string& path, const Breakdown<Number>& breakdown, Notebook& book) {
    // Below this the rate cannot be told in hours, and powers of it lose their digits.
    constexpr double fewest_hours = 1.0;
    if (!is_used(breakdown.wear_shape, 1.0)) return;
    if (!breakdown.wear_reference_hours)
        book.error(path + ".wear_reference_hours", "",
                   "is missing beside wear_shape: at how many hours does per_100_days hold?");
    else if (const double low = lowest_of(*breakdown.wear_reference_hours); low > 0.0 && low < fewest_hours)
        book.error(path + ".wear_reference_hours", number_text(low), "must be 1 hour or more");
    // (hours / reference)^(shape - 1) has no value at 0 hours when the shape is below 1.
    if (lowest_of(breakdown.wear_shape) < 1.0 && lowest_of(breakdown.wear_shape) > 0.0) {
        if (breakdown.resets_hours)
            book.error(path + ".resets_hours", "true",
                       "does not go with a wear_shape below 1: what is new would break at once");
        else if (lowest_of(breakdown.hours) <= 0.0)
            book.error(path + ".hours", value_text(breakdown.hours),
                       "must be above 0 where wear_shape is below 1: what is new would break at once");
    }
}

void check_breakdowns(const std::string& path, const Boat<Number>& boat, Notebook& book) {
    for (std::size_t n = 0; n < boat.breakdown.size(); ++n) {
        const std::string at = numbered(path + ".breakdown", n);
        check_wear(at, boat.breakdown[n], book);
        const double odds = boat.breakdown[n].claimable_odds.typical;
        if (odds > 0.0 && !boat.insurance)
            book.warning(at + ".claimable_odds", number_text(odds), "pays nothing: the boat has no [boat.insurance]");
    }
    const auto wears = [](const auto& breakdown) { return is_used(breakdown.wear_shape, 1.0); };
    const auto worn = std::ranges::find_if(boat.breakdown, wears);
    if (worn != boat.breakdown.end() && !is_used(boat.hours_per_day))
        book.error(path + ".hours_per_day", "",
                   "must be above 0, for breakdowns of kind " + worn->kind + " come with hours");
}

/// A storm strikes on days of bad weather: without any it could never come as often as the plan says.
bool has_bad_weather(const Boat<Number>& boat, const Plan& plan) {
    const auto& fractions = plan.weather.unfishable_fraction.by_month;
    const bool any_month = std::ranges::any_of(fractions, [](const auto& month) { return month.has_value(); });
    if (!has_walkable_season(plan) || !any_month) return true;  // told already
    const Span season = season_of(plan);
    for (const auto& fishery : boat.fishery) {
        const Span span = days_of(fishery, plan);
        if (fishery.gear == Gear::trotline || !season.contains(span)) continue;
        for (Date date = span.first; date <= span.last; date += std::chrono::days{1}) {
            const unsigned month = static_cast<unsigned>(std::chrono::year_month_day{date}.month()) - 1;
            for (unsigned back = 0; back < 12; ++back) {
                const auto& fraction = fractions[(month + 12 - back) % 12];
                if (!fraction) continue;
                if (is_used(*fraction)) return true;
                break;
            }
        }
    }
    return false;
}

void check_storms(const std::string& path, const Boat<Number>& boat, const Plan& plan, Notebook& book) {
    const bool any_pots =
        std::ranges::any_of(boat.fishery, [](const auto& fishery) { return fishery.gear == Gear::pots; });
    const bool storms = boat.gear_loss && is_used(boat.gear_loss->storm_odds_per_season);
    if (boat.gear_loss) {
        const auto& loss = *boat.gear_loss;
        const std::string at = path + ".gear_loss";
        if (!any_pots && !boat.fishery.empty())
            book.warning(at, "", "loses nothing: the boat has no pots");
        else if (storms && !is_used(loss.storm_loss_fraction))
            book.error(at + ".storm_loss_fraction", "",
                       "is missing beside storm_odds_per_season: what part of the pots does such a storm take?");
        else if (storms && !has_bad_weather(boat, plan))
            book.error(at + ".storm_odds_per_season", value_text(loss.storm_odds_per_season),
                       "cannot be met: storms come on days of bad weather, and weather.unfishable_fraction is 0 while "
                       "the pots are out");
    }
    if (!boat.insurance) return;
    const auto& policy = *boat.insurance;
    const std::string at = path + ".insurance";
    if (policy.gear_covered && !(storms && any_pots))
        book.warning(at + ".gear_covered", "true", "pays nothing: no storm takes gear of this boat",
                     "give storm_odds_per_season and storm_loss_fraction in [boat.gear_loss]");
    if (policy.gear_covered && is_used(policy.storm_deductible_fraction) && !is_used(policy.hull_value))
        book.warning(at + ".storm_deductible_fraction", value_text(policy.storm_deductible_fraction),
                     "is a part of hull_value, which is 0");
}

void check_skipper(const std::string& path, const Boat<Number>& boat, bool owner_has_boat, Notebook& book) {
    const std::string weeks = path + ".skipper_gap_weeks";
    const bool has_odds = is_used(boat.skipper_gap_odds_per_year);
    const bool has_weeks = is_used(boat.skipper_gap_weeks);
    if (boat.skipper == Skipper::owner) {
        // Told of the skipper, so that a misspelt word for him is told alone.
        if (has_odds || has_weeks)
            book.error(path + ".skipper", "\"owner\"",
                       std::string("does not go with ") + (has_odds ? "skipper_gap_odds_per_year" : "skipper_gap_weeks")
                           + ", which is of a hired skipper",
                       "a spell without the owner is told in [skipper]; or write skipper = \"hired\"");
    } else {
        if (has_odds && !has_weeks)
            book.error(weeks, "", "is missing beside skipper_gap_odds_per_year: for how many weeks?");
        if (boat.crew.empty())
            book.warning(path + ".skipper", "\"hired\"", "is paid nothing: the boat has no [[boat.crew]]",
                         "a hired skipper is paid as one of the crew");
    }
    const std::pair<std::string, const Number*> taken[] = {
        {"owner_days_per_month", &boat.owner_days_per_month},
        {"owner_days_per_breakdown", &boat.owner_days_per_breakdown}};
    for (const auto& [key, days] : taken) {
        if (!is_used(*days)) continue;
        if (!owner_has_boat)
            book.warning(path + "." + key, value_text(*days),
                         "takes the owner off no boat: none has skipper = \"owner\"");
        else if (boat.skipper == Skipper::owner)
            book.warning(path + ".skipper", "\"owner\"", "is taken off this boat too by its own " + key,
                         "that is meant for a boat with a hired skipper");
    }
}

}  // namespace

void check_mishaps(const Plan& plan, Notebook& book) {
    const bool owner_has_boat =
        std::ranges::any_of(plan.boat, [](const auto& boat) { return boat.skipper == Skipper::owner; });
    for (std::size_t b = 0; b < plan.boat.size(); ++b) {
        const std::string path = numbered("boat", b);
        check_breakdowns(path, plan.boat[b], book);
        check_storms(path, plan.boat[b], plan, book);
        check_skipper(path, plan.boat[b], owner_has_boat, book);
    }
    if (plan.skipper && !owner_has_boat && !plan.boat.empty())
        book.warning("skipper", "", "stops no boat: none has skipper = \"owner\"");
    if (plan.skipper && is_used(plan.skipper->laid_up_odds_per_season) && !is_used(plan.skipper->weeks_lost))
        book.warning("skipper.weeks_lost", "0", "is no week at all: being laid up costs nothing");
}

}  // namespace seasonrisk
