// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/check_plan.hpp"

#include <algorithm>

#include "checks.hpp"

namespace seasonrisk {

std::vector<Finding> check_plan(const Plan& plan) {
    Notebook book;
    check_ranges(plan, book);
    check_calendar(plan, book);
    check_dates(plan, book);
    check_names(plan, book);
    check_goods(plan, book);
    check_unsold(plan, book);
    check_selling(plan, book);
    check_boats(plan, book);
    check_mishaps(plan, book);
    check_trade(plan, book);
    check_suppose(plan, book);
    check_lender(plan, book);
    check_ties(plan, book);
    return book.findings;
}

void require_sound(const Plan& plan) {
    std::vector<Finding> findings = check_plan(plan);
    const auto is_error = [](const Finding& finding) { return finding.severity == Severity::error; };
    if (std::ranges::any_of(findings, is_error)) throw PlanError(std::move(findings));
}

}  // namespace seasonrisk
