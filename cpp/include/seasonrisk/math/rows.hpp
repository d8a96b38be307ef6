// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "seasonrisk/math/lanes.hpp"

/// \file
/// exp and the normal quantile of many values at once: the bits of the functions in elementary.hpp, in less time.
namespace seasonrisk {

/// The most rows that one call takes: buffers for the tails stand on the stack.
inline constexpr int k_most_rows = 32;
inline constexpr int k_most_quantiles = k_most_rows * k_lanes;

/// Works on `n` rows of k_lanes values each, in place. Rows need not lie side by side.
/// \pre n is at most k_most_rows
using OnRows = void (*)(double* const* rows, int n);

/// Uniforms p become standard normals: `normal_quantile`, for 32-bit uniforms (2^-33 <= p <= 1 - 2^-33, where its far
/// tail, below 1.4e-11, is never met).
void normal_rows_baseline(double* const* rows, int n);
void normal_rows_avx2(double* const* rows, int n);
void normal_rows_avx512(double* const* rows, int n);

/// `exp` of each value.
void exp_rows_baseline(double* const* rows, int n);
void exp_rows_avx2(double* const* rows, int n);
void exp_rows_avx512(double* const* rows, int n);

/// Which values of `n` rows that lie side by side are below the limit of their lane: one bit each, two rows to a word
/// of `below`, the second in its upper half.
/// \pre n is even
using LanesBelow = void (*)(const double* rows, const double* limit, int n, std::uint64_t* below);
void lanes_below_baseline(const double* rows, const double* limit, int n, std::uint64_t* below);
void lanes_below_avx2(const double* rows, const double* limit, int n, std::uint64_t* below);
void lanes_below_avx512(const double* rows, const double* limit, int n, std::uint64_t* below);

}  // namespace seasonrisk
