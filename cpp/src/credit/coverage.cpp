// SPDX-License-Identifier: MIT
#include "seasonrisk/credit/coverage.hpp"

#include "lengths.hpp"

namespace seasonrisk {
namespace {

/// Of the histories with payments; the others have no ratio.
std::vector<double> over_payments(const std::vector<double>& amounts, std::span<const double> payments) {
    std::vector<double> ratios;
    ratios.reserve(amounts.size());
    for (std::size_t i = 0; i < amounts.size(); ++i) {
        if (payments[i] > 0.0) ratios.push_back(amounts[i] / payments[i]);
    }
    return ratios;
}

}  // namespace

Coverage coverage(const YearForLender& year) {
    const std::size_t histories = year.standing.size();
    check_length("loan_payments", year.loan_payments.size(), histories);
    check_length("loan_interest", year.loan_interest.size(), histories);
    check_length("overdraft_interest", year.overdraft_interest.size(), histories);
    check_length("tax", year.tax.size(), histories);
    check_length("draw", year.draw.size(), histories);
    check_length("other_income", year.other_income.size(), histories);
    check_length("overdrawn_before", year.overdrawn_before.size(), histories);

    Coverage found;
    found.available.assign(year.standing.begin(), year.standing.end());
    for (std::vector<double>* part : {&found.capacity, &found.repayment_margin, &found.replacement_margin}) part->resize(histories);
    for (std::size_t i = 0; i < histories; ++i) {
        const double net_income = year.standing[i] - year.overdraft_interest[i] - year.loan_interest[i] - year.wear;
        found.capacity[i] = net_income + year.other_income[i] + year.wear + year.loan_interest[i] - year.draw[i] - year.tax[i];
        found.repayment_margin[i] = found.capacity[i] - year.loan_payments[i] - year.overdrawn_before[i];
        found.replacement_margin[i] = found.repayment_margin[i] - year.wear;
    }
    found.before_household = over_payments(found.available, year.loan_payments);
    found.after_household = over_payments(found.capacity, year.loan_payments);
    return found;
}

}  // namespace seasonrisk
