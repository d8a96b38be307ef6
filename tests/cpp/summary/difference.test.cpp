// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <random>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/summary/difference.hpp"
#include "seasonrisk/summary/summary.hpp"

using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using namespace seasonrisk;

namespace {

constexpr int k_runs = 400;

/// 368 to 392 of 400 runs: a true coverage of 0.95 falls outside in 4.4 of 1,000.
bool near_95(int covered) { return covered >= 0.92 * k_runs && covered <= 0.98 * k_runs; }
bool covers(const Estimate& estimate, double truth) { return estimate.low <= truth && truth <= estimate.high; }

struct TwoColumns {
    std::vector<double> base{};
    std::vector<double> choice{};
};

/// base = 1 - E; choice = 0.5 + 0.8 (1 - F), E and F exponential, the same in 7 histories of 10 and else independent.
TwoColumns drawn_pairs(std::uint64_t seed, int n) {
    std::mt19937_64 engine(seed);
    const auto uniform = [&] { return (static_cast<double>(engine() >> 12) + 0.5) * 0x1p-52; };
    TwoColumns pair;
    for (int i = 0; i < n; ++i) {
        const double e = -std::log(uniform());
        const double other = -std::log(uniform());
        pair.base.push_back(1.0 - e);
        pair.choice.push_back(0.5 + 0.8 * (1.0 - (uniform() < 0.7 ? e : other)));
    }
    return pair;
}

/// 100 histories: 10 turned from missed to cleared, 4 the other way, 50 cleared and 36 missed both ways.
TwoColumns crossing_pairs() {
    TwoColumns pair;
    const auto put = [&](int times, double base, double choice) {
        for (int i = 0; i < times; ++i) {
            pair.base.push_back(base);
            pair.choice.push_back(choice);
        }
    };
    put(10, -1.0, 2.0);
    put(4, 3.0, -2.0);
    put(50, 5.0, 6.0);
    put(36, -8.0, -8.0);
    return pair;
}

}  // namespace

// Source: by hand from the definitions. Differences: 10 of 3, 4 of -5, 50 of 1, 36 of 0.
TEST_CASE("a hundred histories counted by hand", "[summary][difference]") {
    const TwoColumns pair = crossing_pairs();

    const Estimate difference = mean_difference(pair.base, pair.choice);
    CHECK_THAT(difference.value, WithinAbs(0.6, 1e-12));
    CHECK_THAT(difference.standard_error, WithinAbs(std::sqrt((90.0 + 100.0 + 50.0 - 100.0 * 0.36) / 99.0 / 100.0), 1e-12));
    CHECK_FALSE(difference.exact);

    CHECK(chance_gained(pair.base, pair.choice).value == 0.10);
    CHECK(chance_lost(pair.base, pair.choice).value == 0.04);
    CHECK(better_share(pair.base, pair.choice).value == 0.60);
    CHECK(better_share(pair.choice, pair.base).value == 0.04);
    const Estimate chance = chance_difference(pair.base, pair.choice);
    CHECK_THAT(chance.value, WithinAbs(0.06, 1e-12));
    CHECK_THAT(chance.standard_error, WithinAbs(std::sqrt((0.14 - 0.0036) / 99.0), 1e-12));
    // Agresti & Min 2005: 10.5 and 4.5 of 102.
    CHECK_THAT((chance.low + chance.high) / 2.0, WithinAbs(6.0 / 102.0, 1e-12));
}

// Source: the definitions; same luck means that nothing but the choice can move a number.
TEST_CASE("a choice that changes nothing differs by exactly nought in every estimate", "[summary][difference]") {
    const std::vector<double> values = drawn_pairs(1, 2'000).base;

    for (const Estimate& estimate : {mean_difference(values, values), chance_difference(values, values), chance_gained(values, values),
                                     chance_lost(values, values), better_share(values, values), quantile_difference(values, values, 0.1),
                                     worst_share_difference(values, values)}) {
        CHECK(estimate.exact);
        CHECK(estimate.value == 0.0);
        CHECK(estimate.standard_error == 0.0);
        CHECK(estimate.low == 0.0);
        CHECK(estimate.high == 0.0);
    }
}

// Source: the definitions. A bill of 1,100 less a year comes out of sums of many terms: 1e-11 of rounding is no luck.
TEST_CASE("a difference that is the same in every history is exact, a chance that nobody crossed is not", "[summary][difference]") {
    std::vector<double> base = drawn_pairs(2, 2'000).base;
    for (double& value : base) value = 20'000.0 * value + 1e5;  // none near nought
    std::vector<double> choice = base;
    for (std::size_t i = 0; i < choice.size(); ++i) choice[i] += 1'100.0 + (i % 2 == 0 ? 3e-11 : -3e-11);

    for (const Estimate& estimate : {mean_difference(base, choice), quantile_difference(base, choice, 0.1), worst_share_difference(base, choice)}) {
        CHECK(estimate.exact);
        CHECK_THAT(estimate.value, WithinAbs(1'100.0, 1e-9));
        CHECK(estimate.standard_error == 0.0);
    }
    CHECK(better_share(base, choice).value == 1.0);
    CHECK(better_share(base, choice).exact);
    const Estimate crossed = chance_difference(base, choice, 5e5);
    CHECK_FALSE(crossed.exact);
    CHECK_THAT(crossed.low, WithinAbs(-3.0 / 2'000.0, 1e-15));
    CHECK_THAT(crossed.high, WithinAbs(3.0 / 2'000.0, 1e-15));
}

// Source: closed forms. P(E > t) = exp(-t), and E has no memory; the choice is at or above c when F <= 1 - (c - 0.5) / 0.8.
// Gained at 0: 0.7 P(1 < E <= 1.625) + 0.3 P(E > 1) P(F <= 1.625). A copied pair is always better (0.2 E + 0.3 > 0); a
// fresh one unless 0.8 F > E + 0.3: exp(-0.375) / 2.25.
TEST_CASE("each printed interval of a difference covers the truth in about 95 of 100 runs", "[summary][difference][statistics]") {
    const auto tail = [](double t) { return std::exp(-t); };
    std::map<std::string, int> covered;
    int of_unpaired = 0;
    for (int run = 0; run < k_runs; ++run) {
        const TwoColumns pair = drawn_pairs(40'000 + static_cast<std::uint64_t>(run), 2'000);
        const auto& [base, choice] = pair;
        covered["mean difference"] += covers(mean_difference(base, choice), 0.5);
        covered["chance difference"] += covers(chance_difference(base, choice), tail(1.0) - tail(1.625));
        covered["rare chance difference"] += covers(chance_difference(base, choice, -4.0), tail(5.0) - tail(6.625));
        covered["gained"] += covers(chance_gained(base, choice), 0.7 * (tail(1.0) - tail(1.625)) + 0.3 * tail(1.0) * (1.0 - tail(1.625)));
        covered["lost"] += covers(chance_lost(base, choice), 0.3 * (1.0 - tail(1.0)) * tail(1.625));
        covered["better"] += covers(better_share(base, choice), 0.7 + 0.3 * (1.0 - tail(0.375) / 2.25));
        for (const double level : {0.1, 0.5, 0.9}) {
            covered["quantile " + std::to_string(level)] += covers(quantile_difference(base, choice, level), 0.5 - 0.2 * (1.0 + std::log(level)));
        }
        covered["worst tenth"] += covers(worst_share_difference(base, choice), 0.5 + 0.2 * std::log(10.0));
        std::vector<double> top = choice;
        std::vector<double> bottom = base;
        for (double& value : top) value += 2.0;
        for (double& value : bottom) value += 2.0;
        covered["ratio"] += covers(ratio_of_means(top, bottom), 1.25);

        // Negative control: the error of two independent runs of the same length is far too wide for a pair.
        const double value = mean(choice).value - mean(base).value;
        const double error = std::hypot(mean(choice).standard_error, mean(base).standard_error);
        of_unpaired += std::abs(value - 0.5) <= 1.96 * error;
    }
    REQUIRE(covered.size() == 11);
    for (const auto& [name, count] : covered) {
        INFO(name << ": " << count << " of " << k_runs);
        CHECK(near_95(count));
    }
    CHECK_FALSE(near_95(of_unpaired));
}

/// How often 20 batches of histories cover the truth, the usual way to an error of what has no formula.
bool batches_cover(const TwoColumns& pair, double level, double truth) {
    const double value = quantile(pair.choice, level).value - quantile(pair.base, level).value;
    std::vector<double> by_batch;
    for (std::size_t g = 0; g < 20; ++g) {
        const std::size_t size = pair.base.size() / 20;
        const std::span base = std::span(pair.base).subspan(g * size, size);
        const std::span choice = std::span(pair.choice).subspan(g * size, size);
        by_batch.push_back(quantile(choice, level).value - quantile(base, level).value);
    }
    return std::abs(value - truth) <= 2.093 * mean(by_batch).standard_error;
}

// Source: closed form: the choice is the base times 1.05, with a normal of spread s added in every history, so its
// quantile is that of a normal with sd sqrt(1.05^2 + s^2). From luck that is all but the same to luck of its own. At
// least 368 of 400 must cover; more than 392 may, where the spread is far below the distance between two histories: the
// interval is then wider than it need be. Negative control: 20 batches cover far less there.
TEST_CASE("the interval of a difference of quantiles holds however alike the luck is", "[summary][difference][statistics]") {
    for (const double spread : {0.0003, 0.003, 0.02, 0.1, 0.5}) {
        for (const double level : {0.1, 0.5}) {
            const double truth = normal_quantile(level) * (std::sqrt(1.05 * 1.05 + spread * spread) - 1.0);
            int covered = 0, by_batches = 0;
            for (std::uint64_t run = 0; run < k_runs; ++run) {
                std::mt19937_64 engine(90'000 + run);
                const auto normal = [&] { return normal_quantile((static_cast<double>(engine() >> 12) + 0.5) * 0x1p-52); };
                TwoColumns pair;
                for (int i = 0; i < 1'000; ++i) {
                    pair.base.push_back(normal());
                    pair.choice.push_back(1.05 * pair.base.back() + spread * normal());
                }
                covered += covers(quantile_difference(pair.base, pair.choice, level), truth);
                by_batches += batches_cover(pair, level, truth);
            }
            INFO("spread " << spread << ", level " << level << ": " << covered << " of 400, by batches " << by_batches);
            CHECK(covered >= 368);
            if (spread == 0.1 && level == 0.5) CHECK(covered <= 392);
            if (spread == 0.02) CHECK(by_batches < 348);
        }
    }
}

// Source: the binomial law, summed here. Under the same luck a choice that only costs turns histories one way. Negative
// control: half a history more in each cell, and nothing else.
TEST_CASE("a difference in chance covers 92 in 100 or more where all cross one way, however few", "[summary][statistics]") {
    constexpr int n = 400, most = 60;
    std::vector<Estimate> with_lost;
    for (int lost = 0; lost <= most; ++lost) {
        std::vector<double> base(n, 1.0), choice(n, 1.0);
        choice[n - 1] = 2.0;  // never the same in every history
        for (int i = 0; i < lost; ++i) choice[static_cast<std::size_t>(i)] = -1.0;
        with_lost.push_back(chance_difference(base, choice));
        const Estimate back = chance_difference(choice, base);
        CHECK(back.low == Approx(-with_lost.back().high).margin(1e-15));
        CHECK(back.high == Approx(-with_lost.back().low).margin(1e-15));
    }
    double least = 1.0, least_without = 1.0;
    for (double on_average = 0.02; on_average < 12.0; on_average += 0.02) {
        const double p = on_average / n;
        double covered = 0.0, without = 0.0;
        for (int lost = 0; lost <= most; ++lost) {
            const double odds = std::exp(std::lgamma(n + 1.0) - std::lgamma(lost + 1.0) - std::lgamma(n - lost + 1.0) + lost * std::log(p) + (n - lost) * std::log1p(-p));
            const Estimate& found = with_lost[static_cast<std::size_t>(lost)];
            if (found.low <= -p && -p <= found.high) covered += odds;
            const double centre = lost / (n + 2.0), half = 1.959963984540054 * std::sqrt(((lost + 1.0) / (n + 2.0) - centre * centre) / (n + 2.0));
            if (std::abs(centre - p) <= (lost == 0 ? 3.0 / n : half)) without += odds;
        }
        least = std::min(least, covered);
        least_without = std::min(least_without, without);
    }
    CAPTURE(least, least_without);
    CHECK(least >= 0.92);
    CHECK(least_without < 0.91);
}

// Source: crn-n of the outside decision checks (textbook: n = ((z_a/2 + z_b) sd_D / delta)^2, sd_D^2 = 2 - 2 rho): the
// difference is a tenth of a standard deviation, power 0.9, two-sided 5%; tolerance there 0.006.
TEST_CASE("same luck needs as many fewer seasons as the textbook says", "[summary][difference]") {
    const std::map<double, double> expected{{0.0, 2101.48}, {0.5, 1050.74}, {0.9, 210.148}, {0.95, 105.074}};
    for (const auto& [correlation, histories] : expected) {
        Estimate difference;
        difference.n = 400;
        difference.standard_error = std::sqrt((2.0 - 2.0 * correlation) / 400.0);
        CHECK_THAT(histories_to_tell(difference, 0.1), WithinAbs(histories, 0.006));
    }
    CHECK_THROWS_WITH(histories_to_tell(Estimate{}, 0.0), Contains("amount=0.000000: must be above 0"));
}

// Source: common practice: an error that cannot be known is not made up.
TEST_CASE("too few histories give a value and no error", "[summary][difference]") {
    const TwoColumns pair = drawn_pairs(3, 190);
    CHECK(std::isnan(quantile_difference(pair.base, pair.choice, 0.1).standard_error));  // 19 beyond the level: too few
    CHECK_FALSE(std::isnan(quantile_difference(pair.base, pair.choice, 0.5).standard_error));
    const std::vector<double> few(pair.base.begin(), pair.base.begin() + 49);
    const std::vector<double> few_choice(pair.choice.begin(), pair.choice.begin() + 49);
    CHECK(std::isnan(ratio_of_means(few_choice, few).standard_error));
    const std::vector<double> one{1.0};
    CHECK(std::isnan(mean_difference(one, one).standard_error));
    CHECK_FALSE(mean_difference(one, one).exact);
    CHECK(std::isnan(ratio_of_means(one, std::vector<double>{0.0}).value));
}

TEST_CASE("columns of different histories are refused", "[summary][difference]") {
    const std::vector<double> two{1.0, 2.0};
    const std::vector<double> three{1.0, 2.0, 3.0};
    CHECK_THROWS_WITH(mean_difference(two, three), Contains("base has 2 histories, choice 3: must be the same histories"));
    CHECK_THROWS_AS(ratio_of_means(two, three), std::invalid_argument);
    CHECK_THROWS_WITH(mean_difference(std::vector<double>{}, std::vector<double>{}), Contains("no histories"));
    CHECK_THROWS_WITH(mean_difference(two, std::vector<double>{1.0, NAN}), Contains("values[1]=nan"));
    CHECK_THROWS_WITH(quantile_difference(two, two, 1.0), Contains("level=1.000000"));
}
