// SPDX-License-Identifier: MIT
#pragma once

#include <bit>
#include <cmath>
#include <cstdint>

#include "seasonrisk/math/lanes.hpp"

/// \file
/// exp, log and the normal quantile from + - * / sqrt and bit moves alone, so that every compiler and every
/// instruction set gives the same bits, and so that loops over lanes become vector code.
namespace seasonrisk {

/// c0 + x c1 + x^2 c2 + ..., by Horner's rule.
SEASONRISK_STEP double polynomial(double, double last) { return last; }
template <typename... Rest>
SEASONRISK_STEP double polynomial(double x, double first, Rest... rest) {
    return first + x * polynomial(x, rest...);
}

// Adding 1.5 * 2^52 to a double of moderate size leaves the nearest whole number in its low bits.
inline constexpr double k_to_whole = 6755399441055744.0;

/// e^x; x is clamped to [-708, 709], where the result is a normal number. Form: fdlibm e_exp.c (Sun 1993).
SEASONRISK_STEP double exp(double x) {
    constexpr double ln2_high = 6.93147180369123816490e-01;
    constexpr double ln2_low = 1.90821492927058770002e-10;
    constexpr double one_over_ln2 = 1.44269504088896338700e+00;
    x = x < -708.0 ? -708.0 : x;
    x = x > 709.0 ? 709.0 : x;
    const double shifted = x * one_over_ln2 + k_to_whole;
    const double k = shifted - k_to_whole;
    const double high = x - k * ln2_high;
    const double low = k * ln2_low;
    const double r = high - low;
    const double t = r * r;
    const double even = polynomial(t, 1.66666666666666019037e-01, -2.77777777770155933842e-03,
                                   6.61375632143793436117e-05, -1.65339022054652515390e-06, 4.13813679705723846039e-08);
    const double c = r - t * even;
    const double y = 1.0 - ((low - (r * c) / (2.0 - c)) - high);
    return std::bit_cast<double>(std::bit_cast<std::uint64_t>(y) + (std::bit_cast<std::uint64_t>(shifted) << 52));
}

/// ln x for a positive normal x. Form: fdlibm e_log.c (Sun 1993), its general branch for every x.
SEASONRISK_STEP double log(double x) {
    constexpr double ln2_high = 6.93147180369123816490e-01;
    constexpr double ln2_low = 1.90821492927058770002e-10;
    // Subtracting the bits of sqrt(1/2) makes the exponent field count from there.
    constexpr std::uint64_t sqrt_half = 0x3fe6a09e667f3bcdULL;
    const std::uint64_t bits = std::bit_cast<std::uint64_t>(x) - sqrt_half;
    const std::uint64_t mantissa = (bits & 0x000fffffffffffffULL) + sqrt_half;
    // Exponent as a double without an integer conversion: its 12 bits (sign kept) ride in the low bits of 1.5 * 2^52.
    const std::uint64_t biased = (bits + (std::uint64_t{2048} << 52)) >> 52;
    const double k = std::bit_cast<double>(biased + std::bit_cast<std::uint64_t>(k_to_whole)) - (k_to_whole + 2048.0);
    const double f = std::bit_cast<double>(mantissa) - 1.0;
    const double s = f / (2.0 + f);
    const double z = s * s;
    const double w = z * z;
    const double t1 = w * polynomial(w, 3.999999999940941908e-01, 2.222219843214978396e-01, 1.531383769920937332e-01);
    const double t2 = z
                      * polynomial(w, 6.666666666666735130e-01, 2.857142874366239149e-01, 1.818357216161805012e-01,
                                   1.479819860511658591e-01);
    const double r = t2 + t1;
    const double half_square = 0.5 * f * f;
    return k * ln2_high - ((half_square - (s * (half_square + r) + k * ln2_low)) - f);
}

/// x^y for x > 0.
SEASONRISK_STEP double power(double x, double y) { return exp(y * log(x)); }
SEASONRISK_STEP double expit(double x) { return 1.0 / (1.0 + exp(-x)); }
SEASONRISK_STEP double logit(double p) { return log(p / (1.0 - p)); }

/// Algorithm AS241 (Wichura 1988, doi 10.2307/2347330), PPND16, in its three parts.
namespace as241 {

inline constexpr double k_central_square = 0.180625;  // 0.425^2: the central part is |p - 1/2| <= 0.425

SEASONRISK_STEP double central(double q) {
    const double r = k_central_square - q * q;
    return q
           * polynomial(r, 3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
                        45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727)
           / polynomial(r, 1.0, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077,
                        21213.794301586595867, 39307.89580009271061, 28729.085735721942674, 5226.495278852545925);
}

/// r = sqrt(-ln(smaller tail)) less 1.6, for a root up to 5: a tail of 1.4e-11 or more.
SEASONRISK_STEP double near_tail(double r) {
    return polynomial(r, 1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
                      1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833,
                      7.7454501427834140764e-4)
           / polynomial(r, 1.0, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455,
                        0.14810397642748007459, 0.0151986665636164571966, 5.475938084995344946e-4,
                        1.05075007164441684324e-9);
}

/// The same root less 5, beyond.
SEASONRISK_STEP double far_tail(double r) {
    return polynomial(r, 6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123,
                      0.026532189526576123093, 0.0012426609473880784386, 2.71155556874348757815e-5,
                      2.01033439929228813265e-7)
           / polynomial(r, 1.0, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525,
                        7.868691311456132591e-4, 1.8463183175100546818e-5, 1.4215117583164458887e-7,
                        2.04426310338993978564e-15);
}

}  // namespace as241

/// The standard normal's quantile for p in (0, 1).
SEASONRISK_STEP double normal_quantile(double p) {
    const double q = p - 0.5;
    if (as241::k_central_square - q * q >= 0.0) return as241::central(q);
    const double r = std::sqrt(-log(q < 0.0 ? p : 1.0 - p));
    const double z = r <= 5.0 ? as241::near_tail(r - 1.6) : as241::far_tail(r - 5.0);
    return q < 0.0 ? -z : z;
}

/// The most rows that `normal_quantile_rows` takes: its buffer of tails stands on the stack.
inline constexpr int k_most_rows = 32;
inline constexpr int k_most_quantiles = k_most_rows * k_lanes;

/// One bit for each lane of a row.
struct LaneBits {
    alignas(64) std::uint64_t of[k_lanes];
    constexpr LaneBits() : of{} {
        for (int i = 0; i < k_lanes; ++i) of[i] = std::uint64_t{1} << i;
    }
};
inline constexpr LaneBits k_lane_bits{};

/// The same for rows of k_lanes each, in place, with the same bits: the central part on all, the tails (15 in
/// 100) gathered, padded to eights and put back. Which lanes are tails comes out of the central part's own pass
/// as the bits of a word (an or over lanes is vector code, a list is not), so that only tails are walked one by
/// one. For 32-bit uniforms: p from 2^-33 to 1 - 2^-33, where the far tail (below 1.4e-11) is never met.
/// \pre n is at most k_most_rows
SEASONRISK_STEP void normal_quantile_rows(double* const* rows, int n) {
    double* place[k_most_quantiles + 8];
    alignas(64) double tail[k_most_quantiles + 8];
    int tails = 0;
    for (int row = 0; row < n; ++row) {
        double* const p_to_z = rows[row];
        alignas(64) double uniform[k_lanes];
        std::uint64_t in_tail = 0;
        SEASONRISK_EACH_LANE {
            uniform[i] = p_to_z[i];
            const double q = uniform[i] - 0.5;
            in_tail |= as241::k_central_square - q * q < 0.0 ? k_lane_bits.of[i] : 0u;
            p_to_z[i] = as241::central(q);
        }
        while (in_tail != 0) {
            for (int walked = 0; walked < 8; ++walked) {
                const int lane = std::countr_zero(in_tail | k_lane_bits.of[k_lanes - 1]);
                place[tails] = p_to_z + lane;
                tail[tails] = uniform[lane];
                tails += in_tail != 0 ? 1 : 0;
                in_tail &= in_tail - 1;
            }
        }
    }
    const int padded = (tails + 7) & ~7;
    for (int j = tails; j < padded; ++j) tail[j] = 0.01;
    // In two loops: the steps of one would be so long a chain that a processor holds too few of them to overlap.
    alignas(64) double root[k_most_quantiles + 8];
    for (int j = 0; j < padded; ++j) root[j] = std::sqrt(-log(tail[j] < 0.5 ? tail[j] : 1.0 - tail[j]));
    for (int j = 0; j < padded; ++j) {
        const double z = as241::near_tail(root[j] - 1.6);
        tail[j] = tail[j] < 0.5 ? -z : z;
    }
    for (int j = 0; j < tails; ++j) *place[j] = tail[j];
}

}  // namespace seasonrisk
