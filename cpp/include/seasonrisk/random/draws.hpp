// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/rows.hpp"
#include "seasonrisk/random/address.hpp"
#include "seasonrisk/random/philox.hpp"
#include "seasonrisk/random/philox_block.hpp"

/// \file
/// An address in, uniforms or normals out: for one history, or for a batch of k_lanes side by side.
namespace seasonrisk {

/// Bits of a history's number; a family of luck may stand in the four above.
inline constexpr int k_history_bits = 48;

/// The history as it meets the luck of another family: luck drawn again.
/// \pre `luck_family` is below k_families and is not that of the guesses
constexpr std::uint64_t with_luck_family(std::uint64_t history, std::uint32_t luck_family) {
    return history | std::uint64_t{luck_family} << k_history_bits;
}
/// The history alone, whatever luck it meets: what its guesses are addressed by.
constexpr std::uint64_t without_luck_family(std::uint64_t history) { return history & ((std::uint64_t{1} << k_history_bits) - 1); }

/// The counter of one history's block at an address (layout: address.hpp). History: below 2^48, and its luck family.
constexpr Words counter_of(const Address& address, std::uint64_t history) {
    const auto low = static_cast<std::uint32_t>(history);
    const auto high = static_cast<std::uint32_t>(history >> 32 & 0xffffu);
    const std::uint32_t family = (address.family ^ static_cast<std::uint32_t>(history >> k_history_bits)) & (k_families - 1u);
    return {{address.word0, address.word1, low, high << 16 | family << 12 | (address.inner & 4095u)}};
}

/// The midpoint of the word's interval: never 0, never 1.
SEASONRISK_STEP double to_uniform(std::uint32_t word) { return (static_cast<double>(word) + 0.5) * 0x1p-32; }

/// One draw of one history; for rare events.
inline double uniform_at(std::uint64_t key, const Address& address, std::uint64_t history, unsigned word = 0) {
    return to_uniform(philox(counter_of(address, history), key).w[word]);
}
inline double normal_at(std::uint64_t key, const Address& address, std::uint64_t history, unsigned word = 0) {
    return normal_quantile(uniform_at(key, address, history, word));
}

/// Word 0 of an address for a whole batch.
SEASONRISK_STEP Lanes uniforms_at(DrawBlock draw, std::uint64_t key, const Address& address,
                                  std::uint64_t first_history) {
    alignas(64) double block[4 * k_lanes];
    draw(block, key, address, first_history);
    Lanes uniforms;
    for (int i = 0; i < k_lanes; ++i) uniforms[i] = block[i];
    return uniforms;
}
SEASONRISK_STEP Lanes normals_at(DrawBlock draw, OnRows to_normals, std::uint64_t key, const Address& address,
                                 std::uint64_t first_history) {
    Lanes normals = uniforms_at(draw, key, address, first_history);
    double* const row = normals.v;
    to_normals(&row, 1);
    return normals;
}

/// Word 0 of `n` addresses for a whole batch, `rows` as normals side by side: the quantile is cheaper in one call.
/// \pre n is at most k_most_rows; `rows` has room for three more rows, for a block writes all its words
SEASONRISK_STEP void normals_at_each(DrawBlock draw, OnRows to_normals, std::uint64_t key, std::uint64_t first_history, int n,
                                     const auto& address_of, double* rows) {
    double* each[k_most_rows];
    for (int row = 0; row < n; ++row) {
        each[row] = rows + row * k_lanes;
        draw(each[row], key, address_of(row), first_history);  // words 1 to 3 give way to the next row
    }
    to_normals(each, n);
}

/// The normals of `n` guesses for a whole batch. The engine and what regenerates its guesses both ask here, so that
/// they cannot drift apart: the luck family of the history does not move a guess.
/// \pre as for normals_at_each
SEASONRISK_STEP void guess_normals(DrawBlock draw, OnRows to_normals, std::uint64_t key, std::uint64_t first_history, int n, const auto& hash_of, double* rows) {
    const auto address = [&](int row) { return of_guess(hash_of(row)); };
    normals_at_each(draw, to_normals, key, without_luck_family(first_history), n, address, rows);
}

}  // namespace seasonrisk
