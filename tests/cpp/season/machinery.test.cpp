// SPDX-License-Identifier: MIT
#include "seasonrisk/season/machinery.hpp"

#include <algorithm>
#include <cmath>

#include "catch.hpp"

using namespace seasonrisk;

namespace {

Breakdown<Lanes> kind_that_wears(double per_100_days, double shape) {
    Breakdown<Lanes> kind;
    kind.per_100_days = Lanes(per_100_days);
    kind.wear_shape = Lanes(shape);
    kind.wear_reference_hours = Lanes(6000.0);
    return kind;
}

}  // namespace

TEST_CASE("no day of a year has more odds of a breakdown than the year's most", "[machinery]") {
    constexpr double hours_a_day = 9.0;
    for (const double shape : {0.6, 0.99, 1.0, 1.001, 1.8, 6.0, 20.0}) {
        for (const double hours_before : {0.0, 3.0, 2400.0, 5200.0, 30000.0}) {
            const Breakdown<Lanes> kind = kind_that_wears(0.06, shape);
            const Lanes most = most_worn_odds(kind, Lanes(hours_before), Lanes(hours_a_day));
            double highest = 0.0;
            for (int day = 0; day < 366; ++day) highest = std::max(highest, worn_odds(kind, Lanes(hours_before + hours_a_day * day))[0]);
            for (int day = 0; day < 366; ++day) highest = std::max(highest, worn_odds(kind, Lanes(hours_a_day * day))[0]);  // set back by a repair
            CAPTURE(shape, hours_before);
            CHECK(highest <= most[0]);
        }
    }
}

TEST_CASE("what grows with the hours has its most odds at the year's end", "[machinery]") {
    // The hazard of the plan's own definition: per_100_days / 100 (hours / reference)^(shape - 1) a day out.
    const double end = 1.0 - std::exp(-0.06 / 100.0 * std::pow((5200.0 + 366.0 * 9.0) / 6000.0, 0.8));
    const Lanes most = most_worn_odds(kind_that_wears(0.06, 1.8), Lanes(5200.0), Lanes(9.0));
    CHECK(most[0] >= end);
    CHECK(most[0] <= end * (1.0 + 1e-8));
}
