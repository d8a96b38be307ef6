// SPDX-License-Identifier: MIT
#include "seasonrisk/season/weather.hpp"

namespace seasonrisk {

double mean_bad_day_chance(double month_logit, double s, double log_multiplier) {
    const double a = month_logit + log_multiplier;
    double mean = 0.0;
    for (int node = 0; node < 8; ++node) mean += k_weights[node] * (expit(a + s * k_nodes[node]) + expit(a - s * k_nodes[node]));
    return mean;
}

}  // namespace seasonrisk
