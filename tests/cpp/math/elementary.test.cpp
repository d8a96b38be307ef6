// SPDX-License-Identifier: MIT
#include "seasonrisk/math/elementary.hpp"

#include <cmath>
#include <limits>
#include <random>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include "catch.hpp"

// Source of every expected value: 50-digit arithmetic of Boost.Multiprecision. Bound: Sun's fdlibm, e_exp.c and
// e_log.c, "the error is always less than 1 ulp" (unit in the last place). The worst of 60 million points each,
// against 64-bit mantissas, were 0.921 (exp) and 0.846 (log); those two points are among the ones tried here.
namespace {

using Exact = boost::multiprecision::cpp_bin_float_50;
constexpr double k_most_ulp = 1.0;
constexpr int k_points = 50'000;

/// Distance in units of the last place of the exact value rounded to double.
double ulps(double ours, const Exact& exact) {
    const double nearest = static_cast<double>(exact);
    const double place =
        std::nextafter(std::fabs(nearest), std::numeric_limits<double>::infinity()) - std::fabs(nearest);
    return static_cast<double>(abs(Exact(ours) - exact) / Exact(place));
}

struct Worst {
    double error = 0.0;
    double at = 0.0;
    void see(double found, double x) {
        if (found > error) *this = {found, x};
    }
};

/// One random point in each of k_points equal parts of the range.
template <typename Look>
void walk(double from, double to, Look look) {
    std::mt19937_64 bits(20270601);
    for (int i = 0; i < k_points; ++i) {
        const double inside = static_cast<double>(bits() >> 11) * 0x1p-53;
        look(from + (to - from) * (i + inside) / k_points);
    }
}

}  // namespace

TEST_CASE("exp is right to less than a unit of the last place over its whole range", "[math]") {
    Worst worst;
    const auto look = [&](double x) { worst.see(ulps(seasonrisk::exp(x), exp(Exact(x))), x); };

    walk(-708.0, 709.0, look);
    walk(-1.0, 1.0, look);
    for (const double x : {-708.0, -649.82319429830909, -1e-300, 0.0, 1e-300, 0.34657359027997264, 709.0}) look(x);

    INFO("worst " << worst.error << " ulp at " << worst.at);
    REQUIRE(worst.error > 0.3);  // the yardstick can see an error: half a place is unavoidable
    REQUIRE(worst.error < k_most_ulp);
}

TEST_CASE("exp keeps its argument between -708 and 709, and a value that is no number stays none", "[math]") {
    REQUIRE(seasonrisk::exp(-1e9) == seasonrisk::exp(-708.0));
    REQUIRE(seasonrisk::exp(1e9) == seasonrisk::exp(709.0));
    REQUIRE(std::isfinite(seasonrisk::exp(709.0)));
    REQUIRE(std::isnormal(seasonrisk::exp(-708.0)));
    REQUIRE(std::isnan(seasonrisk::exp(std::numeric_limits<double>::quiet_NaN())));
    REQUIRE(seasonrisk::exp(0.0) == 1.0);
}

TEST_CASE("log is right to less than a unit of the last place for every positive normal number", "[math]") {
    Worst worst;
    const auto look = [&](double x) { worst.see(ulps(seasonrisk::log(x), log(Exact(x))), x); };

    walk(-1021.9, 1023.9, [&](double exponent) { look(std::exp2(exponent)); });
    walk(0.5, 2.0, look);
    walk(0.0, 33.0, [&](double bits) { look(1.0 - std::exp2(-1.0 - bits)); });  // close to 1, where log is small
    walk(0.0, 33.0, [&](double bits) { look(1.0 + std::exp2(-1.0 - bits)); });
    for (const double x :
         {std::numeric_limits<double>::min(), 0x1p-33, 0.70710678118654752, 0.70710678118654757, 1.3996433348309953,
          1.4142135623730949, 1.4142135623730951, std::numeric_limits<double>::max()})
        look(x);

    INFO("worst " << worst.error << " ulp at " << worst.at);
    REQUIRE(worst.error > 0.3);
    REQUIRE(worst.error < k_most_ulp);
    REQUIRE(seasonrisk::log(1.0) == 0.0);
}

TEST_CASE("power is exp(y log x): its error grows with |y log x| and no faster", "[math]") {
    Worst worst;
    walk(1e-6, 50.0, [&](double x) {
        for (const double y : {-0.3, 0.5, 0.8, 1.0, 3.0}) {
            const Exact exact = pow(Exact(x), Exact(y));
            // Relative error of exp's argument: log 1 ulp + the product's half ulp, each at most 2^-52 of it.
            const double allowed = (1.5 * std::fabs(y * std::log(x)) + k_most_ulp) * 0x1p-52;
            worst.see(static_cast<double>(abs(Exact(seasonrisk::power(x, y)) / exact - 1)) / allowed, x);
        }
    });

    INFO("worst share of what is allowed " << worst.error << " at " << worst.at);
    REQUIRE(worst.error > 0.1);
    REQUIRE(worst.error < 1.0);
}

TEST_CASE("odds and their logarithm agree with 50-digit arithmetic and undo each other", "[math]") {
    Worst expit_worst;
    Worst logit_worst;
    walk(-30.0, 30.0, [&](double x) {
        const Exact exact = 1 / (1 + exp(-Exact(x)));
        expit_worst.see(static_cast<double>(abs(Exact(seasonrisk::expit(x)) / exact - 1)), x);
    });
    walk(1e-6, 1.0 - 1e-6, [&](double p) {
        const Exact exact = log(Exact(p) / (1 - Exact(p)));
        logit_worst.see(static_cast<double>(abs(Exact(seasonrisk::logit(p)) - exact)), p);
    });

    // exp 1 ulp + sum and quotient half an ulp each = 2 ulp = 4.5e-16.
    INFO("expit, relative: " << expit_worst.error << " at " << expit_worst.at);
    REQUIRE(expit_worst.error < 4.5e-16);
    // Absolute: log of at most 13.8 (1 ulp = 1.8e-15) and the quotient's two roundings (2.3e-16).
    INFO("logit, absolute: " << logit_worst.error << " at " << logit_worst.at);
    REQUIRE(logit_worst.error < 2.0e-15);
    REQUIRE(seasonrisk::expit(seasonrisk::logit(0.15)) == Approx(0.15).epsilon(1e-14).margin(0.0));
}
