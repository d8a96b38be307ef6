// SPDX-License-Identifier: MIT
#include "seasonrisk/random/philox.hpp"

#include <bit>
#include <string>
#include <vector>

#include "catch.hpp"
#include "seasonrisk/math/lanes.hpp"
#include "seasonrisk/random/draws.hpp"
#include "seasonrisk/random/philox_block.hpp"

using namespace seasonrisk;

TEST_CASE("RNG-01: Philox4x32-10 gives the published words", "[random]") {
    // Salmon, Moraes, Dror & Shaw 2011, doi 10.1145/2063384.2063405; their file tests/kat_vectors, commit 9545ff64.
    constexpr std::uint64_t ones = 0xffffffffffffffffu;
    constexpr std::uint32_t one = 0xffffffffu;

    REQUIRE(philox({{0, 0, 0, 0}}, 0) == Words{{0x6627e8d5u, 0xe169c58du, 0xbc57ac4cu, 0x9b00dbd8u}});
    REQUIRE(philox({{one, one, one, one}}, ones) == Words{{0x408f276du, 0x41c83b0eu, 0xa20bc7c6u, 0x6d5451fdu}});
    // Digits of pi: key words a4093822, 299f31d0, the first one low.
    REQUIRE(philox({{0x243f6a88u, 0x85a308d3u, 0x13198a2eu, 0x03707344u}}, 0x299f31d0a4093822u)
            == Words{{0xd16cfe09u, 0x94fdccebu, 0x5001e420u, 0x24126ea1u}});
}

TEST_CASE("each instruction set's block has the bits of one history after the other", "[random]") {
    // An identity: no outside source. First histories off any boundary, across 2^32, and the last of all.
    struct Path {
        std::string name;
        DrawBlock draw;
    };
    std::vector<Path> paths = {{"baseline", draw_block_baseline}};
#if defined(__x86_64__)
    if (__builtin_cpu_supports("avx2")) paths.push_back({"avx2", draw_block_avx2});
    if (__builtin_cpu_supports("avx512f")) paths.push_back({"avx512", draw_block_avx512});
#endif
    const std::uint64_t key = 0xfedcba9876543210u;
    const Address address{0x07a5c123u, 0x0a00ff02u, static_cast<std::uint32_t>(Family::guess), 4095};

    for (const auto& [name, draw] : paths) {
        for (const std::uint64_t first : {0ull, 7ull, 1024ull, (1ull << 32) - 3, (1ull << 48) - k_lanes}) {
            CAPTURE(name, first);
            std::vector<double> block(4 * k_lanes);
            draw(block.data(), key, address, first);

            int different = 0;
            for (unsigned word = 0; word < 4; ++word) {
                for (unsigned lane = 0; lane < k_lanes; ++lane) {
                    const double alone = uniform_at(key, address, first + lane, word);
                    different += std::bit_cast<std::uint64_t>(block[word * k_lanes + lane])
                                 != std::bit_cast<std::uint64_t>(alone);
                }
            }
            REQUIRE(different == 0);
        }
    }
}
