// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/read_plan.hpp"

#include <algorithm>
#include <sstream>
#include <stdexcept>

#include "reader.hpp"
#include "seasonrisk/plan/check_plan.hpp"
#include "words.hpp"

namespace seasonrisk {
namespace {

/// The rule book knows values, not lines: each of its findings gets the line of its key, or of the nearest
/// section around it. A key the reader already complained of is not complained of twice.
void add_rule_book(const Plan& plan, ReadingNotes& notes) {
    std::vector<std::string> complained;
    for (const Finding& finding : notes.findings) complained.push_back(finding.path);
    const auto is_or_is_inside = [](const std::string& inner, const std::string& outer) {
        return inner == outer || (inner.size() > outer.size() && inner.starts_with(outer) && inner[outer.size()] == '.');
    };
    for (Finding& finding : check_plan(plan)) {
        const bool again = std::ranges::any_of(complained, [&](const std::string& path) {
            return is_or_is_inside(finding.path, path) || is_or_is_inside(path, finding.path);
        });
        const bool not_yet = finding.message.ends_with("is not simulated yet");  // worth saying whatever else is wrong
        if (again && !not_yet) continue;
        for (std::string path = finding.path; !path.empty(); path = path.substr(0, path.rfind('.') == std::string::npos ? 0 : path.rfind('.'))) {
            const auto place = notes.lines.find(path);
            if (place == notes.lines.end()) continue;
            finding.line = static_cast<int>(place->second.line);
            finding.column = static_cast<int>(place->second.column);
            break;
        }
        notes.findings.push_back(std::move(finding));
    }
}

bool has_errors(const std::vector<Finding>& findings) {
    return std::ranges::any_of(findings, [](const Finding& finding) { return finding.severity == Severity::error; });
}

PlanReading read_table(const toml::table& root, const std::vector<Number>& base_pots, ReadingNotes notes) {
    PlanReading reading;
    SectionReader reader(root, "", notes);
    Plan::fields(reading.plan, reader);
    reader.refuse_unknown_keys();
    reading.plan.base.pots = base_pots;
    add_rule_book(reading.plan, notes);
    reading.findings = std::move(notes.findings);
    return reading;
}

std::vector<Number> pots_of(const Plan& plan) {
    std::vector<Number> pots;
    for (const auto& boat : plan.boat) {
        if (!boat.fishery.empty()) pots.push_back(boat.fishery[0].count);
    }
    return pots;
}

/// A value as TOML on one line; the formatter would write a table over several.
std::string one_line(const toml::node& value) {
    std::string text;
    if (const toml::table* table = value.as_table()) {
        for (const auto& [key, part] : *table) text += (text.empty() ? "{ " : ", ") + std::string(key.str()) + " = " + one_line(part);
        return text + " }";
    }
    if (const toml::array* array = value.as_array()) {
        for (const toml::node& part : *array) text += (text.empty() ? "[" : ", ") + one_line(part);
        return (text.empty() ? "[" : text) + "]";
    }
    std::ostringstream out;
    value.visit([&](const auto& node) { out << toml::toml_formatter{node}; });
    return out.str();
}

const toml::table* set_of_choice(const toml::table& root, std::size_t index) {
    const toml::array* choices = root["choice"].as_array();
    return choices == nullptr || index >= choices->size() ? nullptr : (*choices)[index].at_path("set").as_table();
}

/// Every choice of a sound plan is tried: what it would break is told now, as a warning, for the plan itself
/// can be used without it.
void try_choices(const toml::table& root, const Plan& plan, std::vector<Finding>& findings) {
    for (std::size_t c = 0; c < plan.choice.size(); ++c) {
        const toml::table* set = set_of_choice(root, c);
        if (set == nullptr) continue;
        toml::table changed = root;
        ReadingNotes notes;
        for (const auto& [path, value] : *set) apply_change(changed, std::string(path.str()), value, notes);
        for (const Finding& found : read_table(changed, pots_of(plan), notes).findings) {
            if (found.severity != Severity::error) continue;
            Finding warning{Severity::warning, "choice." + std::to_string(c) + ".set", "", "choice \"" + plan.choice[c].name + "\" cannot be used: " + to_text(found), "", "", 0, 0};
            warning.line = static_cast<int>(set->source().begin.line);
            findings.push_back(std::move(warning));
        }
    }
}

bool is_utf8(std::string_view text, std::size_t& bad_line) {
    std::size_t line = 1;
    for (std::size_t i = 0; i < text.size();) {
        const auto c = static_cast<unsigned char>(text[i]);
        const std::size_t length = c < 0x80 ? 1 : c >> 5 == 6 ? 2 : c >> 4 == 14 ? 3 : c >> 3 == 30 ? 4 : 0;
        bool sound = length != 0 && i + length <= text.size();
        for (std::size_t k = 1; sound && k < length; ++k) sound = (static_cast<unsigned char>(text[i + k]) & 0xc0) == 0x80;
        if (!sound) {
            bad_line = line;
            return false;
        }
        if (c == '\n') ++line;
        i += length;
    }
    return true;
}

PlanReading unreadable(std::string message, std::string hint, std::size_t line) {
    PlanReading reading;
    reading.findings.push_back({Severity::error, "", "", std::move(message), std::move(hint), "", static_cast<int>(line), 0});
    return reading;
}

PlanReading read_text(std::string_view text, const std::vector<Change>& changes) {
    std::size_t bad_line = 0;
    if (!is_utf8(text, bad_line)) return unreadable("is not UTF-8 text", "save the file as UTF-8 in your editor", bad_line);
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) return unreadable("the plan is empty", "start from one that works: seasonrisk new", 0);
    toml::table root;
    try {
        root = toml::parse(text);
    } catch (const toml::parse_error& error) {
        return unreadable("cannot be read as TOML: " + std::string(error.description()), "look at this line and the one before it", error.source().begin.line);
    }
    PlanReading plain = read_table(root, {}, {});
    if (changes.empty()) {
        if (plain.ok()) try_choices(root, plain.plan, plain.findings);
        return plain;
    }
    ReadingNotes notes;
    for (const Change& change : changes) {
        try {
            const toml::table value = toml::parse("value = " + change.value);
            if (value.size() == 1) apply_change(root, change.path, *value.get("value"), notes);
            else notes.error(change.path, nullptr, "is not one value: " + change.value);
        } catch (const toml::parse_error& error) {
            notes.error(change.path, nullptr, "cannot be set to " + change.value + ": " + std::string(error.description()));
        }
    }
    return read_table(root, pots_of(plain.plan), notes);
}

}  // namespace

bool PlanReading::ok() const { return !has_errors(findings); }

PlanReading read_plan(std::string_view toml_text, const std::string& file_name, const std::vector<Change>& changes) {
    PlanReading reading = read_text(toml_text, changes);
    for (Finding& finding : reading.findings) finding.file = file_name;
    std::ranges::stable_sort(reading.findings, {}, [](const Finding& finding) { return finding.line; });
    return reading;
}

std::vector<Change> changes_of_choice(std::string_view toml_text, const std::string& choice_name) {
    const toml::table root = toml::parse(toml_text);
    std::vector<std::string> names;
    if (const toml::array* choices = root["choice"].as_array()) {
        for (std::size_t c = 0; c < choices->size(); ++c) {
            const auto name = (*choices)[c].at_path("name").value_or<std::string>("");
            names.push_back(name);
            if (name != choice_name) continue;
            std::vector<Change> changes;
            if (const toml::table* set = set_of_choice(root, c)) {
                std::vector<std::pair<toml::source_position, Change>> placed;
                for (const auto& [path, value] : *set) {
                    placed.push_back({value.source().begin, {std::string(path.str()), one_line(value)}});
                }
                std::ranges::stable_sort(placed, [](const auto& a, const auto& b) { return std::pair(a.first.line, a.first.column) < std::pair(b.first.line, b.first.column); });
                for (auto& [place, change] : placed) changes.push_back(std::move(change));
            }
            return changes;
        }
    }
    throw std::out_of_range("choice=" + choice_name + ": the plan has no such choice; it has " + (names.empty() ? "none" : join(names, ", ")));
}

}  // namespace seasonrisk
