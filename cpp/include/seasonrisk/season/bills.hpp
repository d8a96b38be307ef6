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

/// What a loan asks for at one payment, and the interest in it.
struct PaymentDue {
    double due = 0.0;
    double interest = 0.0;
};

/// One payment of a loan at `rate` a payment: nothing once all are made, interest alone where that is agreed and it is
/// not the last, else the level payment; of a loan that may end early no more than is owed.
SEASONRISK_STEP PaymentDue payment_due(double owed, double rate, double level, double payments_left, bool interest_alone, bool may_end_early) {
    const double interest = payments_left > 0.0 ? owed * rate : 0.0;
    const double full = payments_left <= 0.0 ? 0.0 : interest_alone && payments_left > 1.0 ? interest : level;
    const double all = owed + interest;
    return {may_end_early && full > all ? all : full, interest};
}

/// What an asset is worth at an age: worn straight from cost to resale.
SEASONRISK_STEP double worn_value(double cost, double resale, double life_years, double age_years) {
    const double worn = age_years / life_years;
    return cost - (cost - resale) * (worn < 1.0 ? worn : 1.0);
}

}  // namespace seasonrisk
