// SPDX-License-Identifier: MIT
#include "apply_choice.hpp"

#include <algorithm>
#include <cctype>
#include <sstream>
#include <stdexcept>

#include "words.hpp"

namespace seasonrisk {
namespace {

bool is_index(const std::string& step) {
    return !step.empty() && step.size() <= 4 && step.find_first_not_of("0123456789") == std::string::npos;
}

void leads_nowhere(const std::string& path, const std::string& reached, const std::string& why, ReadingNotes& notes) {
    notes.error(path, nullptr, "leads nowhere: " + (reached.empty() ? "the plan" : reached) + " " + why);
}

std::string entries_text(std::size_t count) {
    if (count == 0) return "has no entries";
    return count == 1 ? "has one entry, number 0" : "has " + std::to_string(count) + " entries, numbered from 0";
}

std::string text_of(const toml::node& value);

std::string key_text(std::string_view key) {
    const bool bare = std::ranges::all_of(key, [](unsigned char letter) { return std::isalnum(letter) != 0 || letter == '_' || letter == '-'; });
    return bare && !key.empty() ? std::string(key) : text_of(toml::value<std::string>(std::string(key)));
}

/// A value as TOML on one line, as it would stand behind a key.
std::string text_of(const toml::node& value) {
    if (const toml::table* table = value.as_table()) {
        std::vector<std::string> inside;
        for (const auto& [key, node] : *table) inside.push_back(key_text(key.str()) + " = " + text_of(node));
        return std::string("{ ").append(join(inside, ", ")).append(" }");
    }
    if (const toml::array* array = value.as_array()) {
        std::vector<std::string> inside;
        for (const toml::node& node : *array) inside.push_back(text_of(node));
        return std::string("[").append(join(inside, ", ")).append("]");
    }
    constexpr std::string_view before = "value = ";
    toml::table holder;
    holder.insert("value", value);
    std::ostringstream out;
    out << toml::toml_formatter{holder};
    return out.str().substr(before.size());
}

/// Lists in which luck or a guess is addressed by its place: what stands behind an entry that is taken out would move
/// up and meet other luck.
bool is_drawn_by_place(const std::string& list) {
    for (const std::string_view name : {"boat", "species", "outlet", "shock", "fishery", "crew", "breakdown", "grade", "holding"}) {
        if (list == name || list.ends_with(std::string(1, '.').append(name))) return true;
    }
    return false;
}

/// A guess is addressed by its path; the moves of a loan's rate by the loan's place.
bool holds_guess(const toml::node& node) {
    if (const toml::table* table = node.as_table()) {
        if (table->contains("low") || table->contains("high") || table->contains("rate_change_sd_per_year_fraction")) return true;
        return std::ranges::any_of(*table, [](const auto& entry) { return holds_guess(entry.second); });
    }
    const toml::array* array = node.as_array();
    return array != nullptr && std::ranges::any_of(*array, holds_guess);
}

void take_out(toml::array& array, std::size_t index, const std::string& path, ReadingNotes& notes) {
    const std::string list = path.substr(0, path.rfind('.'));
    const auto at = array.cbegin() + static_cast<std::ptrdiff_t>(index);
    const bool moves_luck = index + 1 < array.size() && (is_drawn_by_place(list) || std::any_of(at + 1, array.cend(), holds_guess));
    if (moves_luck) {
        return notes.error(path, array.get(index), "cannot be taken out: those behind it in the list would move up and meet other luck",
                           "put it last in the plan's list of " + list);
    }
    array.erase(at);
}

}  // namespace

void apply_splice(toml::table& root, const Splice& splice, ReadingNotes& notes) {
    const std::string& path = splice.path;
    const toml::node* value = splice.value;
    constexpr std::size_t longest_path = 400;
    if (path.size() > longest_path) return leads_nowhere(path.substr(0, 40) + "...", "", "has no path so long", notes);
    toml::node* at = &root;
    for (std::size_t begin = 0;;) {
        const std::size_t dot = path.find('.', begin);
        const bool last = dot == std::string::npos;
        const std::string step = path.substr(begin, last ? dot : dot - begin);
        const std::string reached = path.substr(0, begin == 0 ? 0 : begin - 1);
        if (toml::array* array = at->as_array()) {
            if (last && step == "+" && value != nullptr) {
                array->push_back(*value);
                return;
            }
            const std::size_t index = is_index(step) ? static_cast<std::size_t>(std::stoul(step)) : array->size();
            if (index >= array->size()) return leads_nowhere(path, reached, entries_text(array->size()), notes);
            if (last && value == nullptr)
                return take_out(*array, index, path, notes);
            if (last)
                array->replace(array->cbegin() + static_cast<std::ptrdiff_t>(index), *value);
            else
                at = array->get(index);
        } else if (toml::table* table = at->as_table()) {
            const std::string next = last ? "" : path.substr(dot + 1, path.find('.', dot + 1) - dot - 1);
            if (value == nullptr && (last || !table->contains(step)))
                return leads_nowhere(path, last ? reached : path.substr(0, dot), last ? "has no entries to take out by number" : entries_text(0), notes);
            if (last)
                table->insert_or_assign(step, *value);
            else if (!table->contains(step)) {
                if (is_index(next)) return leads_nowhere(path, path.substr(0, dot), entries_text(0), notes);
                if (next == "+")
                    table->insert(step, toml::array{});
                else
                    table->insert(step, toml::table{});
            }
            at = table->get(step);
        } else {
            return leads_nowhere(path, reached, "is a single value", notes);
        }
        if (last) return;
        begin = dot + 1;
    }
}

void apply_change(toml::table& root, const Change& change, ReadingNotes& notes) {
    constexpr std::size_t longest_value = 10'000;
    if (change.value.empty()) return apply_splice(root, {change.path, nullptr}, notes);
    if (change.value.size() > longest_value)
        return notes.error(change.path, nullptr, "cannot be set to a text so long");
    try {
        const toml::table read = toml::parse("value = " + change.value);
        if (read.size() == 1)
            apply_splice(root, {change.path, read.get("value")}, notes);
        else
            notes.error(change.path, nullptr, "must be set to one value, not " + change.value);
    } catch (const toml::parse_error& error) {
        notes.error(change.path, nullptr, "cannot be set to " + change.value + ": " + std::string(error.description()));
    } catch (const TomlLost& lost) {
        notes.error(change.path, nullptr, "cannot be set to " + change.value + ": " + lost.what());
    }
}

std::vector<Splice> splices_of(const toml::table& choice) {
    std::vector<Splice> splices;
    if (const toml::table* set = choice["set"].as_table()) {
        for (const auto& [path, value] : *set) splices.push_back({std::string(path.str()), &value});
        std::ranges::sort(splices, [](const Splice& a, const Splice& b) {
            const toml::source_position left = a.value->source().begin;
            const toml::source_position right = b.value->source().begin;
            return std::pair(left.line, left.column) < std::pair(right.line, right.column);
        });
    }
    for (const std::string list : {"boat", "loan", "asset"}) {
        const toml::node* added = choice.get("add_" + list);
        if (added == nullptr) continue;
        if (const toml::array* tables = added->as_array()) {
            for (const toml::node& table : *tables) splices.push_back({list + ".+", &table});
        } else {
            splices.push_back({list + ".+", added});
        }
    }
    if (const toml::array* paths = choice["remove"].as_array()) {
        std::vector<std::string> taken_out;
        for (const toml::node& path : *paths) taken_out.push_back(path.value_or<std::string>(""));
        // The last of a list first: a number names its entry as the plan has it, not as it is after another is gone.
        std::ranges::sort(taken_out, [](const std::string& a, const std::string& b) {
            return std::pair(a.size(), a) > std::pair(b.size(), b);
        });
        for (const std::string& path : taken_out) splices.push_back({path, nullptr});
    }
    if (const toml::node* spent = choice.get("spend_now")) splices.push_back({"business.spend_now", spent});
    return splices;
}

ChoicePlace place_of(const toml::table& choice) {
    ChoicePlace place{"", choice.source().begin};
    int doing = 0;
    for (const char* key : {"set", "add_boat", "add_loan", "add_asset", "remove", "spend_now"}) {
        const toml::node* node = choice.get(key);
        if (node == nullptr) continue;
        place = ++doing == 1 ? ChoicePlace{std::string(1, '.').append(key), node->source().begin} : ChoicePlace{"", place.position};
    }
    return place;
}

namespace {

/// What the section of that name in `list` does.
std::vector<Change> changes_of(std::string_view toml_text, const std::string& list, const std::string& wanted) {
    toml::table root;
    try {
        root = toml::parse(toml_text);
    } catch (const std::exception&) {  // toml::parse_error or TomlLost: told as the reader tells it
        throw PlanError(read_plan(toml_text, "").findings);
    }
    std::vector<std::string> names;
    const toml::array* choices = root[list].as_array();
    for (std::size_t c = 0; choices != nullptr && c < choices->size(); ++c) {
        const toml::table* choice = (*choices)[c].as_table();
        if (choice == nullptr) continue;
        names.push_back((*choice)["name"].value_or<std::string>(""));
        if (names.back() != wanted) continue;

        std::vector<Change> changes;
        for (const Splice& splice : splices_of(*choice)) changes.push_back({splice.path, splice.value == nullptr ? "" : text_of(*splice.value)});
        return changes;
    }
    throw std::out_of_range(list + "=" + wanted + ": the plan has no " + list + " of that name; "
                            + (names.empty() ? "it has none" : "it has \"" + join(names, "\", \"") + "\""));
}

}  // namespace

std::vector<Change> changes_of_choice(std::string_view toml_text, const std::string& choice_name) {
    return changes_of(toml_text, "choice", choice_name);
}

std::vector<Change> changes_of_stress(std::string_view toml_text, const std::string& stress_name) {
    return changes_of(toml_text, "stress", stress_name);
}

}  // namespace seasonrisk
