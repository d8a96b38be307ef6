// SPDX-License-Identifier: MIT
#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

#include <boost/math/distributions/normal.hpp>

#include "catch.hpp"
#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"
#include "seasonrisk/math/rows.hpp"

// Source of the expected values: boost::math::quantile of the normal law in long double (64-bit mantissa on x86).
namespace {

using seasonrisk::normal_quantile;

/// The batched form on values side by side, in place; their number is a multiple of k_lanes.
void normal_quantile_of_all(std::vector<double>& p_to_z) {
    std::vector<double*> rows;
    for (std::size_t first = 0; first < p_to_z.size(); first += seasonrisk::k_lanes) rows.push_back(&p_to_z[first]);
    seasonrisk::normal_rows_baseline(rows.data(), static_cast<int>(rows.size()));
}

/// From the smaller tail, so that nothing is lost near 1.
long double exact_quantile(double p) {
    static const boost::math::normal_distribution<long double> law;
    if (p <= 0.5) return boost::math::quantile(law, static_cast<long double>(p));
    return boost::math::quantile(boost::math::complement(law, 1.0L - static_cast<long double>(p)));
}

struct Worst {
    double error = 0.0;
    double at = 0.0;
    void see(double found, double p) {
        if (found > error) *this = {found, p};
    }
};

double midpoint(std::uint64_t word) { return (static_cast<double>(word) + 0.5) * 0x1p-32; }

std::vector<double> random_midpoints(std::size_t n, std::uint64_t seed) {
    std::mt19937_64 bits(seed);
    std::vector<double> p(n);
    for (double& one : p) one = midpoint(bits() >> 32);
    return p;
}

}  // namespace

TEST_CASE("the normal quantile is right to 1e-15 of itself for every uniform a run can draw", "[math]") {
    // Wichura 1988 states about 1 part in 10^16 for the formula; log, root, two polynomials and a quotient add
    // roundings of 1.1e-16 each. The worst of 60 million points was 8.1e-16 of itself, and 3.15e-15 absolute at
    // z = -4.28, a point tried here. Within |z| < 2, where 95 in 100 draws lie: 1.1e-15.
    Worst relative, absolute, inner;
    const auto look = [&](double p) {
        const long double exact = exact_quantile(p);
        const double error = static_cast<double>(std::fabs(normal_quantile(p) - exact));
        relative.see(error / static_cast<double>(std::fabs(exact)), p);
        absolute.see(error, p);
        if (std::fabs(exact) < 2.0L) inner.see(error, p);
    };
    std::mt19937_64 bits(17);

    constexpr std::uint64_t parts = 1u << 19;
    for (std::uint64_t part = 0; part < parts; ++part) look(midpoint(part * 8192 + (bits() & 8191)));
    for (std::uint64_t word = 0; word < 100'000; ++word) {  // the far ends, every word of them
        look(midpoint(word));
        look(midpoint(0xffffffffu - word));
    }

    INFO("worst relative " << relative.error << " at p = " << relative.at);
    INFO("worst absolute " << absolute.error << " at p = " << absolute.at << ", within |z| < 2 " << inner.error);
    REQUIRE(relative.error > 1e-17);  // the yardstick can see an error
    REQUIRE(relative.error < 1e-15);
    REQUIRE(absolute.error < 3.2e-15);
    REQUIRE(inner.error < 1.8e-15);
}

TEST_CASE("the normal quantile holds to the ends of the range of doubles", "[math]") {
    // As above; the worst of 5 million points was 9.2e-16 of itself, a point tried here.
    Worst relative;
    const auto look = [&](double p) {
        relative.see(static_cast<double>(std::fabs(normal_quantile(p) / exact_quantile(p) - 1.0L)), p);
    };

    for (double exponent = -1021.5; exponent < -1.0; exponent += 0.01) look(std::exp2(exponent));
    look(1.0779605777942059e-177);

    INFO("worst relative " << relative.error << " at p = " << relative.at);
    REQUIRE(relative.error > 1e-17);
    REQUIRE(relative.error < 1e-15);
}

TEST_CASE("the normal quantile meets published values and is odd", "[math]") {
    // Wichura 1988, the paper's own check values for PPND16 (from memory), to the 16 digits given.
    const double published[][2] = {
        {0.25, -0.6744897501960817}, {0.001, -3.090232306167814}, {1e-20, -9.262340089798408}};
    for (const auto& [p, z] : published) REQUIRE(normal_quantile(p) == Approx(z).epsilon(1e-15).margin(0.0));

    for (const double p : random_midpoints(1000, 5)) REQUIRE(normal_quantile(1.0 - p) == -normal_quantile(p));
    REQUIRE(normal_quantile(0.5) == 0.0);
}

TEST_CASE("the batched normal quantile gives the bits of the one-by-one form", "[math]") {
    // An identity: no outside source. Batches of every length; none, all and mixed in the tails; edges.
    const auto agree = [](std::vector<double> p) {
        const std::vector<double> before = p;
        normal_quantile_of_all(p);
        return std::equal(p.begin(), p.end(), before.begin(), [](double z, double one) {
            return std::bit_cast<std::uint64_t>(z) == std::bit_cast<std::uint64_t>(normal_quantile(one));
        });
    };

    for (std::size_t n = seasonrisk::k_lanes; n <= seasonrisk::k_most_quantiles; n += seasonrisk::k_lanes) {
        REQUIRE(agree(random_midpoints(n, n)));
    }
    for (std::uint64_t seed = 0; seed < 200; ++seed) REQUIRE(agree(random_midpoints(1024, 1'000 + seed)));
    REQUIRE(agree(std::vector<double>(1024, 0.3)));
    REQUIRE(agree(std::vector<double>(1024, midpoint(0))));
    REQUIRE(agree(std::vector<double>(1024, midpoint(0xffffffffu))));

    std::vector<double> edges(64, 0.5);
    for (int i = 0; i < 32; ++i) {
        edges[static_cast<std::size_t>(i)] = 0.075 + (i - 16) * 0x1p-56;
        edges[static_cast<std::size_t>(32 + i)] = 0.925 + (i - 16) * 0x1p-53;
    }
    REQUIRE(agree(edges));
}

TEST_CASE("32-bit uniforms carry the moments of the normal", "[math]") {
    // Mean 0, variance 1, skewness 0, kurtosis 3 by definition; every 1,024th of the 2^32 midpoints.
    constexpr std::uint64_t points = 1u << 22;
    std::vector<double> z(seasonrisk::k_most_quantiles);
    double sum[5] = {};
    for (std::uint64_t start = 0; start < points; start += z.size()) {
        for (std::size_t i = 0; i < z.size(); ++i) z[i] = midpoint((start + i) * 1024 + 512);
        normal_quantile_of_all(z);
        for (const double one : z) {
            double power = 1.0;
            for (int k = 1; k <= 4; ++k) sum[k] += power *= one;
        }
    }
    const double n = static_cast<double>(points);

    REQUIRE(std::fabs(sum[1] / n) < 1e-6);
    REQUIRE(std::fabs(sum[2] / n - 1.0) < 1e-5);
    REQUIRE(std::fabs(sum[3] / n) < 1e-4);
    REQUIRE(std::fabs(sum[4] / n - 3.0) < 1e-3);
    // The ends: z of 2^-33, from boost::math::quantile above.
    REQUIRE(normal_quantile(midpoint(0))
            == Approx(static_cast<double>(exact_quantile(0x1p-33))).epsilon(1e-15).margin(0.0));
    REQUIRE(normal_quantile(midpoint(0xffffffffu)) < 6.34);
    REQUIRE(normal_quantile(midpoint(0xffffffffu)) > 6.3);
}
