// SPDX-License-Identifier: MIT
#pragma once

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "seasonrisk/math/lanes.hpp"

/// \file
/// exp, log and the normal quantile from + - * / sqrt and bit moves alone, so that every compiler and every
/// instruction set gives the same bits, and so that loops over lanes become vector code.
namespace seasonrisk {

// Adding 1.5 * 2^52 to a double of moderate size leaves the nearest whole number in its low bits.
inline constexpr double k_to_whole = 6755399441055744.0;

/// The numbers of fdlibm's e_exp.c and e_log.c (Sun 1993).
namespace fdlibm {

inline constexpr double k_ln2_high = 6.93147180369123816490e-01;
inline constexpr double k_ln2_low = 1.90821492927058770002e-10;
inline constexpr double k_one_over_ln2 = 1.44269504088896338700e+00;
inline constexpr double k_least_exponent = -708.0, k_most_exponent = 709.0;
inline constexpr double k_exp[] = {1.66666666666666019037e-01, -2.77777777770155933842e-03, 6.61375632143793436117e-05,
                                   -1.65339022054652515390e-06, 4.13813679705723846039e-08};
inline constexpr double k_log_odd[] = {3.999999999940941908e-01, 2.222219843214978396e-01, 1.531383769920937332e-01};
inline constexpr double k_log_even[] = {6.666666666666735130e-01, 2.857142874366239149e-01, 1.818357216161805012e-01,
                                        1.479819860511658591e-01};
inline constexpr std::uint64_t k_sqrt_half = 0x3fe6a09e667f3bcdULL;  ///< bits of sqrt(1/2)
inline constexpr std::uint64_t k_mantissa = 0x000fffffffffffffULL;

}  // namespace fdlibm

/// Algorithm AS241 (Wichura 1988, doi 10.2307/2347330), PPND16: the numbers of its three parts.
namespace as241 {

inline constexpr double k_central_square = 0.180625;  // 0.425^2: the central part is |p - 1/2| <= 0.425

/// Coefficients of a quotient of two polynomials, from the constant on.
struct Quotient {
    double above[8], below[8];
};
inline constexpr Quotient k_central{
    {3.387132872796366608, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
     45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727},
    {1.0, 42.313330701600911252, 687.1870074920579083, 5394.1960214247511077,
     21213.794301586595867, 39307.89580009271061, 28729.085735721942674, 5226.495278852545925}};
inline constexpr Quotient k_near_tail{
    {1.42343711074968357734, 4.6303378461565452959, 5.7694972214606914055, 3.64784832476320460504,
     1.27045825245236838258, 0.24178072517745061177, 0.0227238449892691845833, 7.7454501427834140764e-4},
    {1.0, 2.05319162663775882187, 1.6763848301838038494, 0.68976733498510000455,
     0.14810397642748007459, 0.0151986665636164571966, 5.475938084995344946e-4, 1.05075007164441684324e-9}};
inline constexpr Quotient k_far_tail{
    {6.6579046435011037772, 5.4637849111641143699, 1.7848265399172913358, 0.29656057182850489123,
     0.026532189526576123093, 0.0012426609473880784386, 2.71155556874348757815e-5, 2.01033439929228813265e-7},
    {1.0, 0.59983220655588793769, 0.13692988092273580531, 0.0148753612908506148525,
     7.868691311456132591e-4, 1.8463183175100546818e-5, 1.4215117583164458887e-7, 2.04426310338993978564e-15}};

}  // namespace as241

SEASONRISK_STEP double at_least(double x, double least) { return x < least ? least : x; }
SEASONRISK_STEP double at_most(double x, double most) { return x > most ? most : x; }
SEASONRISK_STEP std::uint64_t bits_of(double x) { return std::bit_cast<std::uint64_t>(x); }
SEASONRISK_STEP double from_bits(std::uint64_t bits) { return std::bit_cast<double>(bits); }

#define SEASONRISK_VALUE double
#define SEASONRISK_BITS std::uint64_t
#define SEASONRISK_FORMULA SEASONRISK_STEP
#include "seasonrisk/math/formulas.inc"

/// The size of the normal quantile at the same root less 5, beyond.
SEASONRISK_STEP double normal_far_tail(double r) { return polynomial(r, as241::k_far_tail.above) / polynomial(r, as241::k_far_tail.below); }

/// x^y for x > 0.
SEASONRISK_STEP double power(double x, double y) { return exp(y * log(x)); }
SEASONRISK_STEP double expit(double x) { return 1.0 / (1.0 + exp(-x)); }
SEASONRISK_STEP double logit(double p) { return log(p / (1.0 - p)); }

/// The standard normal's quantile for p in (0, 1).
SEASONRISK_STEP double normal_quantile(double p) {
    const double q = p - 0.5;
    if (as241::k_central_square - q * q >= 0.0) return normal_central(q);
    const double r = std::sqrt(-log(q < 0.0 ? p : 1.0 - p));
    const double z = r <= 5.0 ? normal_near_tail(r - 1.6) : normal_far_tail(r - 5.0);
    return q < 0.0 ? -z : z;
}

/// One bit for each lane of a row.
struct LaneBits {
    alignas(64) std::uint64_t of[k_lanes];
    constexpr LaneBits() : of{} {
        for (int i = 0; i < k_lanes; ++i) of[i] = std::uint64_t{1} << i;
    }
};
inline constexpr LaneBits k_lane_bits{};

}  // namespace seasonrisk
