// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "seasonrisk/plan/kinds.hpp"

/// \file
/// The catch: species and their grades, ties between years, limits.
namespace seasonrisk {

/// A part of the catch that is sold by itself: soft, small, number ones.
template <class N>
struct Grade {
    std::string name{};
    N fraction{};
    N year_sd{};
    std::string sold_by{};
    N sold_units_per_unit{1.0};
    bool operator==(const Grade&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "name of the grade");
        visit.number("fraction", s.fraction, rules::fraction("of the catch", "its share of the catch; the shares of a species add up to 1"), Need::required);
        visit.number("year_sd", s.year_sd, rules::log_sd("how much its share differs from year to year"), Need::optional);
        visit.text("sold_by", s.sold_by, Need::optional, "what it is sold by, such as dozen; left out, the species' unit");
        visit.number("sold_units_per_unit", s.sold_units_per_unit, rules::positive("sold units a unit", "dozens, or whatever it is sold by, in one unit of the catch"), Need::optional);
    }
};

template <class N>
struct Species {
    std::string name{};
    std::string unit{};
    N per_haul{};
    Months<N> month_shape{};
    std::optional<N> usual_soak_nights{};
    std::optional<N> soak_time_constant_nights{};
    N year_sd{};
    N year_carry{};
    std::optional<N> last_year_fraction{};
    N day_sd{};
    N day_persistence{};
    N boat_day_sd{};
    std::vector<Grade<N>> grade{};
    bool operator==(const Species&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("name", s.name, Need::required, "what is caught");
        visit.text("unit", s.unit, Need::required, "unit it is weighed or counted in, such as kg");
        visit.number("per_haul", s.per_haul, rules::amount("units a pot-haul", "season mean catch of one pot hauled after the usual soak"), Need::required);
        visit.months("month_shape", s.month_shape, rules::amount("times the mean", "how the month compares with the season mean"), Need::optional);
        visit.number("usual_soak_nights", s.usual_soak_nights, rules::positive("nights", "soak that per_haul was recorded at"));
        visit.number("soak_time_constant_nights", s.soak_time_constant_nights, rules::positive("nights", "how slowly a pot fills: 63 in 100 of its most after this many nights"));
        visit.number("year_sd", s.year_sd, rules::log_sd("how much a year's catch differs from the middle year"), Need::optional);
        visit.number("year_carry", s.year_carry, rules::correlation("how much of this year's catch level is left next year"), Need::optional);
        visit.number("last_year_fraction", s.last_year_fraction, rules::positive("times a middling year", "how last year's catch compared with a middling year"));
        visit.number("day_sd", s.day_sd, rules::log_sd("how much a day's catch on the ground differs"), Need::optional);
        visit.number("day_persistence", s.day_persistence, rules::persistence("how strongly a day's catch follows the day before"), Need::optional);
        visit.number("boat_day_sd", s.boat_day_sd, rules::log_sd("the boat's own luck of the day"), Need::optional);
        visit.list("grade", s.grade, Need::optional);
    }
};

template <class N>
struct Together {
    N species_year_correlation{};
    N price_catch_correlation{};
    N weather_catch_correlation{};
    bool operator==(const Together&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.number("species_year_correlation", s.species_year_correlation, rules::correlation("good years of one species with good years of another"), Need::optional);
        visit.number("price_catch_correlation", s.price_catch_correlation, rules::correlation("a year of good catch with a year of good price; usually below 0"), Need::optional);
        visit.number("weather_catch_correlation", s.weather_catch_correlation, rules::correlation("a year of bad weather with a year of good catch"), Need::optional);
    }
};

/// What may be landed by the business in a period.
template <class N>
struct Limit {
    std::string species{};
    Per per = Per::season;
    N amount{};
    std::optional<Date> from{};
    std::optional<Date> to{};
    Over over = Over::stop;
    std::optional<N> lease_price{};
    bool operator==(const Limit&) const = default;

    static void fields(auto& s, auto&& visit) {
        visit.text("species", s.species, Need::required, "species it is on");
        visit.word("per", s.per, k_per_words, Need::required, "period in which it counts");
        visit.number("amount", s.amount, rules::amount("units of the species", "most that may be landed in a period"), Need::required);
        visit.date("from", s.from, Need::optional, "first day it holds; left out, the season's first");
        visit.date("to", s.to, Need::optional, "last day it holds; left out, the season's last");
        visit.word("over", s.over, k_over_words, Need::required, "at the limit: stop, or lease more");
        visit.number("lease_price", s.lease_price, rules::amount("money a unit", "cost of leasing one unit above the limit"));
    }
};

}  // namespace seasonrisk
