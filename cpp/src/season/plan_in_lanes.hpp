// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <vector>

#include "seasonrisk/math/lanes.hpp"
#include "seasonrisk/plan/plan.hpp"

/// \file
/// Laying a plan down in lanes: every number once for each history of a batch.
namespace seasonrisk {

/// Walks a plan and notes every value in the order of its keys.
struct NoteValues {
    struct Noted {
        const void* value = nullptr;
        std::size_t count = 0;  ///< entries of a list; 1 or 0 for a section that is there or not
    };
    std::vector<Noted> notes{};

    void note(const auto& value) { notes.push_back({&value, 0}); }
    void number(const char*, const auto& value, auto&&...) { note(value); }
    void months(const char*, const auto& value, auto&&...) { note(value); }
    void by_name(const char*, const auto& value, auto&&...) { note(value); }
    void total_or_each(const char*, const auto& value, auto&&...) { note(value); }
    void size(const char*, const auto& value, auto&&...) { note(value); }
    void text(const char*, const auto& value, auto&&...) { note(value); }
    void prose(const char*, const auto& value, auto&&...) { note(value); }
    void sources(const char*, const auto& value) { note(value); }
    void date(const char*, const auto& value, auto&&...) { note(value); }
    void whole(const char*, const auto& value, auto&&...) { note(value); }
    void flag(const char*, const auto& value, auto&&...) { note(value); }
    void word(const char*, const auto& value, auto&&...) { note(value); }
    void texts(const char*, const auto& value, auto&&...) { note(value); }
    void weekdays(const char*, const auto& value, auto&&...) { note(value); }
    void month_list(const char*, const auto& value, auto&&...) { note(value); }
    void one_month(const char*, const auto& value, auto&&...) { note(value); }
    void days_off(const char*, const auto& value, auto&&...) { note(value); }
    void day_costs(const char*, const auto& value, auto&&...) { note(value); }
    template <class S>
    void section(const char*, const S& value, Need) { S::fields(value, *this); }
    template <class S>
    void section(const char*, const std::optional<S>& value) {
        notes.push_back({nullptr, value ? std::size_t{1} : std::size_t{0}});
        if (value) S::fields(*value, *this);
    }
    template <class S>
    void list(const char*, const std::vector<S>& values, Need) {
        notes.push_back({nullptr, values.size()});
        for (const S& value : values) S::fields(value, *this);
    }
    void changes(auto&&...) {}
};

/// Lays the noted values down in lanes, and remembers where each number of the plan went, by its path.
struct LayInLanes {
    const std::vector<NoteValues::Noted>& notes;
    std::size_t next = 0;
    std::string path{};
    std::map<std::string, std::vector<Lanes*>> places{};

    template <class T>
    const T& take() { return *static_cast<const T*>(notes[next++].value); }
    std::string key_path(const std::string& key) const { return path.empty() ? key : path + "." + key; }

    void lay(const std::string& where, Lanes& lanes, const Number& number) {
        lanes = Lanes(number.typical);
        places[where].push_back(&lanes);
    }
    void number(const char* key, Lanes& lanes, auto&&...) { lay(key_path(key), lanes, take<Number>()); }
    void number(const char* key, std::optional<Lanes>& lanes, auto&&...) {
        if (const auto& number = take<std::optional<Number>>()) lay(key_path(key), lanes.emplace(), *number);
    }
    void months(const char* key, Months<Lanes>& lanes, auto&&...) {
        constexpr const char* names[] = {"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"};
        const auto& months = take<Months<Number>>();
        lanes.one_for_all = months.one_for_all;
        for (std::size_t m = 0; m < 12; ++m) {
            if (!months.by_month[m]) continue;
            lay(months.one_for_all ? key_path(key) : key_path(key) + "." + names[m], lanes.by_month[m].emplace(), *months.by_month[m]);
        }
    }
    void by_name(const char* key, ByName<Lanes>& lanes, auto&&...) {
        const auto& named = take<ByName<Number>>();
        lanes.items.resize(named.items.size());
        for (std::size_t n = 0; n < named.items.size(); ++n) {
            lanes.items[n].first = named.items[n].first;
            lay(key_path(key) + "." + named.items[n].first, lanes.items[n].second, named.items[n].second);
        }
    }
    void total_or_each(const char* key, TotalOrEach<Lanes>& lanes, auto&&...) {
        const auto& numbers = take<TotalOrEach<Number>>();
        if (numbers.total) lay(key_path(key), lanes.total.emplace(), *numbers.total);
        lanes.each.resize(numbers.each.size());
        for (std::size_t n = 0; n < numbers.each.size(); ++n) {
            lanes.each[n].first = numbers.each[n].first;
            lay(key_path(key) + "." + numbers.each[n].first, lanes.each[n].second, numbers.each[n].second);
        }
    }
    void day_costs(const char* key, std::vector<NamedAmount<Lanes>>& lanes, auto&&...) {
        const auto& costs = take<std::vector<NamedAmount<Number>>>();
        lanes.resize(costs.size());
        for (std::size_t n = 0; n < costs.size(); ++n) {
            lanes[n].name = costs[n].name;
            lay(key_path(key) + "." + std::to_string(n) + ".amount", lanes[n].amount, costs[n].amount);
        }
    }
    template <class T>
    void copy(T& value) { value = take<T>(); }
    void size(const char*, auto& value, auto&&...) { copy(value); }
    void text(const char*, auto& value, auto&&...) { copy(value); }
    void prose(const char*, auto& value, auto&&...) { copy(value); }
    void sources(const char*, auto& value) { copy(value); }
    void date(const char*, auto& value, auto&&...) { copy(value); }
    void whole(const char*, auto& value, auto&&...) { copy(value); }
    void flag(const char*, auto& value, auto&&...) { copy(value); }
    void word(const char*, auto& value, auto&&...) { copy(value); }
    void texts(const char*, auto& value, auto&&...) { copy(value); }
    void weekdays(const char*, auto& value, auto&&...) { copy(value); }
    void month_list(const char*, auto& value, auto&&...) { copy(value); }
    void one_month(const char*, auto& value, auto&&...) { copy(value); }
    void days_off(const char*, auto& value, auto&&...) { copy(value); }
    template <class S>
    void inside(const std::string& step, S& value) {
        const std::string outer = path;
        path = key_path(step);
        S::fields(value, *this);
        path = outer;
    }
    template <class S>
    void section(const char* key, S& value, Need) { inside(key, value); }
    template <class S>
    void section(const char* key, std::optional<S>& value) {
        if (notes[next++].count == 1) inside(key, value.emplace());
    }
    template <class S>
    void list(const char* key, std::vector<S>& values, Need) {
        values.resize(notes[next++].count);
        for (std::size_t n = 0; n < values.size(); ++n) inside(std::string(key) + "." + std::to_string(n), values[n]);
    }
    void changes(auto&&...) {}
};

}  // namespace seasonrisk
