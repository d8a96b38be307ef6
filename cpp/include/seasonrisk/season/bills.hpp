// SPDX-License-Identifier: MIT
#pragma once

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"

/// \file
/// What falls due at month ends whatever the season does: bills, loan payments, household.
namespace seasonrisk {

/// By month of the money year.
struct MonthBills {
    Lanes out[12];            ///< bills, premium, inputs, loan payments and draw, less other income
};

/// Level payment that pays `balance` off in `payments` payments at `rate` a payment (annuity formula, common
/// practice); an equal part when there is no interest.
SEASONRISK_STEP double level_payment(double balance, double rate, double payments) {
    if (rate <= 0.0) return balance / payments;
    return balance * rate / (1.0 - exp(-payments * log(1.0 + rate)));
}

}  // namespace seasonrisk
