// SPDX-License-Identifier: MIT
#pragma once

#include <chrono>
#include <cstdint>

/// \file
/// Where each draw lives. Every random number of a run is a pure function of (key, address), so
/// results do not depend on threads, chunks, order, or on what is appended to a plan.
///
/// Counter words: 0 = year 8 bits | day of year 9 | index 15;  1 = purpose 8 | boat 8 | item 8 | block 8;
/// 2 = history, low 32 bits;  3 = history, next 16 bits | family 4 | inner draw 12.
/// A guess has word 0 = 0 and word 1 = the hash of its key path.
namespace seasonrisk {

/// The one table of purposes. A number is never reused, also when its purpose is gone.
enum class Purpose : std::uint32_t {
    weather_day = 1,          // word: day in its group of four; uniform
    year_weather = 2,         // W: z > 0 is a worse year
    year_catch_common = 3,    // A
    year_catch_species = 4,   // e_k, item = species
    year_price_common = 5,    // B
    year_price_species = 6,   // f_k, item = species
    year_fuel = 7,
    year_bait = 8,
    ground_day = 9,           // item = species; word: day in its group of four
    boat_day = 10,            // boat, item = species; word: day in its group of four
    price_week = 11,          // item = outlet; slot = the week's Monday
    breakdown_happens = 12,   // boat, item = kind; word: day in its group of four; uniform
    repair_size = 13,         // boat, item = kind; slot = the day
    days_lost_size = 14,      // boat, item = kind; slot = the day
    claim_accepted = 15,      // boat, item = kind; slot = the day; uniform
    gear_loss_month = 16,     // boat; slot = the month's first day
    total_loss = 17,          // boat; slot = the year; uniform
    year_grade = 18,          // item = good; slot = the year
    laid_up = 19,             // uniform
    laid_up_weeks = 20,
    skipper_gap = 21,         // boat; uniform
    skipper_gap_weeks = 22,   // boat
    owner_day = 23,           // boat; uniform
    no_show = 24,             // boat, item = hand; uniform
    shock = 25,               // item = shock; slot = the year; uniform
    die_off = 26,             // item = good; uniform
    demand = 27,              // item = outlet, block = 0 or 1 + good's place; uniform
    missed_settlement = 28,   // item = outlet; slot = the week's Monday; uniform
    storm = 29,               // the harbour's; uniform
    storm_loss = 30,          // boat
    crew_leaves = 31,         // boat; slot = the year; uniform
    loan_rate = 32,           // item = loan; slot = the year
};

/// Luck and guesses, and the runs they serve, are kept apart here, so that luck can be redrawn with
/// the guesses kept (`with_luck_family`, draws.hpp).
enum class Family : std::uint32_t {
    luck = 0,
    guess = 1,
    luck_again = 2,  // other luck for the same guesses: the audit of the split into luck and guess
};
inline constexpr std::uint32_t k_families = 16;

/// The slot of a draw that belongs to a whole year rather than to a day.
inline constexpr std::uint32_t k_whole_year = 511;

/// Address of one block of four 32-bit words.
struct Address {
    std::uint32_t word0 = 0;
    std::uint32_t word1 = 0;
    std::uint32_t family = 0;
    std::uint32_t inner = 0;
    bool operator==(const Address&) const = default;
};

struct Who {
    std::uint32_t boat = 0;
    std::uint32_t item = 0;
    std::uint32_t block = 0;
};

constexpr std::uint32_t pack_purpose(Purpose purpose, Who who) {
    return static_cast<std::uint32_t>(purpose) << 24 | (who.boat & 255u) << 16 | (who.item & 255u) << 8 | (who.block & 255u);
}

/// Year and day of year as the calendar has them: another start date meets the same draws.
struct DaySlot {
    std::uint32_t year = 0;
    std::uint32_t day_of_year = 0;  ///< 0 = 1 January
    bool operator==(const DaySlot&) const = default;
};

constexpr DaySlot day_slot(std::chrono::sys_days date) {
    const std::chrono::year_month_day ymd{date};
    const std::chrono::sys_days new_year{ymd.year() / std::chrono::January / 1};
    return {static_cast<std::uint32_t>(static_cast<int>(ymd.year())) & 255u,
            static_cast<std::uint32_t>((date - new_year).count())};
}

/// Address of a draw of one day (a week: pass its Monday; a month: pass its first day).
constexpr Address on_day(DaySlot slot, Purpose purpose, Who who = {}) {
    return {slot.year << 24 | slot.day_of_year << 15, pack_purpose(purpose, who), static_cast<std::uint32_t>(Family::luck), 0};
}

/// Days of the year in one block of a daily draw: a block has four words, and days stand in groups of
/// four from 1 January, so word = day of year mod 4 and the slot is the group's first day.
constexpr std::uint32_t k_days_in_block = 4;
constexpr DaySlot group_of(DaySlot slot) { return {slot.year, slot.day_of_year & ~(k_days_in_block - 1u)}; }
constexpr std::uint32_t word_of(DaySlot slot) { return slot.day_of_year & (k_days_in_block - 1u); }

/// Address of a draw of a whole year; the year is the calendar year in which the season starts.
constexpr Address in_year(int year, Purpose purpose, Who who = {}) {
    return {(static_cast<std::uint32_t>(year) & 255u) << 24 | k_whole_year << 15, pack_purpose(purpose, who), static_cast<std::uint32_t>(Family::luck), 0};
}

/// Address of a guess, by the hash of its key path.
constexpr Address of_guess(std::uint32_t path_hash) {
    return {0, path_hash, static_cast<std::uint32_t>(Family::guess), 0};
}

}  // namespace seasonrisk
