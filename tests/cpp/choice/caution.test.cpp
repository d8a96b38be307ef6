// SPDX-License-Identifier: MIT
#include <cmath>
#include <cstdint>
#include <functional>
#include <random>
#include <stdexcept>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/choice/caution.hpp"
#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/summary/summary.hpp"

using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using namespace seasonrisk;

namespace {

/// Middles of n equal slices of the distribution.
std::vector<double> slices(int n, const std::function<double(double)>& value_at) {
    std::vector<double> values;
    for (int i = 0; i < n; ++i) values.push_back(value_at((i + 0.5) / n));
    return values;
}

class Luck {
public:
    explicit Luck(std::uint64_t seed) : engine_(seed) {}
    double normal() { return normal_quantile((static_cast<double>(engine_() >> 12) + 0.5) * 0x1p-52); }

private:
    std::mt19937_64 engine_;
};

bool covers(const Estimate& estimate, double truth) { return estimate.low <= truth && truth <= estimate.high; }

}  // namespace

// Source: Delquie (2008), Decision Analysis 5:5-9: "L/3"; delquie-R of the outside decision checks, tolerance 0.0006.
TEST_CASE("the tolerance is a third of the largest loss taken at one chance in twenty", "[choice][caution]") {
    CHECK_THAT(tolerance_of(1.0), WithinAbs(1.0 / 3.0, 0.0006));
    CHECK_THAT(tolerance_of(9'000.0), WithinAbs(9'000.0 / std::log(20.0), 1e-9));
    CHECK_THROWS_WITH(tolerance_of(0.0), Contains("largest_loss=0.000000: must be above 0 and finite"));
}

// Source: Albright & Winston, Practical Management Science, three ventures with R = 1.92 million (expu-venture of the
// outside decision checks): expected utilities 0.0630, 0.0525, 0.0439; tolerance 6e-5. Equal shares stand for the odds.
TEST_CASE("the published three ventures rank as published", "[choice][caution]") {
    constexpr double tolerance = 1.92;
    std::vector<double> less{-0.5, 0.1, 0.1, 1.0};
    std::vector<double> more(20, 1.0);
    for (std::size_t i = 0; i < 7; ++i) more[i] = -1.0;
    more[19] = 3.0;
    const auto utility = [](const std::vector<double>& values) { return 1.0 - std::exp(-certainty_equivalent(values, tolerance).value / tolerance); };

    CHECK_THAT(utility({0.125, 0.125}), WithinAbs(0.0630, 6e-5));
    CHECK_THAT(utility(less), WithinAbs(0.0525, 6e-5));
    CHECK_THAT(utility(more), WithinAbs(0.0439, 6e-5));
    CHECK(certainty_equivalent(std::vector<double>{0.125, 0.125}, tolerance).exact);
}

// Source: second-boat of the outside decision checks (closed form): two equal boats, normal, correlation rho; the
// second boat is worth m - k - s^2 (1 + 2 rho) / (2 R). Four standard errors of a drawn pair (one false alarm in
// 16,000), by the closed form of the weights' spread, R sqrt((exp(s^2 / R^2) - 1) / n) for each, added; it must be below
// a fiftieth of s. The engine tells its own error where more than half of the histories count, and it is no larger.
TEST_CASE("a second boat on the same weather is worth what the closed form says", "[choice][caution]") {
    struct Row { double m, sd, rho, tolerance, cost, gain; };
    for (const Row& row : {Row{30, 25, 0.6, 60, 18, 0.5416666666666661}, Row{30, 25, 0.9, 60, 18, -2.583333333333334}, Row{30, 25, 0.6, 30, 18, -10.916666666666668}}) {
        Luck luck(20270601);
        std::vector<double> one;
        std::vector<double> both;
        for (int i = 0; i < 400'000; ++i) {
            const double z = luck.normal();
            const double other = row.rho * z + std::sqrt(1.0 - row.rho * row.rho) * luck.normal();
            one.push_back(row.m + row.sd * z);
            both.push_back(one.back() + row.m + row.sd * other - row.cost);
        }
        const Estimate gain = certainty_equivalent_difference(one, both, row.tolerance);
        const auto error_of = [&](double variance) { return row.tolerance * std::sqrt(std::expm1(variance / (row.tolerance * row.tolerance)) / 400'000.0); };
        const double both_variance = 2.0 * row.sd * row.sd * (1.0 + row.rho);
        const double error = error_of(row.sd * row.sd) + error_of(both_variance);
        INFO(gain.value << " +- " << gain.standard_error << ", at most " << error << ", against " << row.gain);
        CHECK(std::abs(gain.value - row.gain) < 4.0 * error);
        CHECK(error < row.sd / 50.0);
        const bool many_count = std::exp(-both_variance / (row.tolerance * row.tolerance)) > 0.5;
        CHECK(std::isnan(gain.standard_error) != many_count);
        if (many_count) CHECK(gain.standard_error < error);
    }
}

// Source: deductible-2 of the outside decision checks (first-order condition): loss with odds 0.1, exponential with
// mean 20, premium loaded by 0.3, caution 1/R = 0.02: the best deductible is 14.265502. Slices of the loss leave a
// ripple of 5e-11 in the worth, and the worth falls by 0.5 x 1e-3 x (0.005)^2 = 1e-8 within 0.005 of the best, so the
// best can be told to 0.005 and no finer this way.
TEST_CASE("the best deductible is where the first-order condition puts it", "[choice][caution]") {
    constexpr double odds = 0.1, mean_loss = 20.0, loading = 0.3, tolerance = 50.0, best = 14.265502;
    const std::vector<double> losses = slices(100'000, [](double u) { return -mean_loss * std::log(1.0 - u); });
    const auto worth = [&](double deductible) {
        const double premium = (1.0 + loading) * odds * mean_loss * std::exp(-deductible / mean_loss);
        std::vector<double> left(1'000'000, -premium);
        for (std::size_t i = 0; i < losses.size(); ++i) left[i] -= std::min(losses[i], deductible);
        return certainty_equivalent(left, tolerance).value;
    };
    const double at_best = worth(best);
    CHECK(at_best > worth(best - 0.005));
    CHECK(at_best > worth(best + 0.005));
    CHECK(at_best > worth(0.0));
}

// Source: limits of the formula: a tolerance without end gives the mean, one of nothing the worst season.
TEST_CASE("nothing overflows, from no caution to all of it", "[choice][caution]") {
    const std::vector<double> values{-30'000.0, 0.0, 12'000.0, 50'000.0};

    CHECK_THAT(certainty_equivalent(values, 1e12).value, WithinAbs(8'000.0, 0.01));
    CHECK_THAT(certainty_equivalent(values, 1e-3).value, WithinAbs(-30'000.0 + 1e-3 * std::log(4.0), 1e-9));
    CHECK_THROWS_AS(certainty_equivalent(values, 0.0), std::invalid_argument);
    CHECK_THROWS_AS(certainty_equivalent(std::vector<double>{}, 1.0), std::invalid_argument);
    CHECK(certainty_equivalent_difference(values, values, 5'000.0).exact);
    CHECK(certainty_equivalent_difference(values, values, 5'000.0).value == 0.0);
}

// Source: closed form of a normal: the weights exp(-x / R) of n histories count as n exp(-s^2 / R^2), half of them at
// s = 0.83 R. The worth itself is told all the same.
TEST_CASE("no error is told where fewer than half of the histories count, however many there are", "[choice][caution]") {
    Luck luck(5);
    std::vector<double> values;
    for (int i = 0; i < 20'000; ++i) values.push_back(luck.normal());
    CHECK_FALSE(std::isnan(certainty_equivalent(values, 1.0 / 0.78).standard_error));
    CHECK(std::isnan(certainty_equivalent(values, 1.0 / 0.88).standard_error));
    CHECK_THAT(certainty_equivalent(values, 1.0 / 0.88).value, WithinAbs(-0.44, 0.05));
}

// Source: by hand. One season of 1,000 lost 60 tolerances: it weighs e^60 against 1, so nothing is known of its like.
TEST_CASE("no error is told where the answer rests on the few worst seasons", "[choice][caution]") {
    std::vector<double> base(1000, 10.0);
    base[17] = -600.0;
    std::vector<double> better = base;
    for (std::size_t i = 0; i < better.size(); ++i) better[i] += i % 2 == 0 ? 1.0 : 3.0;
    CHECK(std::isnan(certainty_equivalent(base, 10.0).standard_error));
    CHECK(std::isnan(certainty_equivalent_difference(base, better, 10.0).low));
    CHECK(certainty_equivalent_difference(base, better, 1e6).standard_error > 0.0);
}

// Source: closed form of a normal, m - s^2 / (2 R): -0.25 at m = 0, s = 1, R = 2; the choice halves the spread: -0.0625.
// 368 to 392 of 400: see coverage.test.cpp. Negative control: the plain mean's interval, which caution is not.
TEST_CASE("intervals of what a season is worth cover the truth in about 95 of 100 runs", "[choice][caution][statistics]") {
    int of_worth = 0, of_difference = 0, of_mean = 0;
    for (std::uint64_t run = 0; run < 400; ++run) {
        Luck luck(70'000 + run);
        std::vector<double> base, choice;
        for (int i = 0; i < 2'000; ++i) {
            const double z = luck.normal();
            base.push_back(z);
            choice.push_back(0.5 * (0.6 * z + 0.8 * luck.normal()));
        }
        of_worth += covers(certainty_equivalent(base, 2.0), -0.25);
        of_difference += covers(certainty_equivalent_difference(base, choice, 2.0), 0.1875);
        of_mean += covers(mean(base), -0.25);
    }
    CAPTURE(of_worth, of_difference, of_mean);
    CHECK((of_worth >= 368 && of_worth <= 392));
    CHECK((of_difference >= 368 && of_difference <= 392));
    CHECK(of_mean < 40);
}

// Source: Bernoulli (1738), tr. Sommer, Econometrica 22 (1954):23-36 (bernoulli-ships of the outside decision checks,
// tolerance 0.6): 4,000 at home and goods for 8,000 at sea, of which 1 ship in 10 is lost, are worth 6,751 more in one
// ship and 7,033 in two. Ten and a hundred equal shares stand for the odds.
TEST_CASE("goods in two ships are worth what Bernoulli printed", "[choice][caution]") {
    std::vector<double> one(10, 8'000.0), two;
    one[0] = 0.0;
    for (const double first : one)
        for (const double second : one) two.push_back((first + second) / 2.0);
    CHECK_THAT(certainty_equivalent_of_wealth(one, 4'000.0).value, WithinAbs(6'751.0, 0.6));
    CHECK_THAT(certainty_equivalent_of_wealth(two, 4'000.0).value, WithinAbs(7'033.0, 0.6));
}

// Source: the same (bernoulli-insurance, tolerance 0.7): goods for 10,000, lost 1 time in 20, premium 800. Who has more
// than 5,043 beside them does better uninsured; who has less than 14,243 must not insure another's.
TEST_CASE("to insure and to be insured turn at the wealth that Bernoulli printed", "[choice][caution]") {
    std::vector<double> uninsured(20, 10'000.0), insurer(20, 800.0);
    uninsured[0] = 0.0;
    insurer[0] = 800.0 - 10'000.0;
    const std::vector<double> insured(20, 10'000.0 - 800.0), nothing(20, 0.0);
    const auto turns_at = [](const std::vector<double>& base, const std::vector<double>& choice, double low, double high) {
        while (high - low > 1e-6) {
            const double middle = 0.5 * (low + high);
            (certainty_equivalent_of_wealth_difference(base, choice, middle).value > 0.0 ? high : low) = middle;
        }
        return low;
    };
    CHECK_THAT(turns_at(insured, uninsured, 1.0, 1e5), WithinAbs(5'043.0, 0.7));
    CHECK_THAT(turns_at(nothing, insurer, 9'201.0, 1e5), WithinAbs(14'243.0, 0.7));
}

// Source: limits of the formula, by hand: untold wealth gives the mean; a loss that takes all has no worth.
TEST_CASE("wealth that the worst season takes is refused, and endless wealth does not fear", "[choice][caution]") {
    const std::vector<double> values{-30'000.0, 0.0, 12'000.0, 50'000.0};
    CHECK_THAT(certainty_equivalent_of_wealth(values, 1e12).value, WithinAbs(8'000.0, 0.01));
    CHECK_THROWS_WITH(certainty_equivalent_of_wealth(values, 30'000.0), Contains("must be finite and above 30000.000000, which the worst history takes"));
    CHECK_THROWS_AS(certainty_equivalent_of_wealth(std::vector<double>{}, 1.0), std::invalid_argument);
    CHECK_THROWS_AS(certainty_equivalent_of_wealth_difference(values, values, -1.0), std::invalid_argument);
    CHECK(certainty_equivalent_of_wealth(std::vector<double>{7.0, 7.0}, 5.0).exact);
    CHECK(certainty_equivalent_of_wealth_difference(values, values, 50'000.0).exact);
    CHECK(std::isnan(certainty_equivalent_of_wealth(values, 40'000.0).standard_error));  // four seasons are too few
}

// Source: closed form, ln(w + x) normal with mean 0.4 and spread 0.5 at w = 1: worth e^0.4 - 1; the choice has mean 0.5,
// spread 0.2. 368 to 392 of 400, as above. Negative control: the plain mean's interval, which caution is not.
TEST_CASE("intervals of what wealth is worth cover the truth in about 95 of 100 runs", "[choice][caution][statistics]") {
    int of_worth = 0, of_difference = 0, of_mean = 0;
    for (std::uint64_t run = 0; run < 400; ++run) {
        Luck luck(90'000 + run);
        std::vector<double> base, choice;
        for (int i = 0; i < 2'000; ++i) {
            const double z = luck.normal();
            base.push_back(std::exp(0.4 + 0.5 * z) - 1.0);
            choice.push_back(std::exp(0.5 + 0.2 * (0.6 * z + 0.8 * luck.normal())) - 1.0);
        }
        of_worth += covers(certainty_equivalent_of_wealth(base, 1.0), std::exp(0.4) - 1.0);
        of_difference += covers(certainty_equivalent_of_wealth_difference(base, choice, 1.0), std::exp(0.5) - std::exp(0.4));
        of_mean += covers(mean(base), std::exp(0.4) - 1.0);
    }
    CAPTURE(of_worth, of_difference, of_mean);
    CHECK((of_worth >= 368 && of_worth <= 392));
    CHECK((of_difference >= 368 && of_difference <= 392));
    CHECK(of_mean < 40);
}

// Source: mps of the outside decision checks (Rothschild & Stiglitz 1970): {10, 40, 70} is {20, 40, 60} spread about the
// same mean. Money missing to 30 and to 50, on average over all seasons: 10/3 and 40/3 against 20/3 and 50/3 (tolerance
// 1e-9); whoever fears at all, by either law, values it less.
TEST_CASE("what is spread about the same mean is worth less to anyone cautious", "[choice][caution]") {
    const std::vector<double> narrow{20.0, 40.0, 60.0}, wide{10.0, 40.0, 70.0};
    const auto missing = [](const std::vector<double>& values, double target) { return (1.0 - chance(values, target).value) * shortfall_when_missed(values, target).value; };
    CHECK_THAT(missing(narrow, 30.0), WithinAbs(10.0 / 3.0, 1e-9));
    CHECK_THAT(missing(narrow, 50.0), WithinAbs(40.0 / 3.0, 1e-9));
    CHECK_THAT(missing(wide, 30.0), WithinAbs(20.0 / 3.0, 1e-9));
    CHECK_THAT(missing(wide, 50.0), WithinAbs(50.0 / 3.0, 1e-9));
    for (const double size : {5.0, 50.0, 5e4}) {
        CHECK(certainty_equivalent(narrow, size).value > certainty_equivalent(wide, size).value);
        CHECK(certainty_equivalent_of_wealth(narrow, size).value > certainty_equivalent_of_wealth(wide, size).value);
    }
    CHECK(mean(narrow).value == mean(wide).value);
}
