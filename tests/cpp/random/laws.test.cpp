// SPDX-License-Identifier: MIT
#include <array>
#include <cmath>
#include <vector>

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/normal.hpp>

#include "catch.hpp"
#include "seasonrisk/math/spread.hpp"
#include "seasonrisk/random/draws.hpp"
#include "tail.hpp"

// Each kind of draw against its law at a fixed seed; a right generator fails a check in one seed of a million.
// Laws: Boost.Math. Beside each check a control that must fail, or it could see nothing.
using namespace seasonrisk;
using tests::chi_square_tail;
using tests::k_false_alarm;
using tests::kolmogorov_tail;

namespace {

constexpr std::uint64_t k_key = 2027;
constexpr std::uint64_t k_histories = 1u << 20;
const Address k_day = on_day({235, 152}, Purpose::ground_day, {0, 1, 0});
const boost::math::normal k_normal;

/// One word of an address for all histories, as the engine draws them.
std::vector<double> uniforms(const Address& address, unsigned word = 0) {
    std::vector<double> all;
    all.reserve(k_histories);
    std::vector<double> block(4 * k_lanes);
    for (std::uint64_t first = 0; first < k_histories; first += k_lanes) {
        draw_block_baseline(block.data(), k_key, address, first);
        const double* lanes = block.data() + word * k_lanes;
        all.insert(all.end(), lanes, lanes + k_lanes);
    }
    return all;
}

std::vector<double> normals(const Address& address) {
    std::vector<double> all;
    all.reserve(k_histories);
    for (std::uint64_t first = 0; first < k_histories; first += k_lanes) {
        const Lanes z = normals_at(draw_block_baseline, normal_rows_baseline, k_key, address, first);
        all.insert(all.end(), z.v, z.v + k_lanes);
    }
    return all;
}

/// Chi-square of (x, y) in 16 x 16 equal cells: uniform and independent.
double pair_tail(const std::vector<double>& x, const std::vector<double>& y) {
    std::vector<double> seen(256, 0.0);
    for (std::size_t i = 0; i < x.size(); ++i) {
        seen[static_cast<std::size_t>(x[i] * 16.0) * 16 + static_cast<std::size_t>(y[i] * 16.0)] += 1.0;
    }
    return chi_square_tail(seen, std::vector<double>(256, static_cast<double>(x.size()) / 256.0));
}

double uniform_cdf(double x) { return std::min(std::max(x, 0.0), 1.0); }

}  // namespace

TEST_CASE("every word of a block is uniform", "[random][statistical]") {
    for (unsigned word = 0; word < 4; ++word) {
        CAPTURE(word);
        const std::vector<double> sample = uniforms(k_day, word);
        std::vector<double> squeezed = sample;
        for (double& u : squeezed) u *= 0.99;

        REQUIRE(kolmogorov_tail(sample, uniform_cdf) > k_false_alarm);
        REQUIRE(kolmogorov_tail(squeezed, uniform_cdf) < k_false_alarm);
    }
}

TEST_CASE("the low bits of a word are as even as the high ones", "[random][statistical]") {
    std::vector<double> seen(256, 0.0);
    for (const double u : uniforms(k_day)) seen[static_cast<std::size_t>(u * 0x1p32) & 255u] += 1.0;
    const std::vector<double> even(256, static_cast<double>(k_histories) / 256.0);
    std::vector<double> loaded = seen;
    loaded[6] *= 1.2;

    REQUIRE(chi_square_tail(seen, even) > k_false_alarm);
    REQUIRE(chi_square_tail(loaded, even) < k_false_alarm);
}

TEST_CASE("neighbouring days, words, kinds, boats and histories are independent", "[random][statistical]") {
    const std::vector<double> here = uniforms(k_day);
    std::vector<double> even_histories, odd_histories;
    for (std::size_t i = 0; i + 1 < here.size(); i += 2) {
        even_histories.push_back(here[i]);
        odd_histories.push_back(here[i + 1]);
    }
    std::vector<double> tied = here;
    const std::vector<double> other_day = uniforms(on_day({235, 156}, Purpose::ground_day, {0, 1, 0}));
    for (std::size_t i = 0; i < tied.size(); i += 50) tied[i] = other_day[i];  // 2 in 100 days repeat another

    REQUIRE(pair_tail(here, other_day) > k_false_alarm);
    REQUIRE(pair_tail(here, uniforms(k_day, 1)) > k_false_alarm);
    REQUIRE(pair_tail(here, uniforms(on_day({235, 152}, Purpose::ground_day, {0, 2, 0}))) > k_false_alarm);
    REQUIRE(pair_tail(here, uniforms(on_day({235, 152}, Purpose::ground_day, {1, 1, 0}))) > k_false_alarm);
    REQUIRE(pair_tail(here, uniforms(on_day({236, 152}, Purpose::ground_day, {0, 1, 0}))) > k_false_alarm);
    REQUIRE(pair_tail(even_histories, odd_histories) > k_false_alarm);
    REQUIRE(pair_tail(tied, other_day) < k_false_alarm);
}

TEST_CASE("normals follow the normal law", "[random][statistical]") {
    const std::vector<double> sample = normals(k_day);
    const auto law = [](double z) { return boost::math::cdf(k_normal, z); };
    std::vector<double> wider = sample;
    for (double& z : wider) z *= 1.02;

    REQUIRE(kolmogorov_tail(sample, law) > k_false_alarm);
    REQUIRE(kolmogorov_tail(wider, law) < k_false_alarm);
}

TEST_CASE("spreads follow two half-normals on each scale", "[random][statistical]") {
    struct Scale {
        Spread spread;
        double (*bent)(double);  // written here with the standard library, not with the code under test
        double low, typical, high;
    };
    const Scale scales[] = {
        {make_spread(Spread::Bend::plain, 0, 0, -3, 1, 12, false), [](double x) { return x; }, -3, 1, 12},
        {make_spread(Spread::Bend::above, 0, 0, 20, 30, 60, false), [](double x) { return std::log(x); }, 20, 30, 60},
        {make_spread(Spread::Bend::between, 0, 1, 0.05, 0.15, 0.4, false),
         [](double x) { return std::log(x / (1 - x)); }, 0.05, 0.15, 0.4},
    };
    const std::vector<double> z = normals(k_day);
    const double one_in_ten = boost::math::quantile(k_normal, 0.9);
    for (const Scale& scale : scales) {
        CAPTURE(scale.low, scale.typical, scale.high);
        const auto law_with = [&](double high) {
            return [&scale, high, one_in_ten](double x) {
                const double off = scale.bent(x) - scale.bent(scale.typical);
                const double reach = off < 0.0 ? scale.bent(scale.typical) - scale.bent(scale.low)
                                               : scale.bent(high) - scale.bent(scale.typical);
                return boost::math::cdf(k_normal, one_in_ten * off / reach);
            };
        };
        std::vector<double> sample;
        sample.reserve(z.size());
        for (const double one : z) sample.push_back(at(scale.spread, one));

        REQUIRE(kolmogorov_tail(sample, law_with(scale.high)) > k_false_alarm);
        REQUIRE(kolmogorov_tail(sample, law_with(1.05 * scale.high)) < k_false_alarm);
    }
}

TEST_CASE("counts of days follow their rounded law", "[random][statistical]") {
    const Spread spread = make_spread(Spread::Bend::above, -1, 0, 1, 3, 12, true);
    std::vector<double> seen(31, 0.0);
    for (const double z : normals(k_day))
        seen[std::min(static_cast<std::size_t>(at(spread, z)), seen.size() - 1)] += 1.0;
    const auto expected = [&](double high) {
        const auto below = [&](double value) {
            const double off = std::log((value + 1.0) / 4.0);
            const double reach = off < 0.0 ? std::log(4.0 / 2.0) : std::log((high + 1.0) / 4.0);
            return boost::math::cdf(k_normal, boost::math::quantile(k_normal, 0.9) * off / reach);
        };
        std::vector<double> cells(seen.size());
        double before = 0.0;
        for (std::size_t days = 0; days < cells.size(); ++days) {
            const double upto = days + 1 == cells.size() ? 1.0 : below(static_cast<double>(days) + 0.5);
            cells[days] = static_cast<double>(k_histories) * (upto - before);
            before = upto;
        }
        return cells;
    };

    REQUIRE(chi_square_tail(seen, expected(12.0)) > k_false_alarm);
    REQUIRE(chi_square_tail(seen, expected(12.3)) < k_false_alarm);
}

TEST_CASE("a yes or no comes as often as its odds say", "[random][statistical]") {
    // Exact binomial, both sides; control: odds 5% off.
    const std::vector<double> sample = uniforms(on_day({235, 152}, Purpose::breakdown_happens, {0, 0, 0}), 2);
    const auto tail = [&](double odds, double stated) {
        const double yes =
            static_cast<double>(std::count_if(sample.begin(), sample.end(), [&](double u) { return u < odds; }));
        const boost::math::binomial law(static_cast<double>(k_histories), stated);
        const double at_most = boost::math::cdf(law, yes);
        const double at_least = boost::math::cdf(boost::math::complement(law, yes - 1.0));
        return std::min(1.0, 2.0 * std::min(at_most, at_least));
    };
    for (const double odds : {0.02, 0.15, 0.5}) {
        CAPTURE(odds);
        REQUIRE(tail(odds, odds) > k_false_alarm);
        REQUIRE(tail(odds, 1.05 * odds) < k_false_alarm);
    }
}
