// SPDX-License-Identifier: MIT
#include "seasonrisk/random/normal_rows.hpp"

#include "seasonrisk/math/elementary.hpp"

namespace seasonrisk {

[[gnu::flatten]] void normal_rows_baseline(double* const* rows, int n) { normal_quantile_rows(rows, n); }

#if defined(__x86_64__)
[[gnu::flatten, gnu::target("avx2")]] void normal_rows_avx2(double* const* rows, int n) { normal_quantile_rows(rows, n); }
[[gnu::flatten, gnu::target("avx512f,avx512dq,avx512bw,avx512vl")]] void normal_rows_avx512(double* const* rows, int n) { normal_quantile_rows(rows, n); }
#else
void normal_rows_avx2(double* const* rows, int n) { normal_rows_baseline(rows, n); }
void normal_rows_avx512(double* const* rows, int n) { normal_rows_baseline(rows, n); }
#endif

}  // namespace seasonrisk
