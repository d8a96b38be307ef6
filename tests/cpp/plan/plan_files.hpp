// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "seasonrisk/plan/read_plan.hpp"

/// \file
/// What the tests of plan/ share: the sound plans that they break, and findings as text.
namespace plan_tests {

inline std::filesystem::path repository() { return SEASONRISK_REPOSITORY; }

inline std::string text_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) throw std::runtime_error("cannot open " + file.string());
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

inline std::filesystem::path broken_plans() { return repository() / "tests" / "data" / "broken_plans"; }
inline std::string sound_text() { return text_of(broken_plans() / "sound.toml"); }
inline std::string business_text() { return text_of(broken_plans() / "business.toml"); }

/// The text with `before`, which must stand in it once, replaced by `after`.
inline std::string changed(std::string text, const std::string& before, const std::string& after) {
    const std::size_t at = text.find(before);
    if (at == std::string::npos || text.find(before, at + 1) != std::string::npos)
        throw std::runtime_error("stands not once in the plan: " + before);
    return text.replace(at, before.size(), after);
}

inline std::vector<std::string> texts_of(const std::vector<seasonrisk::Finding>& findings) {
    std::vector<std::string> texts;
    for (const auto& finding : findings) texts.push_back(to_text(finding));
    return texts;
}

}  // namespace plan_tests
