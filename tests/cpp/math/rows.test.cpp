// SPDX-License-Identifier: MIT
#include "seasonrisk/math/rows.hpp"

#include <bit>
#include <cstdint>
#include <random>
#include <vector>

#include "catch.hpp"
#include "seasonrisk/math/elementary.hpp"

// Identities: no outside source. What the functions of elementary.hpp are held against stands in their own tests.
using namespace seasonrisk;

namespace {

struct Path {
    const char* name;
    OnRows to_exp;
    LanesBelow lanes_below;
};

/// Those that this machine can run.
std::vector<Path> paths() {
    std::vector<Path> found = {{"baseline", exp_rows_baseline, lanes_below_baseline}};
#if defined(__x86_64__)
    if (__builtin_cpu_supports("avx2")) found.push_back({"avx2", exp_rows_avx2, lanes_below_avx2});
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512bw") && __builtin_cpu_supports("avx512vl"))
        found.push_back({"avx512", exp_rows_avx512, lanes_below_avx512});
#endif
    return found;
}

}  // namespace

TEST_CASE("exp of whole rows has the bits of one exp after the other", "[math]") {
    std::mt19937_64 bits(5);
    for (const Path& path : paths()) {
        for (int n = 0; n <= k_most_rows; ++n) {
            CAPTURE(path.name, n);
            // Small ones as a day has, all over the range, and beyond both ends of it.
            std::uniform_real_distribution<double> any(n % 3 == 0 ? -1.0 : n % 3 == 1 ? -708.0 : -2000.0, n % 3 == 0 ? 1.0 : n % 3 == 1 ? 709.0 : 2000.0);
            std::vector<Lanes> values(2 * k_most_rows);  // every second row is left alone
            for (Lanes& row : values) {
                for (int i = 0; i < k_lanes; ++i) row[i] = any(bits);
            }
            const std::vector<Lanes> before = values;
            std::vector<double*> rows;
            for (int row = 0; row < n; ++row) rows.push_back(values[static_cast<std::size_t>(2 * row)].v);
            path.to_exp(rows.data(), n);

            int different = 0;
            for (std::size_t row = 0; row < values.size(); ++row) {
                const bool taken = row % 2 == 0 && row < 2 * rows.size();
                for (int i = 0; i < k_lanes; ++i) {
                    const double expected = taken ? seasonrisk::exp(before[row][i]) : before[row][i];
                    different += std::bit_cast<std::uint64_t>(values[row][i]) != std::bit_cast<std::uint64_t>(expected);
                }
            }
            REQUIRE(different == 0);
        }
    }
}

TEST_CASE("lanes below a limit are found one bit each, two rows to a word", "[math]") {
    std::mt19937_64 bits(6);
    std::uniform_real_distribution<double> any(0.0, 1.0);
    for (const Path& path : paths()) {
        for (const double often : {0.0, 0.02, 0.5, 1.0}) {
            CAPTURE(path.name, often);
            constexpr int n = 4;
            Lanes rows[n];
            Lanes limit;
            for (int i = 0; i < k_lanes; ++i) limit[i] = often;
            limit[7] = 0.5;
            for (Lanes& row : rows) {
                for (int i = 0; i < k_lanes; ++i) row[i] = any(bits);
            }
            rows[2][7] = 0.5;  // on the limit is not below it
            std::uint64_t below[n / 2];
            path.lanes_below(rows->v, limit.v, n, below);

            int different = 0;
            for (int row = 0; row < n; ++row) {
                for (int i = 0; i < k_lanes; ++i) {
                    const bool found = (below[row / 2] >> (row % 2 * k_lanes + i) & 1u) != 0;
                    different += found != (rows[row][i] < limit[i]);
                }
            }
            REQUIRE(different == 0);
        }
    }
}
