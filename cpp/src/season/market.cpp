// SPDX-License-Identifier: MIT
#include "seasonrisk/season/market.hpp"

namespace seasonrisk {

double demand_count(double mean, double sd, double uniform) {
    if (mean <= 0.0) return 0.0;
    const double excess = sd * sd - mean;
    const bool spread = excess > 1e-9 * mean;
    // Negative binomial of size r: P(k + 1) / P(k) = (k + r) / (k + 1) (1 - p), p = mean / variance; P(0) = p^r.
    const double size = spread ? mean * mean / excess : 0.0;
    const double stay = spread ? excess / (sd * sd) : 0.0;
    // P(0) may be too small for a double: it is carried as its logarithm, and parts are held back until they count.
    double log_scale = spread ? size * log(1.0 - stay) : -mean;
    double scale = exp(log_scale);
    double part = 1.0;
    double sum = 1.0;
    constexpr double large = 1e200;
    constexpr double log_large = 460.51701859880916;  // ln(1e200)
    constexpr double most = 1e7;                      // beyond any demand the rule book allows
    double count = 0.0;
    while (log_scale < -700.0 || sum * scale <= uniform) {
        if (count >= most || part <= 0.0) break;
        part *= spread ? (count + size) / (count + 1.0) * stay : mean / (count + 1.0);
        sum += part;
        count += 1.0;
        if (part > large) {
            part /= large;
            sum /= large;
            log_scale += log_large;
            scale = exp(log_scale);
        }
    }
    return count;
}

}  // namespace seasonrisk
