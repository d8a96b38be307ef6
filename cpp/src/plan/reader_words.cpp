// SPDX-License-Identifier: MIT
#include <algorithm>
#include <limits>

#include "reader.hpp"
#include "words.hpp"

namespace seasonrisk {
namespace {

constexpr const char* k_no_month = "is no month; months are written \"jan\", \"feb\", \"mar\" ... \"dec\"";
constexpr const char* k_no_weekday = "is no weekday; weekdays are written \"Monday\", \"Tuesday\" ... \"Sunday\"";

std::string quoted(const std::string& word) { return word.empty() ? "" : "\"" + word + "\""; }

std::optional<Date> as_date(const toml::node& node) {
    const auto* date = node.as_date();
    if (date == nullptr) return std::nullopt;
    const std::chrono::year_month_day ymd{std::chrono::year{date->get().year}, std::chrono::month{date->get().month},
                                          std::chrono::day{date->get().day}};
    return ymd.ok() ? std::optional<Date>{Date{ymd}} : std::nullopt;
}

}  // namespace

void SectionReader::text(const char* key, std::string& value, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return;
    if (const auto* text = node->as_string())
        value = text->get();
    else
        notes_.error(path_of(key), node, std::string("must be a text in quotes, not ") + kind_of(*node));
}

void SectionReader::date(const char* key, std::optional<Date>& value, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return;
    value = as_date(*node);
    if (value) return;
    std::string hint;
    if (const auto* text = node->as_string(); text != nullptr && looks_like_date(text->get()))
        hint = "write it without quotes";
    if (node->is_date_time()) hint = "leave out the time of day";
    notes_.error(path_of(key), node, std::string("must be a date such as 2027-06-01, not ") + kind_of(*node), hint);
}

void SectionReader::whole(const char* key, std::optional<int>& value, int lowest, int highest, const char* meaning) {
    int read = 0;
    whole(key, read, lowest, highest, Need::optional, meaning);
    if (table_.contains(key) && !notes_.unread.contains(path_of(key))) value = read;
}

void SectionReader::whole(const char* key, int& value, int, int, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return;
    const auto* number = node->as_integer();
    if (number == nullptr || number->get() < std::numeric_limits<int>::min()
        || number->get() > std::numeric_limits<int>::max()) {
        notes_.error(path_of(key), node, "must be a small whole number, such as 1");
        return;
    }
    value = static_cast<int>(number->get());
}

void SectionReader::flag(const char* key, bool& value, const char* meaning) {
    const toml::node* node = find(key, Need::optional, meaning);
    if (node == nullptr) return;
    if (const auto* flag = node->as_boolean())
        value = flag->get();
    else
        notes_.error(path_of(key), node, std::string("must be true or false, not ") + kind_of(*node),
                     node->is_string() ? "write it without quotes" : "");
}

int SectionReader::word_place(const char* key, const std::vector<std::string>& words, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return -1;
    const auto* text = node->as_string();
    const auto found = text == nullptr ? words.end() : std::ranges::find(words, text->get());
    if (found != words.end()) return static_cast<int>(found - words.begin());
    notes_.error(path_of(key), node,
                 (words.size() == 1 ? "must be \"" : "must be one of \"") + join(words, "\", \"") + "\"",
                 text == nullptr ? "" : did_you_mean(quoted(nearest_word(text->get(), words))));
    return -1;
}

std::vector<const toml::node*> SectionReader::entries_at(const char* key, Need need, const char* of_what,
                                                         const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    std::vector<const toml::node*> entries;
    if (node == nullptr) return entries;
    if (const toml::array* array = node->as_array()) {
        for (const toml::node& entry : *array) entries.push_back(&entry);
    } else {
        notes_.error(path_of(key), node,
                     std::string("must be a list of ") + of_what + " in square brackets, not " + kind_of(*node));
    }
    return entries;
}

void SectionReader::texts(const char* key, std::vector<std::string>& value, Need need, const char* meaning) {
    for (const toml::node* entry : entries_at(key, need, "texts", meaning)) {
        if (const auto* text = entry->as_string())
            value.push_back(text->get());
        else
            notes_.error(path_of(key), entry, std::string("must be a list of texts, and holds ") + kind_of(*entry));
    }
}

void SectionReader::numbered_words(const char* key, std::vector<unsigned>& value, const char* of_what,
                                   const char* meaning, unsigned (*number_of)(std::string_view),
                                   std::string (*meant)(std::string_view), const char* refusal) {
    for (const toml::node* entry : entries_at(key, Need::optional, of_what, meaning)) {
        const auto* text = entry->as_string();
        const unsigned number = text == nullptr ? 0 : number_of(text->get());
        if (number == 0)
            notes_.error(path_of(key), entry, refusal, text == nullptr ? "" : did_you_mean(quoted(meant(text->get()))));
        else if (std::ranges::find(value, number) != value.end())
            notes_.error(path_of(key), entry, "stands twice in the list");
        else
            value.push_back(number);
    }
}

void SectionReader::weekdays(const char* key, std::vector<unsigned>& value, const char* meaning) {
    numbered_words(key, value, "weekdays", meaning, weekday_of_word, meant_weekday, k_no_weekday);
}

void SectionReader::month_list(const char* key, std::vector<unsigned>& value, const char* meaning) {
    numbered_words(key, value, "months", meaning, month_of_word, meant_month, k_no_month);
}

void SectionReader::one_month(const char* key, unsigned& value, Need need, const char* meaning) {
    const toml::node* node = find(key, need, meaning);
    if (node == nullptr) return;
    const auto* text = node->as_string();
    value = text == nullptr ? 0 : month_of_word(text->get());
    if (value == 0)
        notes_.error(path_of(key), node, k_no_month,
                     text == nullptr ? "" : did_you_mean(quoted(meant_month(text->get()))));
}

void SectionReader::days_off(const char* key, std::vector<DayOff>& value) {
    std::size_t n = 0;
    for (const toml::node* entry :
         entries_at(key, Need::optional, "{ from, to, why }", "days on which nobody means to fish")) {
        const std::string path = numbered(path_of(key), n++);
        notes_.places[path] = entry->source().begin;
        DayOff off;  // kept even when it cannot be read, so that the rule book counts as the file does
        if (const toml::table* table = entry->as_table()) {
            SectionReader inner(*table, path, notes_);
            std::optional<Date> from, to;
            inner.date("from", from, Need::required, "the first day off");
            inner.date("to", to, Need::required, "the last day off, included");
            inner.text("why", off.why, Need::optional, "what the days are for");
            inner.refuse_unknown_keys();
            off.from = from.value_or(Date{});
            off.to = to.value_or(Date{});
        } else {
            notes_.error(path, entry, "must be { from = 2027-08-09, to = 2027-08-15, why = \"...\" }");
        }
        value.push_back(off);
    }
}

void SectionReader::day_costs(const char* key, std::vector<NamedAmount<Number>>& value, const Rule& rule) {
    std::size_t n = 0;
    for (const toml::node* entry : entries_at(key, Need::optional, "{ name, amount }", rule.meaning)) {
        const std::string path = numbered(path_of(key), n++);
        notes_.places[path] = entry->source().begin;
        NamedAmount<Number> cost;
        if (const toml::table* table = entry->as_table()) {
            SectionReader inner(*table, path, notes_);
            inner.text("name", cost.name, Need::required, "what is paid for");
            inner.number("amount", cost.amount, rule, Need::required);
            inner.refuse_unknown_keys();
        } else {
            notes_.error(path, entry, "must be { name = \"ice\", amount = 12.50 }");
        }
        value.push_back(cost);
    }
}

void SectionReader::sources(const char* key, std::vector<Source>& value) {
    const toml::table* table = table_at(key, Need::optional);
    if (table == nullptr) return;
    for (const auto& [name, node] : *table) {
        Source source;
        source.path = name.str();
        const std::string path = path_of(key) + "." + source.path;
        notes_.places[path] = node.source().begin;
        const toml::table* told = node.as_table();
        if (told == nullptr) {
            SectionReader(*table, path_of(key), notes_).word(source.path.c_str(), source.from, k_origin_words, Need::required, "");
        } else if (told->contains("from")) {
            SectionReader inner(*told, path, notes_);
            inner.word("from", source.from, k_origin_words, Need::required, "where the number came from");
            inner.text("where", source.where, Need::optional, "where it stands, or who said so");
            inner.refuse_unknown_keys();
        } else {
            notes_.error(path, &node, "must be where the number came from, such as \"own record\", or { from, where }",
                         "put the whole key path in quotes: \"species.0.per_haul\" = \"own record\"");
            continue;
        }
        value.push_back(std::move(source));
    }
}

void SectionReader::changes(const char* key, Deed deed, Need need) {
    const toml::node* node = find(key, need, "keys and their other values");
    if (node == nullptr) return;
    const auto is_list_of = [node](toml::node_type type) {
        const toml::array* array = node->as_array();
        return array != nullptr && !array->empty() && array->is_homogeneous(type);
    };
    switch (deed) {
        case Deed::set:
            if (!node->is_table())
                notes_.error(path_of(key), node,
                             "must be a table of keys and values, such as { \"boat.0.fishery.0.count\" = 520 }");
            break;
        case Deed::add:
            if (!node->is_table() && !is_list_of(toml::node_type::table))
                notes_.error(path_of(key), node, "must be a table like one of the plan's own",
                             std::string("start it with [[choice.") + key + "]] under the choice");
            break;
        case Deed::take_out:
            if (!is_list_of(toml::node_type::string))
                notes_.error(path_of(key), node, "must be a list of what is taken out, such as [\"boat.1\", \"loan.1\"]");
            break;
        case Deed::spend: break;  // looked at as the number it becomes
    }
}

}  // namespace seasonrisk
