// SPDX-License-Identifier: MIT
#include "words.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "seasonrisk/plan/rules.hpp"

namespace seasonrisk {
namespace {

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return out;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({change, row[j] + 1, row[j - 1] + 1});
        }
    }
    return row[b.size()];
}

std::string two_digits(unsigned number) {
    std::string text = std::to_string(number);
    return number < 10 ? text.insert(0, 1, '0') : text;
}

}  // namespace

std::string number_text(double value) {
    char buffer[64];
    const bool plain_digits = value == 0.0 || (std::abs(value) >= 1e-4 && std::abs(value) < 1e15);
    const std::to_chars_result end =
        plain_digits ? std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed)
                     : std::to_chars(buffer, buffer + sizeof buffer, value);
    return {buffer, end.ptr};
}

std::string about_text(double value) {
    char buffer[64];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::scientific, 2).ptr;
    double rounded = 0.0;
    std::from_chars(buffer, end, rounded);
    return number_text(rounded);
}

std::string date_text(Date date) {
    const std::chrono::year_month_day ymd{date};
    const std::string year = std::to_string(static_cast<int>(ymd.year()));
    return std::string(year.size() < 4 ? 4 - year.size() : 0, '0') + year + "-"
           + two_digits(static_cast<unsigned>(ymd.month())) + "-" + two_digits(static_cast<unsigned>(ymd.day()));
}

std::string nearest_word(std::string_view written, const std::vector<std::string>& known) {
    constexpr std::size_t longest_compared = 80;  // a longer key is no slip of a known one
    if (written.size() > longest_compared) return "";
    std::string best;
    std::size_t best_distance = 1 + written.size() / 3;  // more wrong letters than this is another word
    for (const std::string& word : known) {
        const std::size_t distance = edit_distance(lower(written), lower(word));
        if (distance <= best_distance && (best.empty() || distance < best_distance)) {
            best = word;
            best_distance = distance;
        }
    }
    return best;
}

std::string did_you_mean(const std::string& word) { return word.empty() ? "" : "did you mean " + word + "?"; }

bool looks_like_number(const std::string& text) {
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, value);
    return read.ec == std::errc{} && read.ptr == end;
}

bool looks_like_date(std::string_view text) {
    constexpr std::string_view form = "0000-00-00";
    return std::ranges::equal(text, form, [](char c, char f) { return f == '-' ? c == '-' : c >= '0' && c <= '9'; });
}

unsigned month_of_word(std::string_view word) {
    for (unsigned m = 0; m < 12; ++m)
        if (word == k_month_words[m]) return m + 1;
    return 0;
}

unsigned weekday_of_word(std::string_view word) {
    for (unsigned d = 0; d < 7; ++d)
        if (word == k_weekday_words[d]) return d + 1;
    return 0;
}

std::string meant_month(std::string_view written) {
    const std::string start = lower(written.substr(0, 3));
    return month_of_word(start) != 0 ? start : "";
}

std::string meant_weekday(std::string_view written) {
    const std::string start = lower(written.substr(0, 3));
    for (const char* word : k_weekday_words)
        if (start.size() == 3 && start == lower(word).substr(0, 3)) return word;
    return "";
}

std::string allowed_text(const Rule& rule) {
    const std::string unit = *rule.unit == '\0' ? "" : std::string(" (") + rule.unit + ")";
    const std::string whole = rule.whole ? "a whole number " : "";
    const std::string low = number_text(rule.lowest);
    const std::string high = number_text(rule.highest);
    if (rule.lowest <= -rules::k_most) return "must be a number within a thousand million of 0" + unit;
    if (rule.highest >= rules::k_most) {
        return "must be " + whole + (rule.lowest_open ? "above " + low : low + " or more")
               + ", and no more than a thousand million" + unit;
    }
    if (!rule.lowest_open && !rule.highest_open) return "must be " + whole + "from " + low + " to " + high + unit;
    return "must be " + whole + (rule.lowest_open ? "above " + low : low + " or more") + " and "
           + (rule.highest_open ? "below " + high : "no more than " + high) + unit;
}

std::string numbered(const std::string& list, std::size_t n) { return list + "." + std::to_string(n); }

std::string join(const std::vector<std::string>& words, const char* between) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : between) + word;
    return text;
}

}  // namespace seasonrisk
