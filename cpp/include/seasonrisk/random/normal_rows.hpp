// SPDX-License-Identifier: MIT
#pragma once

namespace seasonrisk {

/// Turns `n` rows of k_lanes uniforms each into standard normals, in place (`normal_quantile_rows`).
/// \pre n is at most k_most_rows
using NormalRows = void (*)(double* const* rows, int n);

/// The same for three instruction sets, the same bits from each. They stand apart from the steps because the
/// season asks for normals in ten places: written into each, they would push a day out of the instruction cache.
void normal_rows_baseline(double* const* rows, int n);
void normal_rows_avx2(double* const* rows, int n);
void normal_rows_avx512(double* const* rows, int n);

}  // namespace seasonrisk
