// SPDX-License-Identifier: MIT
#include "seasonrisk/math/spread.hpp"

#include <bit>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>

#include "catch.hpp"

using namespace seasonrisk;

namespace {

using Bend = Spread::Bend;
const boost::math::normal k_normal;

Spread days(double low, double typical, double high) {
    return make_spread(Bend::above, -1.0, 0.0, low, typical, high, true);
}

/// Invented, one or more of each scale: even, lopsided, one side without slope, close to a bound.
struct Case {
    Bend bend;
    double bound_low, bound_high, low, typical, high;
    Spread spread() const { return make_spread(bend, bound_low, bound_high, low, typical, high, false); }
};
const std::vector<Case> k_cases = {
    {Bend::plain, 0.0, 0.0, -3.0, 1.0, 12.0},    {Bend::plain, 0.0, 0.0, 5.0, 5.0, 6.0},
    {Bend::above, 0.0, 0.0, 20.0, 30.0, 45.0},   {Bend::above, 0.0, 0.0, 0.2, 1.0, 9.0},
    {Bend::above, -1.0, 0.0, -0.2, 0.02, 0.1},   {Bend::between, 0.0, 1.0, 0.05, 0.15, 0.4},
    {Bend::between, -1.0, 1.0, -0.9, -0.3, 0.1}, {Bend::between, 0.0, 1.0, 0.3, 0.9, 0.999},
};

/// E f(z) over a half of the standard normal, by Gauss-Kronrod with 61 points on each unit of z.
template <typename F>
double half_mean(F f, double side) {
    double sum = 0.0;
    for (int unit = 0; unit < 12; ++unit) {
        sum += boost::math::quadrature::gauss_kronrod<double, 61>::integrate(
            [&](double z) { return f(side * z) * boost::math::pdf(k_normal, z); }, unit, unit + 1.0, 5, 1e-14);
    }
    return sum;
}

}  // namespace

TEST_CASE("a spread meets its three points and never falls", "[math]") {
    // By the definition of low, typical and high: 1 in 10, the middle, 9 in 10.
    REQUIRE(k_one_in_ten_z == Approx(boost::math::quantile(k_normal, 0.9)).margin(1e-12).epsilon(0.0));
    for (const Case& c : k_cases) {
        const Spread spread = c.spread();
        CAPTURE(c.low, c.typical, c.high);

        REQUIRE(at(spread, -k_one_in_ten_z) == Approx(c.low).epsilon(1e-13).margin(1e-14));
        REQUIRE(at(spread, 0.0) == Approx(c.typical).epsilon(1e-13).margin(1e-14));
        REQUIRE(at(spread, k_one_in_ten_z) == Approx(c.high).epsilon(1e-13).margin(1e-14));

        int falls = 0;
        for (double z = -6.34; z < 6.34; z += 0.001) falls += at(spread, z + 0.001) < at(spread, z) ? 1 : 0;
        REQUIRE(falls == 0);
        if (c.bend != Bend::plain) REQUIRE(at(spread, -6.34) > c.bound_low);
        if (c.bend == Bend::between) REQUIRE(at(spread, 6.34) < c.bound_high);
    }
}

TEST_CASE("a batch of values has the bits of single ones", "[math]") {
    // An identity: no outside source.
    Lanes z;
    for (int i = 0; i < k_lanes; ++i) z[i] = (i - 15.5) * 0.4;
    for (const Case& c : k_cases) {
        for (const Spread& spread : {c.spread(), days(1.0, 3.0, 12.0)}) {
            const Lanes batch = at(spread, z);
            for (int i = 0; i < k_lanes; ++i) {
                REQUIRE(std::bit_cast<std::uint64_t>(batch[i]) == std::bit_cast<std::uint64_t>(at(spread, z[i])));
            }
        }
    }
}

TEST_CASE("ELIC-04: points of a log-normal give back that log-normal, and of a normal that normal", "[math]") {
    // SHELF R package (Oakley), tests/testthat/test-fitting.R, commit 8a721242: values and cumulative chances,
    // with the parameters they must lead back to within 0.001 relative. Its gamma is no scale of ours.
    const double log_normal[][2] = {{22, 0.2675269034}, {30, 0.5}, {42, 0.7495086914}};
    const double normal[][2] = {{-10, 0.1586552539}, {10, 0.5}, {50, 0.9772498681}};
    const double mu = 3.401197382, sigma = 0.5, mean_of_normal = 10.0, sd_of_normal = 20.0;
    const double reach = sigma * boost::math::quantile(k_normal, 0.9);
    const double plain_reach = sd_of_normal * boost::math::quantile(k_normal, 0.9);

    const Spread above =
        make_spread(Bend::above, 0.0, 0.0, std::exp(mu - reach), std::exp(mu), std::exp(mu + reach), false);
    const Spread plain = make_spread(Bend::plain, 0.0, 0.0, mean_of_normal - plain_reach, mean_of_normal,
                                     mean_of_normal + plain_reach, false);

    for (const auto& [value, chance] : log_normal) {
        REQUIRE(at(above, boost::math::quantile(k_normal, chance)) == Approx(value).epsilon(1e-8).margin(0.0));
    }
    for (const auto& [value, chance] : normal) {
        REQUIRE(at(plain, boost::math::quantile(k_normal, chance)) == Approx(value).epsilon(1e-8).margin(0.0));
    }
    REQUIRE(above.centre == Approx(mu).epsilon(1e-12).margin(0.0));
    for (const double slope : {above.slope_low, above.slope_high})
        REQUIRE(slope == Approx(sigma).epsilon(1e-11).margin(0.0));
    for (const double slope : {plain.slope_low, plain.slope_high})
        REQUIRE(slope == Approx(sd_of_normal).epsilon(1e-11).margin(0.0));
}

TEST_CASE("the stated mean is the mean of the values", "[math]") {
    // Boost.Math Gauss-Kronrod quadrature of the values themselves, a half at a time.
    for (const Case& c : k_cases) {
        const Spread spread = c.spread();
        CAPTURE(c.low, c.typical, c.high);
        const auto value = [&](double z) { return at(spread, z); };

        const double integral = half_mean(value, -1.0) + half_mean(value, 1.0);

        REQUIRE(mean(spread) == Approx(integral).epsilon(1e-9).margin(1e-10));
    }
    // Johnson, Kotz & Balakrishnan 1994, chapter 14: the log-normal's mean is exp(mu + sigma^2 / 2).
    const Spread even = make_spread(Bend::above, 0.0, 0.0, 15.0, 30.0, 60.0, false);
    const double sigma = std::log(2.0) / k_one_in_ten_z;
    REQUIRE(mean(even) == Approx(30.0 * std::exp(sigma * sigma / 2.0)).epsilon(1e-13).margin(0.0));
}

TEST_CASE("the stated mean of a count is the mean of its rounded values", "[math]") {
    // Sum of count x chance, with the chances between the half values from Boost.Math's normal law.
    const double points[][3] = {{1, 3, 12}, {0, 1, 4}, {7, 14, 60}, {2, 2, 9}, {3, 8, 8}, {4, 4, 4}};
    for (const auto& [low, typical, high] : points) {
        CAPTURE(low, typical, high);
        const double step_low = std::log((typical + 1.0) / (low + 1.0)) / k_one_in_ten_z;
        const double step_high = std::log((high + 1.0) / (typical + 1.0)) / k_one_in_ten_z;
        const auto chance_below = [&, middle = typical](double value) {
            const double off = std::log((value + 1.0) / (middle + 1.0));
            if (off < 0.0) return step_low > 0.0 ? boost::math::cdf(k_normal, off / step_low) : 0.0;
            return step_high > 0.0 ? boost::math::cdf(k_normal, off / step_high) : 1.0;
        };
        double expected = 0.0;
        for (int count = 1; count < 2'000'000; ++count) {
            const double chance = chance_below(count + 0.5) - chance_below(count - 0.5);
            expected += count * chance;
            if (count > 100 && chance * count < 1e-16) break;
        }

        REQUIRE(mean(days(low, typical, high)) == Approx(expected).epsilon(1e-9).margin(0.0));
    }
}

TEST_CASE("a count is rounded half up and never below 0", "[math]") {
    const auto rounded = [](double value) { return at(Spread{Bend::plain, 0.0, 0.0, value, 0.0, 0.0, true}, 0.0); };
    REQUIRE(rounded(2.5) == 3.0);
    REQUIRE(rounded(3.5) == 4.0);
    REQUIRE(rounded(2.499) == 2.0);
    REQUIRE(rounded(-0.7) == 0.0);
    REQUIRE_FALSE(std::signbit(rounded(-0.4)));
    REQUIRE(at(days(0.0, 1.0, 4.0), -6.3) == 0.0);
    REQUIRE(at(days(2.0, 5.0, 9.0), 0.0) == 5.0);
}

TEST_CASE("three points that do not rise inside their bounds are refused by name", "[math]") {
    using Catch::Matchers::Message;
    const double no_number = std::numeric_limits<double>::quiet_NaN();
    const double endless = std::numeric_limits<double>::infinity();
    const auto above_0 = [](double low, double typical, double high) {
        return make_spread(Bend::above, 0.0, 0.0, low, typical, high, false);
    };
    const auto fraction = [](double low, double typical, double high) {
        return make_spread(Bend::between, 0.0, 1.0, low, typical, high, false);
    };
    const auto plain = [](double low, double typical, double high) {
        return make_spread(Bend::plain, 0.0, 0.0, low, typical, high, false);
    };

    REQUIRE_THROWS_MATCHES(above_0(0, 2, 3), std::invalid_argument,
                           Message("low=0 typical=2 high=3: must be finite, not fall and lie above 0"));
    REQUIRE_THROWS_MATCHES(fraction(0.1, 0.5, 1), std::invalid_argument,
                           Message("low=0.1 typical=0.5 high=1: must be finite, not fall and lie above 0 and below 1"));
    REQUIRE_THROWS_MATCHES(plain(2, 1, 3), std::invalid_argument,
                           Message("low=2 typical=1 high=3: must be finite, not fall"));
    REQUIRE_THROWS_AS(fraction(0, 0.5, 0.9), std::invalid_argument);
    REQUIRE_THROWS_AS(above_0(1, 4, 3), std::invalid_argument);
    REQUIRE_THROWS_AS(above_0(-1, 2, 3), std::invalid_argument);
    REQUIRE_THROWS_AS(plain(1, no_number, 3), std::invalid_argument);
    REQUIRE_THROWS_AS(plain(1, 2, endless), std::invalid_argument);
    REQUIRE_NOTHROW(plain(2, 2, 3));
    REQUIRE_NOTHROW(above_0(1, 3, 3));
}
