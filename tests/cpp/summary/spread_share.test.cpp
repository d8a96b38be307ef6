// SPDX-License-Identifier: MIT
#include "seasonrisk/summary/spread_share.hpp"

#include <cmath>
#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/spread.hpp"

using Catch::Matchers::StartsWith;
using namespace seasonrisk;

namespace {

/// Histories of a made-up outcome: columns of normals, the last one luck that no input tells of.
struct Histories {
    std::vector<std::vector<double>> z;
    std::vector<double> luck;
    std::vector<double> outcome;

    Histories(std::uint64_t seed, std::size_t n, std::size_t inputs, const auto& outcome_of) : z(inputs, std::vector<double>(n)), luck(n), outcome(n) {
        std::mt19937_64 engine(seed);
        const auto normal = [&] { return normal_quantile((static_cast<double>(engine() >> 12) + 0.5) * 0x1p-52); };
        std::vector<double> row(inputs);
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t k = 0; k < inputs; ++k) row[k] = z[k][i] = normal();
            luck[i] = normal();
            outcome[i] = outcome_of(row, luck[i]);
        }
    }

    /// Every input a guess and a row of its own.
    std::vector<NormalInput> guesses() const {
        std::vector<NormalInput> inputs;
        for (std::size_t k = 0; k < z.size(); ++k) inputs.push_back({z[k], k, true});
        return inputs;
    }
    SpreadShares shares() const { return spread_shares(outcome, guesses(), {}, z.size()); }
};

using Row = std::vector<double>;

bool covers(const Estimate& estimate, double truth) { return estimate.low <= truth && truth <= estimate.high; }
void check_within_4_errors(const Estimate& estimate, double truth) {
    CAPTURE(estimate.value, estimate.standard_error, truth);
    CHECK(estimate.standard_error > 0.0);
    CHECK(std::abs(estimate.value - truth) <= 4.0 * estimate.standard_error);
}

}  // namespace

// Source: variances of independent normals add up (closed form). Error of a squared correlation rho^2 in the normal
// case, known weights: d(theta / (theta + s)) with var(theta) = 4 theta s / n, var(s) = 2 s^2 / n (delta method).
TEST_CASE("a sum of normals is shared out by its squared weights", "[summary][drivers]") {
    constexpr std::size_t n = 20'000;
    const Histories made(1, n, 2, [](const Row& z, double luck) { return 1000.0 + 3.0 * z[0] - 4.0 * z[1] + 12.0 * luck; });
    const SpreadShares shares = made.shares();

    check_within_4_errors(shares.guess, 25.0 / 169.0);
    check_within_4_errors(shares.luck, 144.0 / 169.0);
    check_within_4_errors(shares.left, 144.0 / 169.0);
    check_within_4_errors(shares.parts[0].alone, 9.0 / 169.0);
    check_within_4_errors(shares.parts[1].alone, 16.0 / 169.0);
    check_within_4_errors(shares.parts[0].effect, 2.0 * k_one_in_ten_z * 3.0);
    check_within_4_errors(shares.parts[1].effect, -2.0 * k_one_in_ten_z * 4.0);
    const double error = std::sqrt((144.0 * 144.0 * 4.0 * 25.0 * 144.0 + 25.0 * 25.0 * 2.0 * 144.0 * 144.0) / n) / (169.0 * 169.0);
    CHECK(shares.guess.standard_error == Approx(error).epsilon(0.05));
    // At z = 1.28 less z = -1.28 the odd terms are twice 1.2816 and twice (1.2816^3 - 3 x 1.2816) / sqrt(6) = -0.7103.
    CHECK(shares.parts[0].effect.standard_error == Approx(2.0 * std::hypot(k_one_in_ten_z, 0.7103) * 12.0 / std::sqrt(n)).epsilon(0.05));
}

// Source: z^2 - 1 is the second Hermite polynomial; z0 z1 has no part that is told by one alone (closed form).
TEST_CASE("what is all square or all product is told as that", "[summary][drivers]") {
    const SpreadShares square = Histories(2, 2'000, 2, [](const Row& z, double) { return 5.0 * z[0] * z[0]; }).shares();
    CHECK(square.parts[0].alone.value == Approx(1.0).margin(1e-9));
    CHECK(square.parts[1].total.value == Approx(0.0).margin(1e-9));
    CHECK(square.parts[0].effect.value == Approx(0.0).margin(1e-9));
    CHECK(square.left.value == Approx(0.0).margin(1e-9));

    const SpreadShares product = Histories(3, 2'000, 3, [](const Row& z, double) { return z[0] * z[2]; }).shares();
    CHECK(product.guess.value == Approx(1.0).margin(1e-9));
    CHECK(product.guess_pairs.value == Approx(1.0).margin(1e-9));
    CHECK(product.parts[0].alone.value == Approx(0.0).margin(1e-9));
    CHECK(product.parts[0].total.value == Approx(1.0).margin(1e-9));
    CHECK(product.parts[1].total.value == Approx(0.0).margin(1e-9));
}

// Source: for independent inputs and products of two, the Shapley effect is the own share and half of each product
// (Owen 2014, from memory): (1 + 1/2, 1, 1/2) / 3 here.
TEST_CASE("the middle of alone and total is the Shapley effect when products of two are all there is", "[summary][drivers]") {
    const SpreadShares shares = Histories(4, 4'000, 3, [](const Row& z, double) { return z[0] + z[1] + z[0] * z[2]; }).shares();
    const double shapley[] = {0.5, 1.0 / 3.0, 1.0 / 6.0};
    for (std::size_t k = 0; k < 3; ++k) {
        const double middle = 0.5 * (shares.parts[k].alone.value + shares.parts[k].total.value);
        CHECK(middle == Approx(shapley[k]).margin(4.0 * shares.parts[k].total.standard_error + 0.02));
    }
}

TEST_CASE("pure luck leaves the guesses nothing that can be seen", "[summary][drivers]") {
    const SpreadShares shares = Histories(5, 10'000, 6, [](const Row&, double luck) { return luck * luck; }).shares();
    CHECK(std::abs(shares.guess.value) <= 4.0 * shares.guess.standard_error);
    CHECK(shares.guess.standard_error < 0.01);
    CHECK(shares.luck.value == Approx(1.0 - shares.guess.value).margin(1e-12));
}

// Source: an event that is input and own luck in equal parts tells only its luck: 2^2 of 1 + 2^2 + 1 (closed form).
TEST_CASE("an event is told by its surprise alone, and inputs of one row are shown together", "[summary][drivers]") {
    std::vector<double> event;
    Histories made(6, 20'000, 3, [&](const Row& z, double luck) {
        event.push_back(z[0] + z[2]);  // z[2] is handed in as nobody's input below
        return z[0] + 2.0 * z[2] + luck;
    });
    const std::vector<NormalInput> inputs{{made.z[0], 0, true}, {made.z[1], 1, false}};
    const SpreadShares shares = spread_shares(made.outcome, inputs, {{event, 2}}, 3);

    check_within_4_errors(shares.parts[0].alone, 1.0 / 6.0);
    check_within_4_errors(shares.parts[2].alone, 4.0 / 6.0);
    check_within_4_errors(shares.guess, 1.0 / 6.0);
    check_within_4_errors(shares.left, 1.0 / 6.0);
    CHECK(std::isnan(shares.parts[2].effect.value));

    const std::vector<NormalInput> one_row{{made.z[0], 0, false}, {made.z[2], 0, false}};
    const SpreadShares together = spread_shares(made.outcome, one_row, {}, 1);
    check_within_4_errors(together.parts[0].alone, 5.0 / 6.0);
    CHECK(together.guess.value == 0.0);
    CHECK(std::isnan(together.parts[0].effect.value));
}

TEST_CASE("products are left out where histories do not suffice, the weightiest inputs first", "[summary][drivers]") {
    const Histories made(7, 700, 5, [](const Row& z, double luck) { return 3.0 * z[1] + 2.0 * z[4] + z[1] * z[4] + 0.1 * luck; });
    const SpreadShares shares = made.shares();  // 700 / 20 = 35 terms, 16 of them the constant and the single ones
    CHECK(shares.pairs == 10);
    CHECK(shares.pairs_left_out == 0);

    const Histories fewer(7, 340, 5, [](const Row& z, double luck) { return 3.0 * z[1] + 2.0 * z[4] + z[1] * z[4] + 0.1 * luck; });
    const SpreadShares one = fewer.shares();  // 17 terms: one product, that of z[1] and z[4]
    CHECK(one.pairs == 1);
    CHECK(one.pairs_left_out == 9);
    CHECK(one.guess_pairs.value > 0.02);
}

TEST_CASE("too few histories, equal outcomes and copies of an input are refused in words", "[summary][drivers]") {
    const Histories made(8, 100, 2, [](const Row& z, double) { return z[0]; });
    CHECK_THROWS_WITH(spread_shares(std::vector<double>(100, 3.0), made.guesses(), {}, 2), StartsWith("values: every history gives the same"));
    CHECK_THROWS_WITH(spread_shares(std::vector<double>{1.0, 2.0}, made.guesses(), {}, 2), StartsWith("inputs[0]: has 100 histories, and the outcome has 2"));
    const Histories few(8, 27, 2, [](const Row& z, double) { return z[0]; });
    CHECK_THROWS_WITH(few.shares(), StartsWith("histories=27: too few to share the spread out between 2 guesses and series of luck, which takes 7 terms; simulate 28 or more"));
    const std::vector<NormalInput> copies{{made.z[0], 0, true}, {made.z[0], 1, true}};
    CHECK_THROWS_WITH(spread_shares(made.outcome, copies, {}, 2), StartsWith("inputs: two of them"));
    CHECK_THROWS_WITH(share_in_common(made.outcome, std::vector<double>(3, 1.0)), StartsWith("with_other_luck: has 3 histories"));
}

// Source: correlation of g + a and g + b, all normal: 1 / (1 + 4) and its error (1 - rho^2) / sqrt(n) (Fisher 1915;
// means and variances in common make it no larger).
TEST_CASE("pairs that share their guesses give the share without a fit", "[summary][drivers]") {
    const Histories made(9, 20'000, 2, [](const Row& z, double luck) { return z[0] + 2.0 * luck; });
    std::vector<double> again(made.outcome.size());
    for (std::size_t i = 0; i < again.size(); ++i) again[i] = made.z[0][i] + 2.0 * made.z[1][i];
    const Estimate share = share_in_common(made.outcome, again);
    check_within_4_errors(share, 0.2);
    CHECK(share.standard_error == Approx((1.0 - 0.04) / std::sqrt(20'000.0)).epsilon(0.05));
}

// Source: of 7 the guess has 1, the first event tells 4 and the second 1 more (closed form); pairs as above, share 1 / 5.
// Bounds: 0.92 to 0.98 of 400, as in coverage.test.cpp. Negative control: pairs as if each outcome were one more history.
TEST_CASE("intervals of events and of pairs cover the truth in about 95 of 100 runs", "[summary][drivers][statistics]") {
    constexpr int runs = 400;
    int event_covered = 0, later_event_covered = 0, guess_covered = 0, pairs_covered = 0, pairs_counted_twice = 0;
    for (int run = 0; run < runs; ++run) {
        std::vector<double> event, later_event, again;
        const Histories made(20'000 + static_cast<std::uint64_t>(run), 1'000, 3, [&](const Row& z, double luck) {
            event.push_back(z[0] + z[1]);
            later_event.push_back(z[1] + z[2]);
            again.push_back(z[0] + 2.0 * z[2]);
            return z[0] + 2.0 * z[1] + z[2] + luck;
        });
        const std::vector<NormalInput> inputs{{made.z[0], 0, true}};
        const SpreadShares shares = spread_shares(made.outcome, inputs, {{event, 1}, {later_event, 2}}, 3);
        event_covered += covers(shares.parts[1].alone, 4.0 / 7.0);
        later_event_covered += covers(shares.parts[2].alone, 1.0 / 7.0);
        guess_covered += covers(shares.guess, 1.0 / 7.0);
        std::vector<double> first(again.size());
        for (std::size_t i = 0; i < first.size(); ++i) first[i] = made.z[0][i] + 2.0 * made.z[1][i];
        const Estimate share = share_in_common(first, again);
        pairs_covered += covers(share, 0.2);
        pairs_counted_twice += std::abs(share.value - 0.2) <= 1.96 * share.standard_error / std::sqrt(2.0);
    }
    CAPTURE(event_covered, later_event_covered, guess_covered, pairs_covered, pairs_counted_twice);
    for (const int count : {event_covered, later_event_covered, guess_covered, pairs_covered}) {
        CHECK(count >= 0.92 * runs);
        CHECK(count <= 0.98 * runs);
    }
    CHECK(pairs_counted_twice < 0.90 * runs);
}

// Source of the truths: squares of the coefficients over their sum, and E[(1 + z0 / 2)^2] = 1.25 (closed form). The
// luck is larger where z0 is. Bounds: 0.92 to 0.98 of 400, as in coverage.test.cpp; half the error covers 67 in 100.
TEST_CASE("intervals of shares cover the truth in about 95 of 100 runs, half their errors do not", "[summary][drivers][statistics]") {
    constexpr int runs = 400;
    std::map<std::string, int> covered;
    int with_half_the_error = 0;
    constexpr double whole = 4.0 + 0.5 + 0.25 + 1.25;
    for (int run = 0; run < runs; ++run) {
        const Histories made(9'000 + static_cast<std::uint64_t>(run), 1'500, 4, [](const Row& z, double luck) {
            return 2.0 * z[0] + 0.5 * (z[1] * z[1] - 1.0) + 0.5 * z[0] * z[2] + (1.0 + 0.5 * z[0]) * luck;
        });
        const SpreadShares shares = made.shares();
        covered["guess"] += covers(shares.guess, 4.75 / whole);
        covered["luck"] += covers(shares.luck, 1.25 / whole);
        covered["left"] += covers(shares.left, 1.25 / whole);
        covered["products"] += covers(shares.guess_pairs, 0.25 / whole);
        covered["linear alone"] += covers(shares.parts[0].alone, 4.0 / whole);
        covered["square alone"] += covers(shares.parts[1].alone, 0.5 / whole);
        covered["product total"] += covers(shares.parts[2].total, 0.25 / whole);
        covered["linear total"] += covers(shares.parts[0].total, 4.25 / whole);
        covered["effect"] += covers(shares.parts[0].effect, 4.0 * k_one_in_ten_z);
        // A share of nothing is never below 0, so that a 95% interval covers it in 97 to 98: no upper bound.
        CHECK(shares.parts[3].alone.standard_error < 0.01);
        covered["none"] += covers(shares.parts[3].alone, 0.0);
        with_half_the_error += std::abs(shares.guess.value - 4.75 / whole) <= 0.98 * shares.guess.standard_error;
    }
    CHECK(covered["none"] >= 0.92 * runs);
    covered.erase("none");
    REQUIRE(covered.size() == 9);
    for (const auto& [name, count] : covered) {
        INFO(name << ": " << count << " of " << runs);
        CHECK(count >= 0.92 * runs);
        CHECK(count <= 0.98 * runs);
    }
    CHECK(with_half_the_error < 0.80 * runs);
}
