// SPDX-License-Identifier: MIT
#include "notes.hpp"

#include <algorithm>
#include <sstream>

#include "words.hpp"

namespace seasonrisk {
namespace {

/// A single value as the owner would write it, on one line and shortened.
std::string written(const toml::node& node) {
    std::string text;
    if (const auto* number = node.as_floating_point()) {
        text = number_text(number->get());
    } else if (const auto* word = node.as_string()) {
        text.append(1, '"').append(word->get()).append(1, '"');
    } else {
        std::ostringstream out;
        node.visit([&](const auto& value) { out << toml::toml_formatter{value}; });
        text = out.str();
    }
    std::ranges::replace_if(
        text, [](char c) { return (c >= 0 && c < 0x20) || c == 0x7f; }, ' ');
    std::size_t end = 60;
    if (text.size() <= end) return text;
    while ((static_cast<unsigned char>(text[end]) & 0xc0) == 0x80) --end;  // never half a letter
    return text.substr(0, end) + "...";
}

}  // namespace

void ReadingNotes::add(Severity severity, const std::string& path, const toml::node* node, std::string message,
                       std::string hint) {
    Finding finding{severity, path, "", std::move(message), std::move(hint), "", 0, 0};
    if (node != nullptr) {
        if (!node->is_table() && !node->is_array()) finding.value = written(*node);
        finding.line = static_cast<int>(node->source().begin.line);
        finding.column = static_cast<int>(node->source().begin.column);
    }
    findings.push_back(std::move(finding));
}

const char* kind_of(const toml::node& node) {
    switch (node.type()) {
        case toml::node_type::table:
            return "a table";
        case toml::node_type::array:
            return "a list";
        case toml::node_type::string:
            return "a text";
        case toml::node_type::integer:
        case toml::node_type::floating_point:
            return "a number";
        case toml::node_type::boolean:
            return "true or false";
        case toml::node_type::date:
            return "a date";
        case toml::node_type::time:
            return "a time of day";
        case toml::node_type::date_time:
            return "a date with a time of day";
        case toml::node_type::none:
            break;
    }
    return "nothing";
}

}  // namespace seasonrisk
