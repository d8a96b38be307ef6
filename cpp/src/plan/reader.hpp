// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "toml.hpp"

#include "notes.hpp"
#include "seasonrisk/plan/plan.hpp"

namespace seasonrisk {

/// Reads one table into one section of the plan: a visitor of that section's keys. Wrong types, unknown and
/// missing keys become findings; ranges are the rule book's business.
class SectionReader {
public:
    SectionReader(const toml::table& table, std::string path, ReadingNotes& notes)
        : table_(table), path_(std::move(path)), notes_(notes) {}

    // Numbers: reader.cpp
    void number(const char* key, Number& value, const Rule& rule, Need need);
    void number(const char* key, std::optional<Number>& value, const Rule& rule);
    void months(const char* key, Months<Number>& value, const Rule& rule, Need need);
    void by_name(const char* key, ByName<Number>& value, const Rule& rule, Need need, const char* names);
    void total_or_each(const char* key, TotalOrEach<Number>& value, const Rule& rule, const char* names);
    void size(const char* key, EventSize& value, const Rule& rule, Need need);

    // Everything else: reader_words.cpp
    void text(const char* key, std::string& value, Need need, const char* meaning);
    void date(const char* key, std::optional<Date>& value, Need need, const char* meaning);
    void prose(const char* key, std::string& value, Need need, const char* meaning) { text(key, value, need, meaning); }
    void whole(const char* key, int& value, int lowest, int highest, Need need, const char* meaning);
    void whole(const char* key, std::optional<int>& value, int lowest, int highest, const char* meaning);
    void flag(const char* key, bool& value, const char* meaning);
    template <class E, std::size_t N>
    void word(const char* key, E& value, const char* const (&words)[N], Need need, const char* meaning) {
        const int place = word_place(key, {words, words + N}, need, meaning);
        if (place >= 0) value = static_cast<E>(place);
    }
    void texts(const char* key, std::vector<std::string>& value, Need need, const char* meaning);
    void weekdays(const char* key, std::vector<unsigned>& value, const char* meaning);
    void month_list(const char* key, std::vector<unsigned>& value, const char* meaning);
    void one_month(const char* key, unsigned& value, Need need, const char* meaning);
    void days_off(const char* key, std::vector<DayOff>& value);
    void day_costs(const char* key, std::vector<NamedAmount<Number>>& value, const Rule& rule);
    void changes(const char* key, Deed deed, Need need);
    void sources(const char* key, std::vector<Source>& value);

    template <class S>
    void section(const char* key, S& value, Need need) {
        if (const toml::table* table = table_at(key, need)) read_into(value, *table, path_of(key));
    }
    template <class S>
    void section(const char* key, std::optional<S>& value) {
        if (const toml::table* table = table_at(key, Need::optional)) read_into(value.emplace(), *table, path_of(key));
    }
    template <class S>
    void list(const char* key, std::vector<S>& value, Need need) {
        const std::vector<const toml::table*> tables = tables_at(key, need);
        value.resize(tables.size());
        for (std::size_t n = 0; n < tables.size(); ++n) {
            read_into(value[n], *tables[n], path_of(key) + "." + std::to_string(n));
        }
    }

    /// After the section's keys were read: whatever else the table holds is unknown.
    void refuse_unknown_keys();

private:
    template <class S>
    void read_into(S& value, const toml::table& table, const std::string& path) {
        SectionReader inner(table, path, notes_);
        S::fields(value, inner);
        inner.refuse_unknown_keys();
    }
    std::string path_of(const std::string& key) const { return path_.empty() ? key : path_ + "." + key; }
    const toml::node* find(const char* key, Need need, const char* meaning);
    const toml::table* table_at(const char* key, Need need);
    std::vector<const toml::table*> tables_at(const char* key, Need need);
    bool read_plain(const std::string& path, const toml::node& node, double& value);
    bool read_number(const std::string& path, const toml::node& node, Number& value);
    int word_place(const char* key, const std::vector<std::string>& words, Need need, const char* meaning);
    std::vector<const toml::node*> entries_at(const char* key, Need need, const char* of_what, const char* meaning);
    void numbered_words(const char* key, std::vector<unsigned>& value, const char* of_what, const char* meaning,
                        unsigned (*number_of)(std::string_view), std::string (*meant)(std::string_view),
                        const char* refusal);

    const toml::table& table_;
    std::string path_;
    ReadingNotes& notes_;
    std::vector<std::string> known_{};
};

}  // namespace seasonrisk
