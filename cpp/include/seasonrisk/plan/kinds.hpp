// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "seasonrisk/plan/number.hpp"
#include "seasonrisk/plan/rules.hpp"

/// \file
/// The kinds of value a plan holds beside plain numbers.
namespace seasonrisk {

/// The same date `years` later; of 29 February the 28th where there is none.
Date years_later(Date date, int years);

enum class Need { optional, required };

/// How a hand is paid; what comes off before the share is said in the name.
enum class PayKind { share_of_sales, share_after_bait_and_fuel, day_wage };
inline constexpr const char* k_pay_words[] = {"share of sales", "share after bait and fuel", "day wage"};

enum class ReplaceWhen { at_once, next_season };
inline constexpr const char* k_replace_words[] = {"at once", "next season"};

enum class Skipper { owner, hired };
inline constexpr const char* k_skipper_words[] = {"owner", "hired"};

enum class Gear { pots, trotline };
inline constexpr const char* k_gear_words[] = {"pots", "trotline"};

enum class LoanPay { monthly };
inline constexpr const char* k_loan_pay_words[] = {"monthly"};

enum class Per { day, week, month, season };
inline constexpr const char* k_per_words[] = {"day", "week", "month", "season"};

enum class Over { stop, lease };
inline constexpr const char* k_over_words[] = {"stop", "lease"};

/// What is supposed to happen for certain.
enum class Event { closure, breakdown, no_skipper, bad_catch };
inline constexpr const char* k_event_words[] = {"closure", "breakdown", "no skipper", "bad catch"};

/// Where a number of the plan came from.
enum class Origin { own_record, owners_estimate, published, by_default };
inline constexpr const char* k_origin_words[] = {"own record", "owner's estimate", "published", "default"};

/// A run of days on which nobody means to fish.
struct DayOff {
    Date from{};
    Date to{};  ///< included
    std::string why{};
    bool operator==(const DayOff&) const = default;
};

template <class N>
struct NamedAmount {
    std::string name{};
    N amount{};
    bool operator==(const NamedAmount&) const = default;
};

/// One number for all together, or one for each name (a buyer's limit).
template <class N>
struct TotalOrEach {
    std::optional<N> total{};
    std::vector<std::pair<std::string, N>> each{};
    bool empty() const { return !total && each.empty(); }
    bool operator==(const TotalOrEach&) const = default;
};

}  // namespace seasonrisk
