// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "catch.hpp"

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/summary/summary.hpp"

using namespace seasonrisk;

namespace {

constexpr int k_runs = 400;

/// 368 to 392 of 400 runs. A true coverage of 0.95 falls outside in 4.4 of 1,000 (binomial: 3.8 below, 0.6 above);
/// a true coverage of 0.90 passes in about 1 of 10, of 0.85 in 2 of 100,000.
bool near_95(int covered) { return covered >= 0.92 * k_runs && covered <= 0.98 * k_runs; }

class Luck {
public:
    explicit Luck(std::uint64_t seed) : engine_(seed) {}
    double uniform() { return (static_cast<double>(engine_() >> 12) + 0.5) * 0x1p-52; }
    double normal() { return normal_quantile(uniform()); }
    /// Skewed like a bad year: 1 less an exponential. Mean 0, sd 1, no end to how bad it gets.
    double left_over() { return 1.0 + std::log(uniform()); }

private:
    std::mt19937_64 engine_;
};

bool covers(const Estimate& estimate, double truth) { return estimate.low <= truth && truth <= estimate.high; }

}  // namespace

// Source: the truths are those of 1 - E with E exponential (closed form, beside each): P(1 - E >= x) = 1 - exp(x - 1);
// the exponential has no memory, so what E exceeds any bound by has mean 1.
TEST_CASE("each printed interval covers the truth in about 95 of 100 runs", "[summary][statistics]") {
    std::map<std::string, int> covered;
    for (int run = 0; run < k_runs; ++run) {
        Luck luck(1000 + static_cast<std::uint64_t>(run));
        std::vector<double> values(2'000);
        for (double& value : values) value = luck.left_over();

        for (const double p : {0.03, 0.3, 0.97}) covered["chance " + std::to_string(p)] += covers(chance(values, 1.0 + std::log(1.0 - p)), p);
        covered["mean"] += covers(mean(values), 0.0);
        covered["standard deviation"] += covers(standard_deviation(values), 1.0);
        covered["quantile 0.1"] += covers(quantile(values, 0.1), 1.0 - std::log(10.0));
        covered["quantile 0.5"] += covers(quantile(values, 0.5), 1.0 - std::log(2.0));
        covered["shortfall when missed"] += covers(shortfall_when_missed(values), 1.0);
        covered["worst tenth"] += covers(worst_share_mean(values, 0.1), -std::log(10.0));
    }
    REQUIRE(covered.size() == 9);
    for (const auto& [name, count] : covered) {
        INFO(name << ": " << count << " of " << k_runs);
        CHECK(near_95(count));
    }
}

// Negative control. Five years of one history with correlation 0.57: the error of their mean is sqrt(1 + 4 x 0.57)
// times that of independent years, so a nominal 95% covers 2 Phi(1.96 / 1.811) - 1 = 0.721 (closed form).
// Bounds: four standard errors of 400 runs, 0.09 (one false alarm in 16,000).
TEST_CASE("taking the years of a history for independent covers far less", "[summary][statistics]") {
    constexpr double correlation = 0.57;
    int by_history = 0;
    int by_year = 0;
    for (int run = 0; run < k_runs; ++run) {
        Luck luck(5000 + static_cast<std::uint64_t>(run));
        std::vector<double> years;
        std::vector<double> histories;
        for (int history = 0; history < 400; ++history) {
            const double common = luck.normal();
            double total = 0.0;
            for (int year = 0; year < 5; ++year) {
                years.push_back(std::sqrt(correlation) * common + std::sqrt(1.0 - correlation) * luck.normal());
                total += years.back();
            }
            histories.push_back(total / 5.0);
        }
        by_history += covers(mean(histories), 0.0);
        by_year += covers(mean(years), 0.0);
    }
    CAPTURE(by_history, by_year);
    CHECK(near_95(by_history));
    CHECK_FALSE(near_95(by_year));
    CHECK(std::abs(by_year / static_cast<double>(k_runs) - 0.721) < 0.09);
}

// Source: the binomial law, summed here; the mend of Wilson's interval is that of Brown, Cai & DasGupta (2001), Statist.
// Sci. 16:101-133 (from memory). No false alarm: nothing is drawn. Negative control: Wilson's own interval.
TEST_CASE("the interval of a chance covers 92 in 100 or more, however rare it is", "[summary][statistics]") {
    for (const int n : {100, 400, 10'000}) {
        std::vector<Estimate> with_seen;
        for (int seen = 0; seen <= 60; ++seen) {
            std::vector<double> values(static_cast<std::size_t>(n), 0.0);
            std::fill_n(values.begin(), seen, 1.0);
            with_seen.push_back(chance(values, 1.0));
            const Estimate missed = [&] { for (double& value : values) value = 1.0 - value; return chance(values, 1.0); }();
            CHECK(missed.low == Approx(1.0 - with_seen.back().high).margin(1e-15));
            CHECK(missed.high == Approx(1.0 - with_seen.back().low).margin(1e-15));
        }
        double least = 1.0, least_of_wilson = 1.0;
        for (double on_average = 0.02; on_average < 12.0; on_average += 0.02) {
            const double p = on_average / n;
            double covered = 0.0, of_wilson = 0.0;
            for (int seen = 0; seen <= 60; ++seen) {
                const double odds = std::exp(std::lgamma(n + 1.0) - std::lgamma(seen + 1.0) - std::lgamma(n - seen + 1.0) + seen * std::log(p) + (n - seen) * std::log1p(-p));
                const Interval wilsons = wilson(seen, n, 1.959963984540054);
                if (covers(with_seen[static_cast<std::size_t>(seen)], p)) covered += odds;
                if (wilsons.low <= p && p <= wilsons.high) of_wilson += odds;
            }
            least = std::min(least, covered);
            least_of_wilson = std::min(least_of_wilson, of_wilson);
        }
        CAPTURE(n, least, least_of_wilson);
        CHECK(least >= 0.92);
        CHECK(least_of_wilson < 0.86);
    }
}
