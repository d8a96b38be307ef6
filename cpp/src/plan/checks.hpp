// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "seasonrisk/plan/finding.hpp"
#include "seasonrisk/plan/plan.hpp"
#include "words.hpp"

/// \file
/// The chapters of the rule book. Each looks at the whole plan and writes down what it finds.
namespace seasonrisk {

class Notebook {
public:
    std::vector<Finding> findings{};

    void error(const std::string& path, const std::string& value, std::string message, std::string hint = "") {
        findings.push_back({Severity::error, path, value, std::move(message), std::move(hint), "", 0, 0});
    }
    void warning(const std::string& path, const std::string& value, std::string message, std::string hint = "") {
        findings.push_back({Severity::warning, path, value, std::move(message), std::move(hint), "", 0, 0});
    }
    /// Known to the design, not simulated yet.
    void not_yet(const std::string& path, const std::string& what) {
        error(path, "", what.empty() ? k_not_yet : what + " " + k_not_yet, "leave it out for now");
    }
};

/// Each value against the range of its own key.
void check_ranges(const Plan& plan, Notebook& book);
/// Dates, days off, and what is told by month.
void check_calendar(const Plan& plan, Notebook& book);
/// How many sections there are, and whether names are single and name what is there.
void check_names(const Plan& plan, Notebook& book);
/// Pots and hauls, crew, bills, loans, tax: what must stand together, and what must not.
void check_trade(const Plan& plan, Notebook& book);
/// Ties between years, species and prices; guesses that would share their draws.
void check_ties(const Plan& plan, Notebook& book);

/// What the reader knows and the engine does not simulate yet.
void check_not_yet(const Plan& plan, Notebook& book);

}  // namespace seasonrisk
