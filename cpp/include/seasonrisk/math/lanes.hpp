// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

/// \file
/// A batch of histories advanced together: one value per history, side by side, so that the
/// compiler turns every short loop over lanes into vector instructions.

/// Every step of the day is inlined into the three entry points (baseline, AVX2, AVX-512), so one
/// source serves all instruction sets and no second copy of a function can clash at link time.
#define SEASONRISK_STEP [[gnu::always_inline]] inline

/// For each lane `i`. Lanes never meet: no step writes one lane from another, wherever its columns lie in memory, and
/// saying so spares the compiler from looking for overlaps at run time.
#if defined(__clang__)
#define SEASONRISK_EACH_LANE _Pragma("clang loop vectorize(assume_safety)") for (int i = 0; i < k_lanes; ++i)
#else
#define SEASONRISK_EACH_LANE _Pragma("GCC ivdep") for (int i = 0; i < k_lanes; ++i)
#endif

namespace seasonrisk {

/// Histories in a batch.
inline constexpr int k_lanes = 32;

/// One double per history of the batch. Flags are held as 0.0 and 1.0.
struct alignas(64) Lanes {
    double v[k_lanes];

    Lanes() = default;
    SEASONRISK_STEP Lanes(double all) {  // NOLINT: a constant stands for "the same in every history"
        for (int i = 0; i < k_lanes; ++i) v[i] = all;
    }
    SEASONRISK_STEP double& operator[](int i) { return v[i]; }
    SEASONRISK_STEP double operator[](int i) const { return v[i]; }
};

/// Is it above zero in some history? An or over lanes is vector code; a maximum or a bool is not.
SEASONRISK_STEP bool any_above_zero(const Lanes& x) {
    std::uint64_t above = 0;
    SEASONRISK_EACH_LANE above |= x[i] > 0.0 ? 1u : 0u;
    return above != 0;
}

}  // namespace seasonrisk
