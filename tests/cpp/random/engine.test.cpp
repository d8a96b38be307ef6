// SPDX-License-Identifier: MIT
#include "seasonrisk/random/engine.hpp"

#include <cmath>
#include <vector>

#include <boost/math/distributions/poisson.hpp>
#include <boost/random/poisson_distribution.hpp>

#include "catch.hpp"
#include "tail.hpp"

using namespace seasonrisk;

namespace {

constexpr std::uint64_t k_key = 2027;
const Address k_address = on_day({235, 152}, Purpose::price_week, {0, 1, 0});

}  // namespace

TEST_CASE("an address as an engine gives its block's words in order, then those of the next index", "[random]") {
    // The layout stated in address.hpp: index = the low 15 bits of word 0.
    AddressEngine engine(k_key, k_address, 9);
    for (std::uint32_t index = 0; index < 5; ++index) {
        Address block = k_address;
        block.word0 += index;
        const Words words = philox(counter_of(block, 9), k_key);
        for (const std::uint32_t word : words.w) REQUIRE(engine() == word);
    }
}

TEST_CASE("an address as an engine stops at its last word and stays stopped", "[random]") {
    AddressEngine engine(k_key, k_address, 0);
    std::uint32_t last = 0;
    for (int i = 0; i < 4 * 32768; ++i) last = engine();

    Address final_block = k_address;
    final_block.word0 |= 32767u;
    REQUIRE(last == philox(counter_of(final_block, 0), k_key).w[3]);
    REQUIRE_THROWS_AS(engine(), std::out_of_range);
    REQUIRE_THROWS_AS(engine(), std::out_of_range);
}

TEST_CASE("Boost's Poisson counts on addresses follow the Poisson law", "[random][statistical]") {
    // The law from Boost.Math; false alarm 1 in a million; control: the same counts against a mean 2% off.
    constexpr double mean = 4.0;
    constexpr int histories = 200'000;
    constexpr std::size_t most = 14;  // the last cell takes the tail: 3 in 100,000 x 200,000 = 15 histories
    std::vector<double> seen(most + 1, 0.0);
    for (int history = 0; history < histories; ++history) {
        AddressEngine engine(k_key, k_address, static_cast<std::uint64_t>(history));
        boost::random::poisson_distribution<int, double> law(mean);
        seen[std::min(static_cast<std::size_t>(law(engine)), most)] += 1.0;
    }
    const auto expected = [](double of_mean) {
        const boost::math::poisson law(of_mean);
        std::vector<double> cells(most + 1);
        for (std::size_t k = 0; k < most; ++k) cells[k] = histories * boost::math::pdf(law, k);
        cells[most] = histories * boost::math::cdf(boost::math::complement(law, most - 1));
        return cells;
    };

    REQUIRE(tests::chi_square_tail(seen, expected(mean)) > tests::k_false_alarm);
    REQUIRE(tests::chi_square_tail(seen, expected(1.02 * mean)) < tests::k_false_alarm);
}
