// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace seasonrisk {

/// A calendar day. Dates only: no time of day, no time zone.
using Date = std::chrono::sys_days;

/// A number of the plan: known (`typical` alone) or a guess (1-in-10 low, middle, 1-in-10 high).
struct Number {
    double typical = 0.0;
    double low = 0.0;   ///< meaningful only when `is_guess`
    double high = 0.0;  ///< meaningful only when `is_guess`
    bool is_guess = false;

    Number() = default;
    Number(double known) : typical(known) {}  // NOLINT: a plain number is the usual case
    Number(double low_, double typical_, double high_)
        : typical(typical_), low(low_), high(high_), is_guess(true) {}
    bool operator==(const Number&) const = default;
};

/// The size of one event (a repair bill, days lost): fixed, or spread anew at each event.
/// Never a guess: guesses are drawn once a history, sizes once an event.
struct EventSize {
    double typical = 0.0;
    double low = 0.0;   ///< meaningful only when `is_spread`
    double high = 0.0;  ///< meaningful only when `is_spread`
    bool is_spread = false;
    bool operator==(const EventSize&) const = default;
};

/// A value by month (index 0 = January); a month left out is empty.
template <class N>
struct Months {
    std::array<std::optional<N>, 12> by_month{};
    bool one_for_all = false;  ///< written as one value: every month holds it, and a guess is drawn once
    bool operator==(const Months&) const = default;
};

/// A value by name, in the order of the plan (a price per species).
template <class N>
struct ByName {
    std::vector<std::pair<std::string, N>> items{};
    bool operator==(const ByName&) const = default;
};

/// Which scale a spread is bent on; it follows the allowed range of the key.
enum class Scale {
    plain,         ///< any value
    above_bound,   ///< log(x - low bound)
    between,       ///< logit of (x - low bound) / (high bound - low bound)
    whole_count,   ///< log(1 + x), rounded half up, never below 0: days and weeks
};

/// Allowed range, unit and meaning of one key: what the rule book says about it.
struct Rule {
    double lowest = 0.0;         ///< a fixed value may equal it unless `lowest_open`
    double highest = 0.0;        ///< a fixed value may equal it unless `highest_open`
    bool lowest_open = false;
    bool highest_open = false;
    Scale scale = Scale::plain;
    const char* unit = "";       ///< in words; "money" is the plan's money
    const char* meaning = "";    ///< one line, for messages, describe and the reference
    bool whole = false;          ///< must be a whole number
};

}  // namespace seasonrisk
