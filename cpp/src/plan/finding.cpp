// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/finding.hpp"

namespace seasonrisk {
namespace {

std::string all_text(const std::vector<Finding>& findings) {
    std::string text;
    for (const Finding& finding : findings) {
        if (!text.empty()) text += '\n';
        text += to_text(finding);
    }
    return text;
}

}  // namespace

std::string to_text(const Finding& finding) {
    std::string text = finding.file;
    if (!text.empty() && finding.line > 0) text.append(":").append(std::to_string(finding.line));
    if (!text.empty()) text += ": ";
    if (finding.severity == Severity::warning) text += "warning: ";
    if (!finding.path.empty()) text += finding.path + (finding.value.empty() ? "" : " = " + finding.value) + ": ";
    text += finding.message;
    if (!finding.hint.empty()) text += "; " + finding.hint;
    return text;
}

PlanError::PlanError(std::vector<Finding> all) : Error(all_text(all)), findings(std::move(all)) {}

}  // namespace seasonrisk
