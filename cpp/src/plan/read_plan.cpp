// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/read_plan.hpp"

#include <algorithm>
#include <array>

#include "apply_choice.hpp"
#include "reader.hpp"
#include "seasonrisk/plan/check_plan.hpp"
#include "words.hpp"

namespace seasonrisk {
namespace {

bool same_or_inside(const std::string& inner, const std::string& outer) {
    return inner.starts_with(outer) && (inner.size() == outer.size() || inner[outer.size()] == '.');
}

/// A word that cannot be read stands as its default, and what goes with the word that was meant would be told as
/// wrong: of the keys beside it only ranges are told.
bool follows_unread_word(const Finding& finding, const ReadingNotes& notes) {
    const std::string section = finding.path.substr(0, finding.path.rfind('.') + 1);
    const auto is_unread = [&](const char* word) { return notes.unread.contains(section + word); };
    return std::ranges::any_of(std::array{"pay", "gear", "over", "what"}, is_unread) && !finding.message.starts_with("must be");
}

/// The rule book knows values, not lines: each of its findings gets the place of its key, or of the nearest
/// section around it. Of what could not be read it says nothing.
void add_rule_book(const Plan& plan, ReadingNotes& notes) {
    for (Finding& finding : check_plan(plan)) {
        const bool about_unread = std::ranges::any_of(notes.unread, [&](const std::string& path) {
            return same_or_inside(finding.path, path) || same_or_inside(path, finding.path);
        });
        if (about_unread || follows_unread_word(finding, notes)) continue;
        for (std::string path = finding.path;; path.resize(path.rfind('.'))) {
            if (const auto place = notes.places.find(path); place != notes.places.end()) {
                finding.line = static_cast<int>(place->second.line);
                finding.column = static_cast<int>(place->second.column);
                break;
            }
            if (path.find('.') == std::string::npos) break;
        }
        notes.findings.push_back(std::move(finding));
    }
}

/// The plan holds how a loan is paid, not how that was written: only the reader can see both ways at once.
void refuse_two_ways_to_pay(const toml::table& root, ReadingNotes& notes) {
    const toml::array* loans = root["loan"].as_array();
    for (std::size_t n = 0; loans != nullptr && n < loans->size(); ++n) {
        const toml::table* loan = (*loans)[n].as_table();
        if (loan == nullptr || !loan->contains("pay") || !loan->contains("months")) continue;
        notes.error(numbered("loan", n) + ".months", loan->get("months"), "stands beside pay",
                    "give pay = \"monthly\" or months, not both");
    }
}

/// toml++ gives names in the order of the alphabet; the plan's order is that of its species and their grades.
void order_by_goods(Plan& plan) {
    std::vector<std::string> names;
    for (const auto& species : plan.species) {
        names.push_back(species.name);
        for (const auto& grade : species.grade) names.push_back(grade.name);
    }
    const auto place = [&](const std::pair<std::string, Number>& named) {
        return std::ranges::find(names, named.first) - names.begin();
    };
    for (auto& outlet : plan.outlet) {
        std::ranges::stable_sort(outlet.price.items, {}, place);
        std::ranges::stable_sort(outlet.daily_limit.each, {}, place);
        std::ranges::stable_sort(outlet.demand_per_open_day.each, {}, place);
    }
}

PlanReading read_table(const toml::table& root, ReadingNotes notes, Base base) {
    PlanReading reading;
    SectionReader reader(root, "", notes);
    Plan::fields(reading.plan, reader);
    reader.refuse_unknown_keys();
    refuse_two_ways_to_pay(root, notes);
    order_by_goods(reading.plan);
    reading.plan.base = std::move(base);
    add_rule_book(reading.plan, notes);
    reading.findings = std::move(notes.findings);
    return reading;
}

/// Each choice, or stress, of a sound plan is tried, so that a slip in it shows before it is asked for.
template <class Named>
void try_each(const char* list, const std::vector<Named>& named, const toml::table& root, const Plan& plan, std::vector<Finding>& findings) {
    for (std::size_t c = 0; c < named.size(); ++c) {
        const toml::table& choice = *root[list].as_array()->get(c)->as_table();  // the plan is sound
        toml::table changed = root;
        ReadingNotes notes;
        for (const Splice& splice : splices_of(choice)) apply_splice(changed, splice, notes);
        const ChoicePlace place = place_of(choice);
        for (const Finding& found : read_table(changed, std::move(notes), base_of(plan)).findings) {
            if (found.severity == Severity::warning) continue;
            Finding told{Severity::error,
                         numbered(list, c) + place.key,
                         "",
                         std::string(list) + " \"" + named[c].name + "\": " + to_text(found),
                         "",
                         "",
                         static_cast<int>(place.position.line),
                         static_cast<int>(place.position.column)};
            findings.push_back(std::move(told));
        }
    }
}

/// Line of the first byte that is not UTF-8; 0 when all is.
std::size_t line_not_utf8(std::string_view text) {
    std::size_t line = 1;
    for (std::size_t i = 0; i < text.size();) {
        const auto c = static_cast<unsigned char>(text[i]);
        const std::size_t length = c < 0x80 ? 1 : c >> 5 == 6 ? 2 : c >> 4 == 14 ? 3 : c >> 3 == 30 ? 4 : 0;
        if (length == 0 || i + length > text.size()) return line;
        for (std::size_t k = 1; k < length; ++k) {
            if ((static_cast<unsigned char>(text[i + k]) & 0xc0) != 0x80) return line;
        }
        if (c == '\n') ++line;
        i += length;
    }
    return 0;
}

/// Line of the first text that no plan has: a longer one nests deeper than any reader can follow.
std::size_t line_too_long(std::string_view text) {
    constexpr std::size_t longest = 10'000;
    std::size_t line = 1;
    for (std::size_t begin = 0;; ++line) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        if (end - begin > longest) return line;
        if (end == text.size()) return 0;
        begin = end + 1;
    }
}

/// The shortest run of lines from the start in which the TOML reader loses its way: the last of them is to blame.
std::size_t line_where_lost(std::string_view text) {
    std::size_t line = 1;
    for (std::size_t end = text.find('\n'); end != std::string_view::npos; end = text.find('\n', end + 1), ++line) {
        try {
            static_cast<void>(toml::parse(text.substr(0, end)));
        } catch (const toml::parse_error&) {
            // Cut inside something that goes on over several lines.
        } catch (const TomlLost&) {
            break;
        }
    }
    return line;
}

PlanReading unreadable(std::string message, std::string hint, std::size_t line) {
    PlanReading reading;
    reading.findings.push_back(
        {Severity::error, "", "", std::move(message), std::move(hint), "", static_cast<int>(line), 0});
    return reading;
}

PlanReading read_text(std::string_view text, const std::vector<Change>& changes) {
    if (const std::size_t line = line_not_utf8(text); line != 0)
        return unreadable("is not UTF-8 text", "save the file as UTF-8 in your editor", line);
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
        return unreadable("the plan is empty", "start from one that works: seasonrisk new", 0);
    if (const std::size_t line = line_too_long(text); line != 0)
        return unreadable("is longer than any line of a plan", "break it into several lines", line);
    const std::string refusal = "cannot be read as TOML: ";
    const std::string advice = "look at this line and the one before it: a quote, a bracket or an = may be missing";
    toml::table root;
    try {
        root = toml::parse(text);
    } catch (const toml::parse_error& error) {
        return unreadable(refusal + std::string(error.description()), advice, error.source().begin.line);
    } catch (const TomlLost& lost) {
        return unreadable(refusal + lost.what(), advice, line_where_lost(text));
    }
    PlanReading plain = read_table(root, {}, {});
    if (!plain.ok()) return plain;  // a choice is a change to a sound plan
    if (changes.empty()) {
        try_each("choice", plain.plan.choice, root, plain.plan, plain.findings);
        try_each("stress", plain.plan.stress, root, plain.plan, plain.findings);
        return plain;
    }
    ReadingNotes notes;
    for (const Change& change : changes) apply_change(root, change, notes);
    return read_table(root, std::move(notes), base_of(plain.plan));
}

}  // namespace

bool PlanReading::ok() const {
    return std::ranges::none_of(findings, [](const Finding& finding) { return finding.severity == Severity::error; });
}

PlanReading read_plan(std::string_view toml_text, const std::string& file_name, const std::vector<Change>& changes) {
    PlanReading reading = read_text(toml_text, changes);
    for (Finding& finding : reading.findings) finding.file = file_name;
    std::ranges::stable_sort(reading.findings, {}, [](const Finding& finding) { return finding.line; });
    return reading;
}

}  // namespace seasonrisk
