// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/guesses.hpp"

#include "visitor.hpp"
#include "words.hpp"

namespace seasonrisk {
namespace {

class NumberLister : public PathVisitor<NumberLister> {
public:
    std::vector<PlanEntry> entries{};

    void number(const char* key, const Number& number, const Rule& rule, Need) { put(path_of(key), number, rule); }
    void number(const char* key, const std::optional<Number>& number, const Rule& rule) {
        if (number) put(path_of(key), *number, rule);
    }
    void months(const char* key, const Months<Number>& months, const Rule& rule, Need) {
        for (std::size_t m = 0; m < 12; ++m) {
            if (!months.by_month[m]) continue;
            put(months.one_for_all ? path_of(key) : path_of(key) + "." + k_month_words[m], *months.by_month[m], rule);
            if (months.one_for_all) return;
        }
    }
    void by_name(const char* key, const ByName<Number>& named, const Rule& rule, Need, const char*) {
        for (const auto& [name, number] : named.items) put(path_of(key) + "." + name, number, rule);
    }
    void total_or_each(const char* key, const TotalOrEach<Number>& numbers, const Rule& rule, const char*) {
        if (numbers.total) put(path_of(key), *numbers.total, rule);
        for (const auto& [name, number] : numbers.each) put(path_of(key) + "." + name, number, rule);
    }
    void day_costs(const char* key, const std::vector<NamedAmount<Number>>& costs, const Rule& rule) {
        for (std::size_t n = 0; n < costs.size(); ++n)
            put(numbered(path_of(key), n) + ".amount", costs[n].amount, rule);
    }

private:
    void put(const std::string& path, const Number& number, const Rule& rule) {
        entries.push_back({path, number, rule});
    }
};

}  // namespace

std::uint32_t path_hash(std::string_view path) {
    std::uint32_t hash = 2166136261u;
    for (const char c : path) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
    return hash;
}

std::vector<PlanEntry> numbers_of(const Plan& plan) {
    NumberLister lister;
    Plan::fields(plan, lister);
    return lister.entries;
}

std::vector<Guess> guesses_of(const Plan& plan) {
    std::vector<Guess> guesses;
    for (const PlanEntry& entry : numbers_of(plan)) {
        if (entry.number.is_guess) guesses.push_back({entry.path, path_hash(entry.path), entry.number, entry.rule});
    }
    return guesses;
}

}  // namespace seasonrisk
