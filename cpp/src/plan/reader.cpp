// SPDX-License-Identifier: MIT
#include "reader.hpp"

#include <algorithm>
#include <sstream>

#include "words.hpp"

namespace seasonrisk {
namespace {

const char* kind_of(const toml::node& node) {
    switch (node.type()) {
        case toml::node_type::table: return "a table";
        case toml::node_type::array: return "a list";
        case toml::node_type::string: return "a text";
        case toml::node_type::integer: case toml::node_type::floating_point: return "a number";
        case toml::node_type::boolean: return "true or false";
        case toml::node_type::date: return "a date";
        case toml::node_type::time: case toml::node_type::date_time: return "a time";
        case toml::node_type::none: break;
    }
    return "nothing";
}

/// Does the text look like a number, or a date, that was put in quotes by mistake?
bool looks_like_number(const std::string& text) {
    char* end = nullptr;
    static_cast<void>(std::strtod(text.c_str(), &end));
    return !text.empty() && end == text.c_str() + text.size();
}

std::optional<Date> as_date(const toml::node& node) {
    const auto* date = node.as_date();
    if (date == nullptr) return std::nullopt;
    const std::chrono::year_month_day ymd{std::chrono::year{date->get().year}, std::chrono::month{date->get().month}, std::chrono::day{date->get().day}};
    return ymd.ok() ? std::optional<Date>{Date{ymd}} : std::nullopt;
}

}  // namespace

std::string written(const toml::node& node) {
    std::string line;
    if (const auto* text = node.as_string()) {
        line = "\"" + text->get() + "\"";
    } else if (const auto* number = node.as_floating_point()) {
        line = number_text(number->get());  // as the owner would write it, not with seventeen digits
    } else {
        std::ostringstream formatted;
        node.visit([&](const auto& value) { formatted << toml::toml_formatter{value}; });
        line = formatted.str();
    }
    std::ranges::replace_if(line, [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
    constexpr std::size_t longest = 60;
    return line.size() > longest ? line.substr(0, longest) + "..." : line;
}

void ReadingNotes::add(Severity severity, const std::string& path, const toml::node* node, std::string message, std::string hint) {
    Finding finding{severity, path, "", std::move(message), std::move(hint), "", 0, 0};
    if (node != nullptr) {
        if (!node->is_table() && !node->is_array()) finding.value = written(*node);
        finding.line = static_cast<int>(node->source().begin.line);
        finding.column = static_cast<int>(node->source().begin.column);
    }
    findings.push_back(std::move(finding));
}

const toml::node* SectionReader::find(const char* key, Need need, const char* meaning) {
    known_.emplace_back(key);
    const toml::node* node = table_.get(key);
    if (node != nullptr) {
        notes_.lines[path_of(key)] = node->source().begin;
        return node;
    }
    if (need == Need::required) {
        Finding missing{Severity::error, path_of(key), "", *meaning == '\0' ? "is missing" : std::string("is missing: ") + meaning, "", "", 0, 0};
        missing.line = static_cast<int>(table_.source().begin.line);
        notes_.findings.push_back(std::move(missing));
    }
    return nullptr;
}

bool SectionReader::read_plain(const std::string& path, const toml::node& node, double& value) {
    if (const auto number = node.value<double>(); number && node.is_number()) {
        value = *number;
        return true;
    }
    std::string hint;
    if (const auto* text = node.as_string(); text != nullptr && looks_like_number(text->get())) hint = "write it without quotes";
    notes_.error(path, &node, std::string("must be a number, not ") + kind_of(node), hint);
    return false;
}

bool SectionReader::read_number(const std::string& path, const toml::node& node, Number& value, const Rule&) {
    const toml::table* guess = node.as_table();
    if (guess == nullptr) {
        double known = 0.0;
        if (!read_plain(path, node, known)) return false;
        value = Number(known);
        return true;
    }
    double points[3] = {};
    bool sound = true;
    constexpr const char* names[3] = {"low", "typical", "high"};
    for (int p = 0; p < 3; ++p) {
        const toml::node* point = guess->get(names[p]);
        if (point == nullptr) {
            notes_.error(path, &node, std::string("has no ") + names[p], "a guess is { low, typical, high }: the 1-in-10 low, the middle, the 1-in-10 high");
            sound = false;
        } else {
            sound = read_plain(path + "." + names[p], *point, points[p]) && sound;
        }
    }
    for (const auto& [name, unused] : *guess) {
        if (name != "low" && name != "typical" && name != "high") {
            notes_.error(path, &node, "has an unknown part " + std::string(name.str()), did_you_mean(nearest_word(name.str(), {"low", "typical", "high"})));
            sound = false;
        }
    }
    if (sound) value = Number(points[0], points[1], points[2]);
    return sound;
}

void SectionReader::number(const char* key, Number& value, const Rule& rule, Need need) {
    if (const toml::node* node = find(key, need, rule.meaning)) read_number(path_of(key), *node, value, rule);
}

void SectionReader::number(const char* key, std::optional<Number>& value, const Rule& rule) {
    if (const toml::node* node = find(key, Need::optional, rule.meaning)) {
        Number read;
        if (read_number(path_of(key), *node, read, rule)) value = read;
    }
}

void SectionReader::months(const char* key, Months<Number>& value, const Rule& rule, Need need) {
    const toml::node* node = find(key, need, rule.meaning);
    if (node == nullptr) return;
    const toml::table* table = node->as_table();
    if (table == nullptr || table->contains("typical") || table->contains("low") || table->contains("high")) {
        Number all;
        if (!read_number(path_of(key), *node, all, rule)) return;
        value.one_for_all = true;
        value.by_month.fill(all);
        return;
    }
    for (const auto& [name, month_node] : *table) {
        const std::string path = path_of(key) + "." + std::string(name.str());
        notes_.lines[path] = month_node.source().begin;
        const unsigned month = month_of_word(name.str());
        if (month == 0) {
            notes_.error(path, &month_node, "is no month; months are written jan, feb, mar ... dec", did_you_mean(meant_month(name.str())));
            continue;
        }
        Number read;
        if (read_number(path, month_node, read, rule)) value.by_month[month - 1] = read;
    }
}

void SectionReader::by_name(const char* key, ByName<Number>& value, const Rule& rule, Need need, const char* names) {
    const toml::node* node = find(key, need, rule.meaning);
    if (node == nullptr) return;
    const toml::table* table = node->as_table();
    if (table == nullptr) {
        notes_.error(path_of(key), node, std::string("must be a table by ") + names + ", such as { lobster = 14.50, crab = 2.70 }");
        return;
    }
    for (const auto& [name, entry] : *table) {
        const std::string path = path_of(key) + "." + std::string(name.str());
        notes_.lines[path] = entry.source().begin;
        Number read;
        if (read_number(path, entry, read, rule)) value.items.emplace_back(std::string(name.str()), read);
    }
}

void SectionReader::size(const char* key, EventSize& value, const Rule& rule, Need need) {
    Number read;
    const toml::node* node = find(key, need, rule.meaning);
    if (node == nullptr || !read_number(path_of(key), *node, read, rule)) return;
    value = {read.typical, read.low, read.high, read.is_guess};
}

void SectionReader::text(const char* key, std::string& value, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return;
    if (const auto* text = node->as_string()) value = text->get();
    else notes_.error(path_of(key), node, std::string("must be a text in quotes, not ") + kind_of(*node));
}

void SectionReader::date(const char* key, std::optional<Date>& value, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return;
    value = as_date(*node);
    if (!value) notes_.error(path_of(key), node, std::string("must be a date such as 2027-06-01, not ") + kind_of(*node), node->is_string() ? "write it without quotes" : "");
}

void SectionReader::whole(const char* key, int& value, int lowest, int highest, const char* meaning) {
    const toml::node* node = find(key, std::string_view(key) == "plan" ? Need::required : Need::optional, meaning);
    if (node == nullptr) return;
    const auto* number = node->as_integer();
    if (number == nullptr) {
        notes_.error(path_of(key), node, std::string("must be a whole number, not ") + (node->is_floating_point() ? "a fraction" : kind_of(*node)));
        return;
    }
    if (number->get() < lowest || number->get() > highest) {
        const std::string allowed = lowest == highest ? "must be " + std::to_string(lowest) : "must be from " + std::to_string(lowest) + " to " + std::to_string(highest);
        notes_.error(path_of(key), node, allowed, meaning);
        return;
    }
    value = static_cast<int>(number->get());
}

void SectionReader::flag(const char* key, bool& value, const char* meaning) {
    const toml::node* node = find(key, Need::optional, meaning);
    if (node == nullptr) return;
    if (const auto* flag = node->as_boolean()) value = flag->get();
    else notes_.error(path_of(key), node, std::string("must be true or false, not ") + kind_of(*node));
}

int SectionReader::word_place(const char* key, const std::vector<std::string>& words, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return -1;
    const auto* text = node->as_string();
    if (text != nullptr) {
        const auto found = std::ranges::find(words, text->get());
        if (found != words.end()) return static_cast<int>(found - words.begin());
    }
    notes_.error(path_of(key), node, "must be one of \"" + join(words, "\", \"") + "\"", text == nullptr ? "" : did_you_mean(nearest_word(text->get(), words)));
    return -1;
}

std::vector<const toml::node*> SectionReader::array_at(const char* key, Need need, const char* of_what, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    std::vector<const toml::node*> entries;
    if (node == nullptr) return entries;
    if (const toml::array* array = node->as_array()) {
        for (const toml::node& entry : *array) entries.push_back(&entry);
    } else {
        notes_.error(path_of(key), node, std::string("must be a list of ") + of_what + " in square brackets, not " + kind_of(*node));
    }
    return entries;
}

void SectionReader::texts(const char* key, std::vector<std::string>& value, Need need, const char* meaning) {
    for (const toml::node* entry : array_at(key, need, "texts", meaning)) {
        if (const auto* text = entry->as_string()) value.push_back(text->get());
        else notes_.error(path_of(key), entry, std::string("must be a list of texts, and holds ") + kind_of(*entry));
    }
}

void SectionReader::weekdays(const char* key, std::vector<unsigned>& value, const char* meaning) {
    for (const toml::node* entry : array_at(key, Need::optional, "weekdays", meaning)) {
        const auto* text = entry->as_string();
        const unsigned day = text == nullptr ? 0 : weekday_of_word(text->get());
        if (day == 0) notes_.error(path_of(key), entry, "is no weekday; weekdays are written Monday, Tuesday ... Sunday", text == nullptr ? "" : did_you_mean(meant_weekday(text->get())));
        else if (std::ranges::find(value, day) != value.end()) notes_.error(path_of(key), entry, "stands twice in the list");
        else value.push_back(day);
    }
}

void SectionReader::month_list(const char* key, std::vector<unsigned>& value, const char* meaning) {
    for (const toml::node* entry : array_at(key, Need::optional, "months", meaning)) {
        const auto* text = entry->as_string();
        const unsigned month = text == nullptr ? 0 : month_of_word(text->get());
        if (month == 0) notes_.error(path_of(key), entry, "is no month; months are written jan, feb, mar ... dec", text == nullptr ? "" : did_you_mean(meant_month(text->get())));
        else if (std::ranges::find(value, month) != value.end()) notes_.error(path_of(key), entry, "stands twice in the list");
        else value.push_back(month);
    }
}

void SectionReader::one_month(const char* key, unsigned& value, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return;
    const auto* text = node->as_string();
    value = text == nullptr ? 0 : month_of_word(text->get());
    if (value == 0) notes_.error(path_of(key), node, "is no month; months are written \"jan\", \"feb\" ... \"dec\"", text == nullptr ? "" : did_you_mean(meant_month(text->get())));
}

void SectionReader::days_off(const char* key, std::vector<DayOff>& value) {
    std::size_t n = 0;
    for (const toml::node* entry : array_at(key, Need::optional, "{ from, to, why }", "days on which nobody means to fish")) {
        const std::string path = path_of(key) + "." + std::to_string(n++);
        const toml::table* table = entry->as_table();
        if (table == nullptr) {
            notes_.error(path, entry, "must be { from = 2027-08-09, to = 2027-08-15, why = \"...\" }");
            continue;
        }
        notes_.lines[path] = entry->source().begin;
        SectionReader inner(*table, path, notes_);
        std::optional<Date> from, to;
        DayOff off;
        inner.date("from", from, Need::required, "the first day off");
        inner.date("to", to, Need::required, "the last day off");
        inner.text("why", off.why, Need::optional, "what the days are for");
        inner.refuse_unknown_keys();
        if (!from || !to) continue;
        off.from = *from;
        off.to = *to;
        value.push_back(off);
    }
}

void SectionReader::day_costs(const char* key, std::vector<NamedAmount<Number>>& value, const Rule& rule) {
    std::size_t n = 0;
    for (const toml::node* entry : array_at(key, Need::optional, "{ name, amount }", rule.meaning)) {
        const std::string path = path_of(key) + "." + std::to_string(n++);
        const toml::table* table = entry->as_table();
        NamedAmount<Number> cost;
        if (table == nullptr) {
            notes_.error(path, entry, "must be { name = \"ice\", amount = 12.50 }");
        } else {
            notes_.lines[path] = entry->source().begin;
            SectionReader inner(*table, path, notes_);
            inner.text("name", cost.name, Need::required, "what is paid for");
            inner.number("amount", cost.amount, rule, Need::required);
            inner.refuse_unknown_keys();
        }
        value.push_back(cost);
    }
}

void SectionReader::changes(const char* key) {
    const toml::node* node = find(key, Need::optional, "the keys that the choice changes");
    if (node != nullptr && !node->is_table()) notes_.error(path_of(key), node, "must be a table of keys and values, such as { \"boat.0.fishery.0.count\" = 520 }");
}

void SectionReader::later(const char* key) {
    if (const toml::node* node = find(key, Need::optional, "")) notes_.error(path_of(key), node, "is not simulated yet", "leave it out for now");
}

void SectionReader::later(const char* key, std::nullptr_t) { static_cast<void>(find(key, Need::optional, "")); }

void SectionReader::later(const char* key, double neutral) {
    const toml::node* node = find(key, Need::optional, "");
    if (node == nullptr) return;
    const auto number = node->is_number() ? node->value<double>() : std::nullopt;
    if (!number || *number != neutral) {
        notes_.error(path_of(key), node, "is not simulated yet", "leave it out for now, or set it to " + number_text(neutral) + ", which means without it");
    }
}

void SectionReader::later(const char* key, bool neutral) {
    const toml::node* node = find(key, Need::optional, "");
    if (node == nullptr) return;
    const auto* flag = node->as_boolean();
    if (flag == nullptr || flag->get() != neutral) notes_.error(path_of(key), node, "is not simulated yet", "leave it out for now");
}

const toml::table* SectionReader::table_at(const char* key, Need need) {
    const toml::node* node = find(key, need, "");
    if (node == nullptr) return nullptr;
    if (const toml::table* table = node->as_table()) return table;
    notes_.error(path_of(key), node, std::string("must be one section, written [") + path_of(key) + "], not " + kind_of(*node));
    return nullptr;
}

std::vector<const toml::table*> SectionReader::tables_at(const char* key, Need need) {
    std::vector<const toml::table*> tables;
    const toml::node* node = find(key, need, "");
    if (node == nullptr) return tables;
    const toml::array* array = node->as_array();
    if (array == nullptr) {
        notes_.error(path_of(key), node, std::string("must be written [[") + key + "]] with two brackets, for there can be several");
        return tables;
    }
    for (const toml::node& entry : *array) {
        if (const toml::table* table = entry.as_table()) {
            notes_.lines[path_of(key) + "." + std::to_string(tables.size())] = table->source().begin;
            tables.push_back(table);
        } else {
            notes_.error(path_of(key), &entry, std::string("must hold sections, and holds ") + kind_of(entry));
        }
    }
    return tables;
}

void SectionReader::refuse_unknown_keys() {
    for (const auto& [key, node] : table_) {
        if (std::ranges::find(known_, key.str()) != known_.end()) continue;
        notes_.error(path_of(std::string(key.str())), &node, "is not a key of this section", did_you_mean(nearest_word(key.str(), known_)));
        notes_.findings.back().line = static_cast<int>(node.source().begin.line);
    }
}

void apply_change(toml::table& root, const std::string& path, const toml::node& value, ReadingNotes& notes) {
    toml::node* at = &root;
    std::size_t begin = 0;
    while (true) {
        const std::size_t dot = path.find('.', begin);
        const std::string step = path.substr(begin, dot == std::string::npos ? dot : dot - begin);
        const bool last = dot == std::string::npos;
        if (toml::array* array = at->as_array()) {
            const bool is_index = !step.empty() && step.size() < 4 && step.find_first_not_of("0123456789") == std::string::npos;
            const std::size_t index = is_index ? static_cast<std::size_t>(std::stoul(step)) : array->size();
            if (index >= array->size()) {
                notes.error(path, nullptr, "leads nowhere: " + path.substr(0, begin == 0 ? 0 : begin - 1) + " has " + std::to_string(array->size()) + " entries, counted from 0");
                return;
            }
            if (last) {
                array->replace(array->cbegin() + static_cast<std::ptrdiff_t>(index), value);
                return;
            }
            at = array->get(index);
        } else if (toml::table* table = at->as_table()) {
            if (last) {
                table->insert_or_assign(step, value);
                return;
            }
            if (!table->contains(step)) table->insert(step, toml::table{});
            at = table->get(step);
        } else {
            notes.error(path, nullptr, "leads nowhere: " + path.substr(0, begin == 0 ? 0 : begin - 1) + " is a single value");
            return;
        }
        begin = dot + 1;
    }
}

}  // namespace seasonrisk
