// SPDX-License-Identifier: MIT
#include "seasonrisk/math/rows.hpp"

#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "seasonrisk/math/elementary.hpp"

// A template cannot take its target from an argument, and vector code in a function without a target is split into
// small vectors before it is inlined: so one text, taken in for each instruction set.
namespace seasonrisk {
namespace {

namespace baseline {
#define SEASONRISK_ROWS_TARGET
#define SEASONRISK_ROWS_BYTES 16
#include "rows_in_vectors.inc"
}  // namespace baseline

#if defined(__x86_64__)
namespace avx2 {
#define SEASONRISK_ROWS_TARGET [[gnu::target("avx2")]]
#define SEASONRISK_ROWS_BYTES 32
#include "rows_in_vectors.inc"
}  // namespace avx2

namespace avx512 {
#define SEASONRISK_ROWS_TARGET [[gnu::target("avx512f,avx512dq,avx512bw,avx512vl")]]
#define SEASONRISK_ROWS_BYTES 64
#include "rows_in_vectors.inc"
}  // namespace avx512
#else
namespace avx2 = baseline;
namespace avx512 = baseline;
#endif

}  // namespace

void normal_rows_baseline(double* const* rows, int n) { baseline::normal_rows(rows, n); }
void normal_rows_avx2(double* const* rows, int n) { avx2::normal_rows(rows, n); }
void normal_rows_avx512(double* const* rows, int n) { avx512::normal_rows(rows, n); }

void exp_rows_baseline(double* const* rows, int n) { baseline::exp_rows(rows, n); }
void exp_rows_avx2(double* const* rows, int n) { avx2::exp_rows(rows, n); }
void exp_rows_avx512(double* const* rows, int n) { avx512::exp_rows(rows, n); }

void lanes_below_baseline(const double* rows, const double* limit, int n, std::uint64_t* below) { baseline::lanes_below(rows, limit, n, below); }
void lanes_below_avx2(const double* rows, const double* limit, int n, std::uint64_t* below) { avx2::lanes_below(rows, limit, n, below); }
void lanes_below_avx512(const double* rows, const double* limit, int n, std::uint64_t* below) { avx512::lanes_below(rows, limit, n, below); }

}  // namespace seasonrisk
