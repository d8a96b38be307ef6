// SPDX-License-Identifier: MIT
#include "reader.hpp"

#include <algorithm>

#include "words.hpp"

namespace seasonrisk {
namespace {

constexpr const char* k_missing = "is missing";
constexpr const char* k_point_words[3] = {"low", "typical", "high"};

bool looks_like_guess(const toml::table& table) {
    return std::ranges::any_of(k_point_words, [&](const char* word) { return table.contains(word); });
}

}  // namespace

const toml::node* SectionReader::find(const char* key, Need need, const char* meaning) {
    known_.emplace_back(key);
    const toml::node* node = table_.get(key);
    if (node != nullptr) {
        notes_.places[path_of(key)] = node->source().begin;
    } else if (need == Need::required) {
        notes_.error(path_of(key), nullptr, *meaning == '\0' ? k_missing : std::string(k_missing) + ": " + meaning);
        notes_.findings.back().line = static_cast<int>(table_.source().begin.line);
    }
    return node;
}

bool SectionReader::read_plain(const std::string& path, const toml::node& node, double& value) {
    if (const auto* whole = node.as_integer())
        value = static_cast<double>(whole->get());
    else if (const auto* fraction = node.as_floating_point())
        value = fraction->get();
    else {
        const auto* text = node.as_string();
        const bool quoted = text != nullptr && looks_like_number(text->get());
        notes_.error(path, &node, std::string("must be a number, not ") + kind_of(node),
                     quoted ? "write it without quotes" : "");
        return false;
    }
    return true;
}

bool SectionReader::read_number(const std::string& path, const toml::node& node, Number& value) {
    const toml::table* guess = node.as_table();
    if (guess == nullptr) {
        double known = 0.0;
        if (!read_plain(path, node, known)) return false;
        value = Number(known);
        return true;
    }
    double points[3] = {};
    bool sound = true;
    for (int p = 0; p < 3; ++p) {
        const toml::node* point = guess->get(k_point_words[p]);
        if (point == nullptr) {
            notes_.error(path, &node, std::string("has no ") + k_point_words[p],
                         "a guess is { low, typical, high }: the 1-in-10 low, the middle, the 1-in-10 high");
            sound = false;
        } else {
            sound = read_plain(path + "." + k_point_words[p], *point, points[p]) && sound;
        }
    }
    for (const auto& [name, unused] : *guess) {
        const std::vector<std::string> known(k_point_words, k_point_words + 3);
        if (std::ranges::find(known, name.str()) != known.end()) continue;
        notes_.error(path, &node, "has an unknown part, " + std::string(name.str()),
                     did_you_mean(nearest_word(name.str(), known)));
        sound = false;
    }
    if (sound) value = Number(points[0], points[1], points[2]);
    return sound;
}

void SectionReader::number(const char* key, Number& value, const Rule& rule, Need need) {
    if (const toml::node* node = find(key, need, rule.meaning)) read_number(path_of(key), *node, value);
}

void SectionReader::number(const char* key, std::optional<Number>& value, const Rule& rule) {
    Number read;
    const toml::node* node = find(key, Need::optional, rule.meaning);
    if (node != nullptr && read_number(path_of(key), *node, read)) value = read;
}

void SectionReader::months(const char* key, Months<Number>& value, const Rule& rule, Need need) {
    const toml::node* node = find(key, need, rule.meaning);
    if (node == nullptr) return;
    const toml::table* table = node->as_table();
    if (table == nullptr || looks_like_guess(*table)) {
        Number all;
        if (!read_number(path_of(key), *node, all)) return;
        value.one_for_all = true;
        value.by_month.fill(all);
        return;
    }
    for (const auto& [name, entry] : *table) {
        const std::string path = path_of(key) + "." + std::string(name.str());
        notes_.places[path] = entry.source().begin;
        const unsigned month = month_of_word(name.str());
        Number read;
        if (month == 0)
            notes_.error(path, &entry, "is no month; months are written jan, feb, mar ... dec",
                         did_you_mean(meant_month(name.str())));
        else if (read_number(path, entry, read))
            value.by_month[month - 1] = read;
    }
}

void SectionReader::by_name(const char* key, ByName<Number>& value, const Rule& rule, Need need, const char* names) {
    const toml::node* node = find(key, need, rule.meaning);
    if (node == nullptr) return;
    const toml::table* table = node->as_table();
    if (table == nullptr) {
        notes_.error(path_of(key), node,
                     std::string("must be a table by ") + names + ", such as { lobster = 14.50, crab = 2.70 }");
        return;
    }
    for (const auto& [name, entry] : *table) {
        const std::string path = path_of(key) + "." + std::string(name.str());
        notes_.places[path] = entry.source().begin;
        Number read;
        if (read_number(path, entry, read)) value.items.emplace_back(std::string(name.str()), read);
    }
}

void SectionReader::total_or_each(const char* key, TotalOrEach<Number>& value, const Rule& rule, const char*) {
    const toml::node* node = find(key, Need::optional, rule.meaning);
    if (node == nullptr) return;
    const toml::table* table = node->as_table();
    if (table == nullptr || looks_like_guess(*table)) {
        Number total;
        if (read_number(path_of(key), *node, total)) value.total = total;
        return;
    }
    for (const auto& [name, entry] : *table) {
        const std::string path = path_of(key) + "." + std::string(name.str());
        notes_.places[path] = entry.source().begin;
        Number read;
        if (read_number(path, entry, read)) value.each.emplace_back(std::string(name.str()), read);
    }
}

void SectionReader::size(const char* key, EventSize& value, const Rule& rule, Need need) {
    Number read;
    const toml::node* node = find(key, need, rule.meaning);
    if (node != nullptr && read_number(path_of(key), *node, read))
        value = {read.typical, read.low, read.high, read.is_guess};
}

const toml::table* SectionReader::table_at(const char* key, Need need) {
    const toml::node* node = find(key, need, "");
    if (node == nullptr) return nullptr;
    if (const toml::table* table = node->as_table()) return table;
    const bool twice = node->is_array_of_tables();
    notes_.error(path_of(key), node,
                 twice ? std::string("must be one section, written [") + key + "] with one pair of brackets"
                       : std::string("must be a section, not ") + kind_of(*node));
    return nullptr;
}

std::vector<const toml::table*> SectionReader::tables_at(const char* key, Need need) {
    std::vector<const toml::table*> tables;
    const toml::node* node = find(key, need, "");
    if (node == nullptr) return tables;
    const toml::array* array = node->as_array();
    if (array == nullptr) {
        notes_.error(
            path_of(key), node,
            std::string("must be written [[") + key + "]] with two pairs of brackets, for there can be several");
        return tables;
    }
    for (const toml::node& entry : *array) {
        if (const toml::table* table = entry.as_table()) {
            notes_.places[numbered(path_of(key), tables.size())] = table->source().begin;
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
        const std::string nearest = nearest_word(key.str(), known_);
        // One slip, one finding: a required key that was misspelt is not missed as well.
        std::erase_if(notes_.findings, [&](const Finding& finding) {
            return !nearest.empty() && finding.message.starts_with(k_missing) && finding.path == path_of(nearest);
        });
        notes_.add(Severity::error, path_of(std::string(key.str())), &node,
                   path_.empty() ? "is not a section or key of a plan" : "is not a key of this section",
                   did_you_mean(nearest));
    }
}

}  // namespace seasonrisk
