// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "seasonrisk/plan/number.hpp"

/// \file
/// Small pieces of text that findings are made of.
namespace seasonrisk {

inline constexpr const char* k_month_words[12] = {"jan", "feb", "mar", "apr", "may", "jun",
                                                  "jul", "aug", "sep", "oct", "nov", "dec"};
inline constexpr const char* k_weekday_words[7] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                   "Friday", "Saturday", "Sunday"};

/// How the message ends of a finding about what the design knows and the engine does not simulate.

/// The shortest decimal text that reads back as the same number, without an exponent in any money.
std::string number_text(double value);
/// The number rounded to three figures.
std::string about_text(double value);
std::string date_text(Date date);

/// The known word nearest to `written` by edit distance, if near enough to be a slip; else empty.
std::string nearest_word(std::string_view written, const std::vector<std::string>& known);

/// "did you mean X?", or empty when there is no X.
std::string did_you_mean(const std::string& word);

/// Was a number, or a date, put in quotes by mistake?
bool looks_like_number(const std::string& text);
bool looks_like_date(std::string_view text);

/// Number of the month (1 = January) of a three-letter word; 0 when it is none.
unsigned month_of_word(std::string_view word);
/// ISO number of a weekday's full English name; 0 when it is none.
unsigned weekday_of_word(std::string_view word);
/// The month word, or weekday word, that someone may have meant: "June" -> "jun", "sun" -> "Sunday"; else empty.
std::string meant_month(std::string_view written);
std::string meant_weekday(std::string_view written);

/// What a rule allows, in words with its unit: "must be from 0 to 1 (of sales)", "must be above 0 ...".
std::string allowed_text(const Rule& rule);

/// Path of entry n of a list: "boat.0".
std::string numbered(const std::string& list, std::size_t n);

std::string join(const std::vector<std::string>& words, const char* between);

}  // namespace seasonrisk
