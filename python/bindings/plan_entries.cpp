// SPDX-License-Identifier: MIT
#include "plan_entries.hpp"

#include <stdexcept>

namespace seasonrisk::python {
namespace {

constexpr const char* k_month_names[] = {"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"};
constexpr const char* k_day_names[] = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"};

py::object to_date(Date date) {
    const std::chrono::year_month_day day{date};
    return py::module_::import("datetime").attr("date")(static_cast<int>(day.year()), static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
}

/// Lists every key of a plan: a visitor of its `fields`.
class Lister {
public:
    std::vector<PlanValue> values{};

    void number(const char* key, const Number& number, const Rule& rule, Need) { put_number(path_of(key), number, rule); }
    void number(const char* key, const std::optional<Number>& number, const Rule& rule) {
        if (number) put_number(path_of(key), *number, rule);
    }
    void months(const char* key, const Months<Number>& months, const Rule& rule, Need) {
        for (std::size_t month = 0; month < 12; ++month) {
            if (!months.by_month[month]) continue;
            put_number(months.one_for_all ? path_of(key) : path_of(key) + "." + k_month_names[month], *months.by_month[month], rule);
            if (months.one_for_all) return;
        }
    }
    void by_name(const char* key, const ByName<Number>& named, const Rule& rule, Need, const char*) {
        for (const auto& [name, number] : named.items) put_number(path_of(key) + "." + name, number, rule);
    }
    void total_or_each(const char* key, const TotalOrEach<Number>& numbers, const Rule& rule, const char*) {
        if (numbers.total) put_number(path_of(key), *numbers.total, rule);
        for (const auto& [name, number] : numbers.each) put_number(path_of(key) + "." + name, number, rule);
    }
    void size(const char* key, const EventSize& size, const Rule& rule, Need) { put_points(path_of(key), ValueKind::size, size, rule); }
    void text(const char* key, const std::string& text, Need, const char* meaning) {
        if (!text.empty()) put(path_of(key), ValueKind::text, py::str(text), meaning);
    }
    void date(const char* key, const std::optional<Date>& date, Need, const char* meaning) {
        if (date) put(path_of(key), ValueKind::date, to_date(*date), meaning);
    }
    void prose(const char* key, const std::string& text, Need need, const char* meaning) { this->text(key, text, need, meaning); }
    void whole(const char* key, int value, int, int, Need, const char* meaning) { put(path_of(key), ValueKind::whole, py::int_(value), meaning); }
    void whole(const char* key, const std::optional<int>& value, int, int, const char* meaning) {
        if (value) put(path_of(key), ValueKind::whole, py::int_(*value), meaning);
    }
    void sources(const char* key, const std::vector<Source>& sources) {
        for (const Source& source : sources) {
            const std::string path = path_of(key) + "." + source.path;
            put(path, ValueKind::text, py::str(k_origin_words[static_cast<std::size_t>(source.from)]), "where the number came from");
            if (!source.where.empty()) put(path + ".where", ValueKind::text, py::str(source.where), "where it stands, or who said so");
        }
    }
    void flag(const char* key, bool value, const char* meaning) { put(path_of(key), ValueKind::flag, py::bool_(value), meaning); }
    template <class E, std::size_t N>
    void word(const char* key, E value, const char* const (&words)[N], Need, const char* meaning) {
        put(path_of(key), ValueKind::text, py::str(words[static_cast<std::size_t>(value)]), meaning);
    }
    void texts(const char* key, const std::vector<std::string>& texts, Need, const char* meaning) { put(path_of(key), ValueKind::list, py::cast(texts), meaning); }
    void weekdays(const char* key, const std::vector<unsigned>& days, const char* meaning) { put_named(path_of(key), days, k_day_names, meaning); }
    void month_list(const char* key, const std::vector<unsigned>& months, const char* meaning) { put_named(path_of(key), months, k_month_names, meaning); }
    void one_month(const char* key, unsigned month, Need, const char* meaning) {
        if (month != 0) put(path_of(key), ValueKind::text, py::str(k_month_names[month - 1]), meaning);
    }
    void days_off(const char* key, const std::vector<DayOff>& days_off) {
        for (std::size_t n = 0; n < days_off.size(); ++n) {
            const std::string path = path_of(key) + "." + std::to_string(n);
            put(path + ".from", ValueKind::date, to_date(days_off[n].from), "first day off");
            put(path + ".to", ValueKind::date, to_date(days_off[n].to), "last day off, included");
            if (!days_off[n].why.empty()) put(path + ".why", ValueKind::text, py::str(days_off[n].why), "why");
        }
    }
    void day_costs(const char* key, const std::vector<NamedAmount<Number>>& costs, const Rule& rule) {
        for (std::size_t n = 0; n < costs.size(); ++n) {
            const std::string path = path_of(key) + "." + std::to_string(n);
            put(path + ".name", ValueKind::text, py::str(costs[n].name), "what is paid for");
            put_number(path + ".amount", costs[n].amount, rule);
        }
    }
    void changes(const char*, Deed, Need) {}

    template <class S>
    void section(const char* key, const S& section, Need) { inside(key, section); }
    template <class S>
    void section(const char* key, const std::optional<S>& section) { if (section) inside(key, *section); }
    template <class S>
    void list(const char* key, const std::vector<S>& sections, Need) {
        for (std::size_t n = 0; n < sections.size(); ++n) inside(std::string(key) + "." + std::to_string(n), sections[n]);
    }

private:
    std::string path_of(const std::string& key) const { return path_.empty() ? key : path_ + "." + key; }

    template <class S>
    void inside(const std::string& step, const S& section) {
        const std::string outer = path_;
        path_ = path_of(step);
        S::fields(section, *this);
        path_ = outer;
    }
    void put(std::string path, ValueKind kind, py::object value, const char* meaning) {
        values.push_back({std::move(path), kind, std::move(value), {}, {}, meaning});
    }
    void put_points(std::string path, ValueKind kind, const EventSize& points, const Rule& rule) {
        py::object value = points.is_spread ? py::object(py::make_tuple(points.low, points.typical, points.high)) : py::object(py::float_(points.typical));
        values.push_back({std::move(path), kind, std::move(value), points, rule, rule.meaning});
    }
    void put_number(std::string path, const Number& number, const Rule& rule) {
        put_points(std::move(path), ValueKind::number, {number.typical, number.low, number.high, number.is_guess}, rule);
    }
    template <std::size_t N>
    void put_named(std::string path, const std::vector<unsigned>& numbers, const char* const (&names)[N], const char* meaning) {
        py::list words;
        for (const unsigned number : numbers) words.append(names[number - 1]);
        put(std::move(path), ValueKind::list, std::move(words), meaning);
    }

    std::string path_{};
};

}  // namespace

Spread PlanValue::spread() const {
    if (kind != ValueKind::number && kind != ValueKind::size) throw std::invalid_argument("path=" + path + ": is not a number");
    return spread_of(points, rule);
}

std::vector<PlanValue> values_of(const Plan& plan) {
    Lister lister;
    Plan::fields(plan, lister);
    return std::move(lister.values);
}

}  // namespace seasonrisk::python
