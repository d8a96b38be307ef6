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

TEST_CASE("the month's logit is found for every share and every spread of years a plan may have", "[season]") {
    // Source: common practice; the stated share must come back from the nodes it was solved on, however rare bad
    // days are. Plain Newton from the probit start runs away from 1e-6 at a spread of 3, and from its mirror.
    constexpr double nodes[8] = {0.3867606045005574, 1.1638291005549648, 1.9519803457163334, 2.7602450476307014,
                                 3.6008736241715487, 4.492955302520011, 5.472225705949343, 6.630878198393129};
    constexpr double weights[8] = {0.286568521238012, 0.1583383727509497, 0.04728475235401406, 0.007266937601184749,
                                   0.0005259849265739087, 1.530003216248732e-05, 1.309473216286817e-07, 1.4978147231618412e-10};
    for (const double rare : {1e-9, 1e-6, 1e-4, 0.01, 0.2, 0.5}) {
        for (const double sd : {0.0, 0.3, 1.0, 1.5, 2.0, 3.0}) {
            CAPTURE(rare, sd);
            const double a = logit_with_mean(rare, sd);
            double share = 0.0;
            for (int n = 0; n < 8; ++n)
                share += weights[n] * (1.0 / (1.0 + std::exp(-a - sd * nodes[n])) + 1.0 / (1.0 + std::exp(-a + sd * nodes[n])));
            CHECK(std::abs(share / rare - 1.0) < 1e-9);
            CHECK(std::abs(logit_with_mean(1.0 - rare, sd) + a) < 1e-5 * std::abs(a) + 1e-5);  // 1 - 1e-9 has seven digits
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
