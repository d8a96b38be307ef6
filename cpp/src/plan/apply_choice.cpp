// SPDX-License-Identifier: MIT
#include "apply_choice.hpp"

#include <algorithm>
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

/// A value as TOML, as it would stand behind a key.
std::string value_text(const toml::node& value) {
    constexpr std::string_view before = "value = ";
    toml::table holder;
    holder.insert("value", value);
    std::ostringstream out;
    out << toml::toml_formatter{holder};
    return out.str().substr(before.size());
}

}  // namespace

void apply_change(toml::table& root, const std::string& path, const toml::node& value, ReadingNotes& notes) {
    constexpr std::size_t longest_path = 400;
    if (path.size() > longest_path) return leads_nowhere(path.substr(0, 40) + "...", "", "has no path so long", notes);
    toml::node* at = &root;
    for (std::size_t begin = 0;;) {
        const std::size_t dot = path.find('.', begin);
        const bool last = dot == std::string::npos;
        const std::string step = path.substr(begin, last ? dot : dot - begin);
        const std::string reached = path.substr(0, begin == 0 ? 0 : begin - 1);
        if (toml::array* array = at->as_array()) {
            const std::size_t index = is_index(step) ? static_cast<std::size_t>(std::stoul(step)) : array->size();
            if (index >= array->size()) return leads_nowhere(path, reached, entries_text(array->size()), notes);
            if (last)
                array->replace(array->cbegin() + static_cast<std::ptrdiff_t>(index), value);
            else
                at = array->get(index);
        } else if (toml::table* table = at->as_table()) {
            if (last)
                table->insert_or_assign(step, value);
            else if (!table->contains(step)) {
                const std::string next = path.substr(dot + 1, path.find('.', dot + 1) - dot - 1);
                if (is_index(next)) return leads_nowhere(path, path.substr(0, dot), entries_text(0), notes);
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
    if (change.value.size() > longest_value)
        return notes.error(change.path, nullptr, "cannot be set to a text so long");
    try {
        const toml::table read = toml::parse("value = " + change.value);
        if (read.size() == 1)
            apply_change(root, change.path, *read.get("value"), notes);
        else
            notes.error(change.path, nullptr, "must be set to one value, not " + change.value);
    } catch (const toml::parse_error& error) {
        notes.error(change.path, nullptr, "cannot be set to " + change.value + ": " + std::string(error.description()));
    } catch (const TomlLost& lost) {
        notes.error(change.path, nullptr, "cannot be set to " + change.value + ": " + lost.what());
    }
}

const toml::table* set_of_choice(const toml::table& root, std::size_t index) {
    const toml::array* choices = root["choice"].as_array();
    const toml::table* choice = choices == nullptr || index >= choices->size() ? nullptr : (*choices)[index].as_table();
    return choice == nullptr ? nullptr : (*choice)["set"].as_table();
}

std::vector<Change> changes_of_choice(std::string_view toml_text, const std::string& choice_name) {
    toml::table root;
    try {
        root = toml::parse(toml_text);
    } catch (const std::exception&) {  // toml::parse_error or TomlLost: told as the reader tells it
        throw PlanError(read_plan(toml_text, "").findings);
    }
    std::vector<std::string> names;
    const toml::array* choices = root["choice"].as_array();
    for (std::size_t c = 0; choices != nullptr && c < choices->size(); ++c) {
        const toml::table* choice = (*choices)[c].as_table();
        if (choice == nullptr) continue;
        names.push_back((*choice)["name"].value_or<std::string>(""));
        if (names.back() != choice_name) continue;

        ReadingNotes notes;
        std::vector<std::pair<toml::source_position, Change>> placed;
        for (const auto& [key, node] : *choice) {
            const bool is_read = key.str() == "name" || key.str() == "why" || key.str() == "set";
            if (!is_read)
                notes.error(numbered("choice", c) + "." + std::string(key.str()), &node, k_not_yet,
                            "leave it out for now");
        }
        if (!notes.findings.empty()) throw PlanError(notes.findings);
        if (const toml::table* set = set_of_choice(root, c)) {
            for (const auto& [path, value] : *set)
                placed.push_back({value.source().begin, {std::string(path.str()), value_text(value)}});
        }
        std::ranges::sort(placed, [](const auto& a, const auto& b) {
            return std::pair(a.first.line, a.first.column) < std::pair(b.first.line, b.first.column);
        });
        std::vector<Change> changes;
        for (auto& [place, change] : placed) changes.push_back(std::move(change));
        return changes;
    }
    throw std::out_of_range("choice=" + choice_name + ": the plan has no choice of that name; "
                            + (names.empty() ? "it has none" : "it has \"" + join(names, "\", \"") + "\""));
}

}  // namespace seasonrisk
