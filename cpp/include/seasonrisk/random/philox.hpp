// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

/// \file
/// Philox4x32-10 (Salmon, Moraes, Dror & Shaw 2011, doi 10.1145/2063384.2063405): a counter and a key in,
/// four random words out, nothing kept between calls.
namespace seasonrisk {

struct Words {
    std::uint32_t w[4];
    bool operator==(const Words&) const = default;
};

inline constexpr std::uint32_t k_philox_multiply[2] = {0xD2511F53u, 0xCD9E8D57u};
inline constexpr std::uint32_t k_philox_key_step[2] = {0x9E3779B9u, 0xBB67AE85u};
inline constexpr int k_philox_rounds = 10;

/// One block. Key word 0 is the low half of `key`.
constexpr Words philox(Words counter, std::uint64_t key) {
    auto key0 = static_cast<std::uint32_t>(key);
    auto key1 = static_cast<std::uint32_t>(key >> 32);
    Words x = counter;
    for (int round = 0; round < k_philox_rounds; ++round) {
        const std::uint64_t p0 = std::uint64_t{k_philox_multiply[0]} * x.w[0];
        const std::uint64_t p1 = std::uint64_t{k_philox_multiply[1]} * x.w[2];
        x = {{static_cast<std::uint32_t>(p1 >> 32) ^ x.w[1] ^ key0, static_cast<std::uint32_t>(p1),
              static_cast<std::uint32_t>(p0 >> 32) ^ x.w[3] ^ key1, static_cast<std::uint32_t>(p0)}};
        key0 += k_philox_key_step[0];
        key1 += k_philox_key_step[1];
    }
    return x;
}

}  // namespace seasonrisk
