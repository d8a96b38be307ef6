// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

/// \file
/// Money put by for breakdowns: what a year asks of it, and how much it must start with to last for several years.
namespace seasonrisk {

/// What the season's breakdowns ask of the reserve in one year, one value per history.
struct YearOfNeed {
    std::span<const double> repairs{};            ///< bills, and pots lost where the insurer covers gear
    std::span<const double> claims{};             ///< what the insurer pays of them; empty: nothing is paid back in time
    std::span<const double> contribution{};       ///< sales less running costs, before repairs, claims and lost pots
    std::span<const double> days_broken_down{};
    std::span<const double> days_left{};          ///< days fished, and days lost to what is looked at after breakdowns
};

/// Repairs less claims, plus the contribution lost while broken down: contribution x days_broken_down / days_left of
/// that history. A day broken down might have been lost to weather too, so it costs what a day that was not broken
/// down brought on average, weather days among them; never below 0. Where no such day is left, the mean contribution
/// of such a day over all histories stands in.
/// \throws std::invalid_argument unless all columns are of one length (claims may be empty)
std::vector<double> need_of(const YearOfNeed& year);

/// What a reserve must start with, history by history, never to be below 0: each year takes its need, then up to
/// `refill_a_year` is put back, never above the start. What is used in one year is not there in the next.
/// The largest drawdown: d <- max(0, d + need - refill), counted before each refill; it does not depend on the start.
/// \throws std::invalid_argument unless there are years, all of one length, and the refill is finite and 0 or more
std::vector<double> start_needed(const std::vector<std::span<const double>>& needs_by_year, double refill_a_year);

/// The least to put back a year, history by history, for a reserve that starts with `start`: the largest of
/// (needs of years i..j - start) / (j - i). Infinite where one year alone asks for more than the start.
/// \throws std::invalid_argument as above, for the start
std::vector<double> refill_needed(const std::vector<std::span<const double>>& needs_by_year, double start);

}  // namespace seasonrisk
