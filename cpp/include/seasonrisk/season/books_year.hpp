// SPDX-License-Identifier: MIT
#pragma once

#include <chrono>

#include "seasonrisk/season/calendar.hpp"

/// \file
/// The months of a money year.
namespace seasonrisk {

/// Months of the account this year: the first, and the calendar month (1 = January) it is.
struct BooksYear {
    std::size_t first = 0;
    unsigned books_month = 1;
    int year = 0;
    std::chrono::year_month_day books_start{};

    std::size_t month(unsigned calendar_month) const { return first + (calendar_month + 12u - books_month) % 12u; }
    /// Month of the history, 0 first, in which a date falls; below 0 or past the last when it is none of them.
    long month_of_history(Date date) const {
        const std::chrono::year_month_day day{date};
        const auto months_since = (day.year() / day.month() - books_start.year() / books_start.month()).count();
        return static_cast<long>(first) + static_cast<long>(months_since);
    }
};

inline BooksYear books_year(const Calendar& calendar) {
    const std::chrono::year_month_day start{calendar.books_start};
    return {static_cast<std::size_t>(calendar.first_money_month()), static_cast<unsigned>(start.month()), calendar.year, start};
}

}  // namespace seasonrisk
