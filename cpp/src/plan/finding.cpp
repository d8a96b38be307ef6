// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/finding.hpp"

namespace seasonrisk {
namespace {

std::string all_text(const std::vector<Finding>& findings) {
    std::string text;
    for (const Finding& finding : findings) text += (text.empty() ? "" : "\n") + to_text(finding);
    return text;
}

}  // namespace

std::string to_text(const Finding& finding) {
    std::string text;
    if (!finding.file.empty()) text += finding.file + ":" + (finding.line > 0 ? std::to_string(finding.line) + ":" : "") + " ";
    if (finding.severity == Severity::warning) text += "warning: ";
    if (!finding.path.empty()) text += finding.path + (finding.value.empty() ? "" : " = " + finding.value) + ": ";
    text += finding.message;
    if (!finding.hint.empty()) text += "; " + finding.hint;
    return text;
}

PlanError::PlanError(std::vector<Finding> all) : Error(all_text(all)), findings(std::move(all)) {}

}  // namespace seasonrisk
