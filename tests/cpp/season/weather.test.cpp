// SPDX-License-Identifier: MIT
#include "seasonrisk/season/weather.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>

#include "catch.hpp"
#include "seasonrisk/season/prepared_plan.hpp"

using namespace seasonrisk;

TEST_CASE("the month's logit keeps the stated share of bad days over the years", "[season]") {
    // Oracle: adaptive Gauss-Kronrod of Boost.Math, not the 16 nodes of the library.
    for (const double fraction : {0.02, 0.15, 0.30, 0.50, 0.92}) {
        for (const double sd : {0.1, 0.5, 0.8}) {
            CAPTURE(fraction, sd);
            const double a = logit_with_mean(fraction, sd);
            const auto over_years = [&](double z) {
                return std::exp(-0.5 * z * z) / std::sqrt(2.0 * 3.14159265358979323846) / (1.0 + std::exp(-(a + sd * z)));
            };

            const double share = boost::math::quadrature::gauss_kronrod<double, 61>::integrate(over_years, -12.0, 12.0, 8, 1e-14);

            CHECK(std::abs(share - fraction) < 1e-9);
        }
    }
}

TEST_CASE("leaving the logit alone under a year effect would move the mean", "[season]") {
    // Negative control for the test above: the plain logit is off by more than the bound there.
    const double plain = logit(0.30);
    CHECK(std::abs(plain - logit_with_mean(0.30, 0.8)) > 0.05);
}

TEST_CASE("fractions of 0 and 1 stay exact whatever the year and the boat", "[season]") {
    CHECK(bad_day_chance(0.0, 0.3, 2.0, 0.4) == 0.0);
    CHECK(bad_day_chance(1.0, 0.3, -2.0, 0.4) == 1.0);
    CHECK(bad_day_chance(0.0, 1.4) == 0.0);
    CHECK(bad_day_chance(1.0, 1.4) == 1.0);
}

TEST_CASE("a boat's odds are the harbour's odds times its multiplier", "[season]") {
    // 0.25 at odds 1.4 is 0.318182 (two-boats-one-weather of the outside checks: 0.3182).
    CHECK(std::abs(bad_day_chance(0.25, 1.4) - 0.35 / 1.10) < 1e-15);
}

TEST_CASE("chains start far enough back to have forgotten their start to a millionth", "[season]") {
    CHECK(steps_to_forget(0.0) == 0);
    CHECK(steps_to_forget(0.45) == 18);  // 0.45^17 = 1.27e-6, 0.45^18 = 5.7e-7
    CHECK(steps_to_forget(0.5) == 20);   // 2^-20 = 9.5e-7
    CHECK(steps_to_forget(0.9999) == 730);
}
