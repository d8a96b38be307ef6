// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"

/// \file
/// The payment that pays a loan off, and what wear leaves of an asset.
namespace seasonrisk {

/// Level payment that pays `balance` off in `payments` payments at `rate` a payment (annuity formula, common
/// practice); an equal part when there is no interest.
SEASONRISK_STEP double level_payment(double balance, double rate, double payments) {
    if (rate <= 0.0) return balance / payments;
    // ln(1 + r) and 1 - exp(-a) lose their digits near 0; there their series (textbook) keep them.
    const double log_growth =
        rate > 1e-3 ? log(1.0 + rate) : rate * (1.0 - rate * (1.0 / 2 - rate * (1.0 / 3 - rate * (1.0 / 4 - rate * (1.0 / 5)))));
    const double a = payments * log_growth;
    const double paid_off = a > 1e-2 ? 1.0 - exp(-a) : a * (1.0 - a / 2 * (1.0 - a / 3 * (1.0 - a / 4 * (1.0 - a / 5 * (1.0 - a / 6)))));
    return balance * rate / paid_off;
}

/// What an asset is worth at an age: worn straight from cost to resale.
SEASONRISK_STEP double worn_value(double cost, double resale, double life_years, double age_years) {
    const double worn = age_years / life_years;
    return cost - (cost - resale) * (worn < 1.0 ? worn : 1.0);
}

}  // namespace seasonrisk
