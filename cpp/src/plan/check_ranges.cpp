// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "checks.hpp"
#include "seasonrisk/math/spread.hpp"
#include "seasonrisk/plan/guesses.hpp"
#include "visitor.hpp"

namespace seasonrisk {
namespace {

/// Above this ratio of mean to typical a guess says more than most people mean by it.
constexpr double k_lopsided = 1.25;
constexpr std::size_t k_longest_name = 80;
constexpr std::size_t k_longest_prose = 400;
constexpr double k_one_in_thousand_z = 3.090232306;  ///< normal quantile of 0.999

/// 15 where a fraction belongs, or 3 where a year's growth does: most likely a percentage.
std::string percent_hint(const Rule& rule, double value) {
    const bool is_fraction = rule.scale == Scale::between && rule.highest == 1.0;
    const bool is_growth = rule.lowest == -1.0 && rule.lowest_open && rule.scale == Scale::above_bound;
    return (is_fraction || is_growth) && value >= 2.0 && value <= 100.0 ? did_you_mean(number_text(value / 100.0)) : "";
}

bool within(const Rule& rule, double value) {
    const bool above = rule.lowest_open ? value > rule.lowest : value >= rule.lowest;
    const bool below = rule.highest_open ? value < rule.highest : value <= rule.highest;
    return std::isfinite(value) && above && below && (!rule.whole || value == std::floor(value));
}

/// Is the value inside the range at all, so that only the end itself is in question?
bool reaches_lowest(const Rule& rule, double value) {
    return (rule.scale == Scale::above_bound || rule.scale == Scale::between) && value <= rule.lowest;
}
bool reaches_highest(const Rule& rule, double value) { return rule.scale == Scale::between && value >= rule.highest; }

std::size_t letters_of(const std::string& text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
}

class RangeCheck : public PathVisitor<RangeCheck> {
public:
    explicit RangeCheck(Notebook& book) : book_(book) {}

    void text(const char* key, const std::string& value, Need need, const char*) {
        check_text(path_of(key), value, need);
    }
    void prose(const char* key, const std::string& value, Need need, const char*) {
        std::string on_one_line = value;  // a text of several sentences may have several lines
        std::ranges::replace_if(on_one_line, [](char c) { return c == '\n' || c == '\r'; }, ' ');
        check_text(path_of(key), on_one_line, need, k_longest_prose);
    }
    void sources(const char* key, const std::vector<Source>& sources) {
        for (const Source& source : sources) check_text(path_of(key) + "." + source.path + ".where", source.where, Need::optional);
    }
    void whole(const char* key, const std::optional<int>& value, int lowest, int highest, const char* meaning) {
        if (value) whole(key, *value, lowest, highest, Need::optional, meaning);
    }
    void whole(const char* key, int value, int lowest, int highest, Need, const char* meaning) {
        if (value >= lowest && value <= highest) return;
        const std::string path = path_of(key);
        const std::string allowed = lowest == highest
                                        ? std::to_string(lowest)
                                        : "from " + std::to_string(lowest) + " to " + std::to_string(highest);
        book_.error(path, std::to_string(value), "must be " + allowed + " (" + meaning + ")");
    }
    void size(const char* key, const EventSize& size, const Rule& rule, Need) {
        if (size.is_spread)
            check_spread(path_of(key), Number(size.low, size.typical, size.high), rule);
        else
            check_known(path_of(key), size.typical, rule);
    }
    void days_off(const char* key, const std::vector<DayOff>& off_days) {
        for (std::size_t n = 0; n < off_days.size(); ++n)
            check_text(numbered(path_of(key), n) + ".why", off_days[n].why, Need::optional);
    }
    void day_costs(const char* key, const std::vector<NamedAmount<Number>>& costs, const Rule&) {
        for (std::size_t n = 0; n < costs.size(); ++n)
            check_text(numbered(path_of(key), n) + ".name", costs[n].name, Need::required);
    }

    void check_entry(const PlanEntry& entry) {
        if (!entry.number.is_guess)
            check_known(entry.path, entry.number.typical, entry.rule);
        else if (check_spread(entry.path, entry.number, entry.rule) && check_reach(entry))
            warn_if_lopsided(entry);
    }

private:
    void check_text(const std::string& path, const std::string& value, Need need, std::size_t longest = k_longest_name) {
        const auto is_control = [](char c) { return (c >= 0 && c < 0x20) || c == 0x7f; };
        if (need == Need::required && value.find_first_not_of(' ') == std::string::npos)
            book_.error(path, "", "must not be empty");
        if (letters_of(value) > longest)
            book_.error(path, "", "must be no longer than " + std::to_string(longest) + " letters, and has " + std::to_string(letters_of(value)));
        if (std::ranges::any_of(value, is_control))
            book_.error(path, "", "must be on one line, without control characters");
    }

    void check_known(const std::string& path, double value, const Rule& rule) {
        if (!within(rule, value)) book_.error(path, number_text(value), allowed_text(rule), percent_hint(rule, value));
    }

    bool check_spread(const std::string& path, const Number& spread, const Rule& rule) {
        const std::pair<const char*, double> points[3] = {
            {".low", spread.low}, {".typical", spread.typical}, {".high", spread.high}};
        const std::size_t before = book_.findings.size();
        for (const auto& [name, value] : points) check_known(path + name, value, rule);
        if (book_.findings.size() > before) return false;

        const std::string written = "{ low = " + number_text(spread.low) + ", typical = " + number_text(spread.typical)
                                    + ", high = " + number_text(spread.high) + " }";
        const std::string way_out =
            "a guess never reaches the end of its range: give a value seen 1 time in 10, or one number instead";
        if (spread.low > spread.typical || spread.typical > spread.high) {
            book_.error(path, written, "must rise from low to typical to high",
                        "low is the 1-in-10 low, high the 1-in-10 high");
        } else if (spread.low == spread.high) {
            book_.error(path, written, "has the same low and high",
                        "write the one number alone: " + number_text(spread.typical));
        } else if (reaches_lowest(rule, spread.low)) {
            book_.error(path + ".low", number_text(spread.low), "must be above " + number_text(rule.lowest), way_out);
        } else if (reaches_highest(rule, spread.high)) {
            book_.error(path + ".high", number_text(spread.high), "must be below " + number_text(rule.highest),
                        way_out);
        }
        return book_.findings.size() == before;
    }

    /// A guess on one side only of a bound goes on for ever on the other; its 1 in 1,000 must still be in range.
    /// Counts may reach past any calendar: what falls after the year is simply not met.
    bool check_reach(const PlanEntry& entry) {
        if (entry.rule.scale == Scale::whole_count) return true;
        const double reached = at(spread_of(entry.number, entry.rule), k_one_in_thousand_z);
        if (reached <= entry.rule.highest) return true;
        book_.error(entry.path + ".high", number_text(entry.number.high),
                    "is so far above typical that the guess reaches " + about_text(reached) + " one time in 1,000; "
                        + allowed_text(entry.rule),
                    "bring high nearer to typical");
        return false;
    }

    void warn_if_lopsided(const PlanEntry& entry) {
        const double typical = entry.number.typical;
        const double on_average = mean(spread_of(entry.number, entry.rule));
        if (typical <= 0.0 || on_average <= k_lopsided * typical) return;
        book_.warning(entry.path, "",
                      "is lopsided: typical is " + number_text(typical) + ", but the mean is " + about_text(on_average),
                      "a high point far above typical raises the mean; lower it if that is not what you mean");
    }

    Notebook& book_;
};

}  // namespace

void check_ranges(const Plan& plan, Notebook& book) {
    RangeCheck check(book);
    Plan::fields(plan, check);
    for (const PlanEntry& entry : numbers_of(plan)) check.check_entry(entry);
}

}  // namespace seasonrisk
