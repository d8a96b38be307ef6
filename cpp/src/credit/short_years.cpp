// SPDX-License-Identifier: MIT
#include "seasonrisk/credit/short_years.hpp"

#include <algorithm>

#include "lengths.hpp"

namespace seasonrisk {

WhoCovers who_covers(const YearForHousehold& year) {
    const std::size_t histories = year.household.size();
    check_length("draw", year.draw.size(), histories);
    check_length("other_income", year.other_income.size(), histories);
    check_length("opening_cash", year.opening_cash.size(), histories);
    check_length("overdraft_limit", year.overdraft_limit.size(), histories);

    WhoCovers found;
    for (std::vector<double>* part : {&found.shortage, &found.reserve, &found.overdraft, &found.household, &found.other_income, &found.nobody}) part->resize(histories);
    for (std::size_t i = 0; i < histories; ++i) {
        double rest = found.shortage[i] = std::max(0.0, -year.household[i]);
        const auto give = [&rest](double at_most) {
            const double given = std::clamp(rest, 0.0, std::max(0.0, at_most));
            rest -= given;
            return given;
        };
        const double lived_on_income = std::min(year.draw[i], year.other_income[i]);
        found.reserve[i] = give(year.opening_cash[i]);
        found.overdraft[i] = give(year.overdraft_limit[i] + std::min(0.0, year.opening_cash[i]));
        found.household[i] = give(year.draw[i] - lived_on_income);
        found.other_income[i] = give(lived_on_income);
        found.nobody[i] = rest;
    }
    return found;
}

}  // namespace seasonrisk
