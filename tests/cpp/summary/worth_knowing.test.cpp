// SPDX-License-Identifier: MIT
#include "seasonrisk/summary/worth_knowing.hpp"

#include <cmath>
#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/math/elementary.hpp"

using Catch::Matchers::StartsWith;
using namespace seasonrisk;

namespace {

/// A plan and choices whose differences are made of normals: two guesses, and luck that nobody can know.
struct Choices {
    std::vector<std::vector<double>> z, outcomes;

    Choices(std::uint64_t seed, std::size_t n, std::size_t choices, const auto& difference) : z(2, std::vector<double>(n)), outcomes(choices + 1, std::vector<double>(n)) {
        std::mt19937_64 engine(seed);
        const auto normal = [&] { return normal_quantile((static_cast<double>(engine() >> 12) + 0.5) * 0x1p-52); };
        for (std::size_t i = 0; i < n; ++i) {
            for (auto& column : z) column[i] = normal();
            const double common = 20.0 * normal();
            outcomes[0][i] = common;
            for (std::size_t d = 1; d <= choices; ++d) outcomes[d][i] = common + difference(d, z[0][i], z[1][i], normal());
        }
    }
    std::vector<WorthKnowing> worth() const {
        return worth_knowing({outcomes.begin(), outcomes.end()}, {{z[0], 0, true}, {z[1], 1, true}});
    }
};

double density(double x) { return std::exp(-0.5 * x * x) / std::sqrt(2.0 * 3.14159265358979323846); }
double below(double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); }

/// E[max(0, mean + slope z)] - max(0, mean): the unit normal loss (Raiffa & Schlaifer 1961, from memory).
double loss(double mean, double slope) {
    const double t = std::abs(mean) / slope;
    return slope * (density(t) - t * below(-t));
}

bool covers(const Estimate& estimate, double truth) { return estimate.low <= truth && truth <= estimate.high; }

}  // namespace

TEST_CASE("knowing a guess is worth the unit normal loss of the difference it moves", "[summary][drivers]") {
    const Choices made(1, 40'000, 1, [](std::size_t, double a, double, double luck) { return -0.5 + a + 2.0 * luck; });
    const std::vector<WorthKnowing> worth = made.worth();
    REQUIRE(worth.size() == 2);
    CAPTURE(worth[0].value.value, worth[0].value.standard_error, worth[0].would_change.value, worth[0].would_change.standard_error);
    CHECK(worth[0].value.standard_error > 0.0);
    CHECK(std::abs(worth[0].value.value - loss(-0.5, 1.0)) < 4.0 * worth[0].value.standard_error);
    CHECK(std::abs(worth[0].would_change.value - below(-0.5)) < 4.0 * worth[0].would_change.standard_error);
    // The other guess moves nothing, and a lead of half a unit is 50 errors: no choice would change.
    CHECK(worth[1].value.value == 0.0);
    CHECK(worth[1].value.standard_error == 0.0);
    CHECK(worth[1].would_change.value == 0.0);
}

// Source: with d = z^2 - 1 - m the other choice is better for |z| above sqrt(1 + m); E over both tails of z^2 - 1 - m
// is 2 (t phi(t) + Phi(-t) - (1 + m) Phi(-t)), t the root (integration by parts).
TEST_CASE("a guess that matters at both ends is worth knowing though it moves no mean", "[summary][drivers]") {
    const Choices made(2, 40'000, 1, [](std::size_t, double, double b, double luck) { return b * b - 1.0 - 0.5 + luck; });
    const std::vector<WorthKnowing> worth = made.worth();
    const double t = std::sqrt(1.5);
    CHECK(std::abs(worth[1].value.value - 2.0 * (t * density(t) - 0.5 * below(-t))) < 4.0 * worth[1].value.standard_error);
    CHECK(std::abs(worth[1].would_change.value - 2.0 * below(-t)) < 4.0 * worth[1].would_change.standard_error);
}

// Source: choices 1 + z and 1 - z against 0: the best is 1 + |z| wherever |z| > 0, and E|z| = sqrt(2 / pi).
TEST_CASE("of several choices the best one at each value counts", "[summary][drivers]") {
    const Choices made(3, 40'000, 2, [](std::size_t d, double a, double, double luck) { return 1.0 + (d == 1 ? a : -a) + 0.5 * luck; });
    const Estimate value = made.worth()[0].value;
    CHECK(std::abs(value.value - std::sqrt(2.0 / 3.14159265358979323846)) < 4.0 * value.standard_error + 1e-3);
}

TEST_CASE("choices that never differ are worth nothing to know about, and one alone is no choice", "[summary][drivers]") {
    const Choices made(4, 500, 1, [](std::size_t, double, double, double) { return 0.0; });
    CHECK(made.worth()[0].value.value == 0.0);
    CHECK_THROWS_WITH(worth_knowing({made.outcomes[0]}, {}), StartsWith("outcomes: knowing is worth something"));
}

// Bounds as in coverage.test.cpp; a third of the error covers 49 in 100.
TEST_CASE("intervals of what is worth knowing cover the truth in about 95 of 100 runs, a third of their errors do not", "[summary][drivers][statistics]") {
    constexpr int runs = 400;
    std::map<std::string, int> covered;
    int with_a_third = 0;
    for (int run = 0; run < runs; ++run) {
        const Choices made(4'000 + static_cast<std::uint64_t>(run), 1'500, 1, [](std::size_t, double a, double b, double luck) { return 0.4 + a + 0.7 * b + (1.5 + 0.5 * a) * luck; });
        const std::vector<WorthKnowing> worth = made.worth();
        covered["value"] += covers(worth[0].value, loss(0.4, 1.0));
        covered["value of the smaller"] += covers(worth[1].value, loss(0.4, 0.7));
        covered["chance"] += covers(worth[0].would_change, below(-0.4));
        covered["chance of the smaller"] += covers(worth[1].would_change, below(-0.4 / 0.7));
        with_a_third += std::abs(worth[0].value.value - loss(0.4, 1.0)) < 0.65 * worth[0].value.standard_error;
    }
    REQUIRE(covered.size() == 4);
    for (const auto& [name, count] : covered) {
        INFO(name << ": " << count << " of " << runs);
        CHECK(count >= 0.92 * runs);
        CHECK(count <= 0.98 * runs);
    }
    CHECK(with_a_third < 0.6 * runs);
}
