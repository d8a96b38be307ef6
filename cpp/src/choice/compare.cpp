// SPDX-License-Identifier: MIT
#include "seasonrisk/choice/compare.hpp"

#include <algorithm>
#include <stdexcept>

#include "seasonrisk/summary/difference.hpp"
#include "seasonrisk/summary/summary.hpp"

namespace seasonrisk {
namespace {

constexpr std::string_view k_rungs[] = {"running", "standing", "loan", "household", "cash_room"};

/// Empty when the column was not kept.
std::span<const double> column_of(const NamedColumns& columns, std::string_view name) {
    const auto found = std::ranges::find(columns, name, [](const auto& column) { return std::string_view(column.first); });
    return found == columns.end() ? std::span<const double>{} : found->second;
}

/// The loan rung year by year: "loan.2027", "loan.2028", ... A loan of the plan may have a column "loan." too, but no
/// name of four digits.
std::vector<std::span<const double>> loan_by_year(const NamedColumns& columns) {
    std::vector<std::span<const double>> years;
    for (const auto& [name, values] : columns) {
        const bool is_year = name.size() == 9 && name.starts_with("loan.") && std::ranges::all_of(name.substr(5), [](char c) { return c >= '0' && c <= '9'; });
        if (is_year) years.push_back(values);
    }
    return years;
}

bool are_constant(const std::vector<std::span<const double>>& years) {
    return std::ranges::all_of(years, [](std::span<const double> year) { return std::ranges::all_of(year, [&](double value) { return value == year.front(); }); });
}

std::optional<TwoBadYears> compare_two_bad_years(const NamedColumns& base, const NamedColumns& choice) {
    const auto of_base = loan_by_year(base);
    const auto of_choice = loan_by_year(choice);
    if (of_base.size() < 2 || of_base.size() != of_choice.size()) return std::nullopt;
    const std::vector<double> base_twice = missed_twice(of_base);
    const std::vector<double> choice_twice = missed_twice(of_choice);
    TwoBadYears found{chance(base_twice, 1.0), chance(choice_twice, 1.0), chance_difference(base_twice, choice_twice, 1.0)};
    // Equal noughts and ones are exact only where the money behind them is: two bad years that none has had can be luck.
    found.base.exact = are_constant(of_base);
    found.choice.exact = are_constant(of_choice);
    if (found.difference.exact && !std::ranges::equal(of_base, of_choice, [](auto a, auto b) { return std::ranges::equal(a, b); })) {
        const double none_seen = 3.0 / static_cast<double>(base_twice.size());
        found.difference = {found.difference.value, 0.0, -none_seen, none_seen, base_twice.size(), false};
    }
    return found;
}

std::vector<std::pair<std::string, Estimate>> compare_steps(const NamedColumns& base, const NamedColumns& choice) {
    std::vector<std::pair<std::string, Estimate>> steps;
    for (const MoneyStep& step : k_money_steps) {
        const auto without = column_of(base, step.column);
        const auto with = column_of(choice, step.column);
        if (without.empty() || with.empty()) return {};
        // What a step takes is compared the other way round, so that every row counts as it stands.
        steps.emplace_back(step.column, step.sign > 0.0 ? mean_difference(without, with) : mean_difference(with, without));
    }
    return steps;
}

NamedColumns columns_of_run(const Outcomes& run) {
    NamedColumns columns;
    for (const ColumnInfo& info : run.columns()) columns.emplace_back(info.name, run.column(info.name));
    return columns;
}

}  // namespace

std::vector<double> missed_twice(const std::vector<std::span<const double>>& by_year) {
    if (by_year.empty()) throw std::invalid_argument("by_year: has no years");
    std::vector<double> is_it(by_year.front().size(), 0.0);
    for (const std::span<const double> year : by_year) {
        if (year.size() != is_it.size()) throw std::invalid_argument("by_year: the years differ in length");
    }
    for (std::size_t y = 1; y < by_year.size(); ++y) {
        for (std::size_t i = 0; i < is_it.size(); ++i) is_it[i] = by_year[y - 1][i] < 0.0 && by_year[y][i] < 0.0 ? 1.0 : is_it[i];
    }
    return is_it;
}

RungChange compare_rung(std::span<const double> base, std::span<const double> choice) {
    RungChange change;
    change.base_chance = chance(base);
    change.choice_chance = chance(choice);
    change.mean = mean_difference(base, choice);
    change.chance = chance_difference(base, choice);
    change.gained = chance_gained(base, choice);
    change.lost = chance_lost(base, choice);
    change.better = better_share(base, choice);
    change.worse = better_share(choice, base);
    constexpr double levels[] = {0.1, 0.5, 0.9};
    const std::vector<Estimate> quantiles = quantile_differences(base, choice, levels);
    change.bad = quantiles[0];
    change.middling = quantiles[1];
    change.good = quantiles[2];
    change.worst_tenth = worst_share_difference(base, choice);
    return change;
}

Comparison compare(const NamedColumns& base, const NamedColumns& choice) {
    Comparison comparison;
    for (const std::string_view rung : k_rungs) {
        const auto without = column_of(base, rung);
        const auto with = column_of(choice, rung);
        if (!without.empty() && !with.empty()) comparison.rungs.emplace_back(rung, compare_rung(without, with));
    }
    const auto without = column_of(base, "end_position");
    const auto with = column_of(choice, "end_position");
    if (!without.empty() && !with.empty()) comparison.end_position = mean_difference(without, with);
    comparison.two_bad_years = compare_two_bad_years(base, choice);
    comparison.steps = compare_steps(base, choice);
    return comparison;
}

Comparison compare(const Outcomes& base, const Outcomes& choice) {
    if (base.key != choice.key || base.histories() != choice.histories()) {
        throw std::invalid_argument("the two runs have different keys or histories: only the same luck can be compared; simulate both with one key");
    }
    return compare(columns_of_run(base), columns_of_run(choice));
}

}  // namespace seasonrisk
