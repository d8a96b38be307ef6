// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "toml.hpp"

#include "seasonrisk/plan/finding.hpp"

namespace seasonrisk {

/// What comes of reading a plan; the readers of all its sections share it.
struct ReadingNotes {
    std::vector<Finding> findings{};
    std::map<std::string, toml::source_position> places{};  ///< where each key stands in the file, by key path
    std::set<std::string> unread{};  ///< paths that hold no value yet: what the rule book says of them means nothing

    void add(Severity severity, const std::string& path, const toml::node* node, std::string message,
             std::string hint = "");

    /// A key of the plan that could not be read.
    void error(const std::string& path, const toml::node* node, std::string message, std::string hint = "") {
        unread.insert(path);
        add(Severity::error, path, node, std::move(message), std::move(hint));
    }
};

/// What sort of value a node holds, with its article: "a text", "a number".
const char* kind_of(const toml::node& node);

}  // namespace seasonrisk
