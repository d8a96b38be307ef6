// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "seasonrisk/random/address.hpp"

namespace seasonrisk {

/// Fills `out[4][k_lanes]` (contiguous) with the uniforms of the four words of one address, for the histories
/// `first_history`, `first_history + 1`, ... of a batch.
using DrawBlock = void (*)(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history);

/// The same block for three instruction sets, the same bits from each. They stand apart from the steps
/// because compilers turn a 32 x 32 -> 64 bit product in a plain loop into a dozen shuffles.
void draw_block_baseline(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history);
void draw_block_avx2(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history);
void draw_block_avx512(double* out, std::uint64_t key, const Address& address, std::uint64_t first_history);

}  // namespace seasonrisk
