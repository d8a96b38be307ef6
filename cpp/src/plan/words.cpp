// SPDX-License-Identifier: MIT
#include "words.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>

#include "seasonrisk/plan/rules.hpp"

namespace seasonrisk {
namespace {

std::string lower(std::string_view text) {
    std::string out(text);
    std::ranges::transform(out, out.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
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

std::string padded(unsigned number) {
    std::string text = std::to_string(number);
    return text.size() < 2 ? text.insert(0, 1, '0') : text;
}

}  // namespace

std::string number_text(double value) {
    char buffer[64];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value).ptr;
    return {buffer, end};
}

std::string date_text(Date date) {
    const std::chrono::year_month_day ymd{date};
    return std::to_string(static_cast<int>(ymd.year())) + "-" + padded(static_cast<unsigned>(ymd.month())) + "-" + padded(static_cast<unsigned>(ymd.day()));
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

unsigned month_of_word(std::string_view word) {
    for (unsigned m = 0; m < 12; ++m) if (word == k_month_words[m]) return m + 1;
    return 0;
}

unsigned weekday_of_word(std::string_view word) {
    for (unsigned d = 0; d < 7; ++d) if (word == k_weekday_words[d]) return d + 1;
    return 0;
}

std::string meant_month(std::string_view written) {
    const std::string start = lower(written.substr(0, 3));
    return month_of_word(start) != 0 ? start : "";
}

std::string meant_weekday(std::string_view written) {
    const std::string start = lower(written.substr(0, 3));
    for (const char* word : k_weekday_words) if (start.size() == 3 && start == lower(word).substr(0, 3)) return word;
    return "";
}

std::string allowed_text(const Rule& rule) {
    const std::string unit = *rule.unit == '\0' ? "" : std::string(" (") + rule.unit + ")";
    const std::string low = number_text(rule.lowest);
    const std::string high = number_text(rule.highest);
    if (rule.highest >= rules::k_most) {
        if (rule.lowest <= -rules::k_most) return "must be a number no larger than a thousand million" + unit;
        const std::string from = rule.lowest_open ? "above " + low : low + " or more";
        return "must be " + from + ", and no more than a thousand million" + unit;
    }
    const std::string from = rule.lowest_open ? "above " + low : "from " + low;
    const std::string to = rule.highest_open ? " and below " + high : " to " + high;
    return "must be " + std::string(rule.whole ? "a whole number " : "") + from + to + unit;
}

std::string join(const std::vector<std::string>& words, const char* between) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : between) + word;
    return text;
}

}  // namespace seasonrisk
