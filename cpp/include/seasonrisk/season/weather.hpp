// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"

/// \file
/// Fishable or not: a two-state chain whose share of bad days is exact every day (design, section 5).
namespace seasonrisk {

struct WeatherState {
    Lanes marginal[12];     ///< chance of a bad day, by calendar month, for this boat in this year
    Lanes bad;              ///< today: 1 too bad to fish
    int month_yesterday = 0;
};

/// The logit `a` for which the mean over years E[expit(a + s z)] is `fraction`, z ~ N(0,1).
/// 16-node Gauss-Hermite (nodes and weights: Abramowitz & Stegun 1964, table 25.10, in the form for a
/// standard normal), Newton from the probit approximation; eight steps reach the last bit, but for shares near
/// 0 or 1 under a large `s`, where a step that leaves the bracket is replaced by halving it.
SEASONRISK_STEP double logit_with_mean(double fraction, double s) {
    constexpr double nodes[8] = {0.3867606045005574, 1.1638291005549648, 1.9519803457163334, 2.7602450476307014,
                                 3.6008736241715487, 4.492955302520011, 5.472225705949343, 6.630878198393129};
    constexpr double weights[8] = {0.286568521238012, 0.1583383727509497, 0.04728475235401406, 0.007266937601184749,
                                   0.0005259849265739087, 1.530003216248732e-05, 1.309473216286817e-07, 1.4978147231618412e-10};
    constexpr double pi_over_8 = 0.39269908169872414;
    constexpr int usual_steps = 8;
    constexpr int most_steps = 200;
    double a = logit(fraction) * std::sqrt(1.0 + pi_over_8 * s * s);
    double lowest = -700.0;
    double highest = 700.0;
    for (int step = 1; step <= most_steps; ++step) {
        double value = 0.0;
        double slope = 0.0;
        for (int node = 0; node < 8; ++node) {
            const double up = expit(a + s * nodes[node]);
            const double down = expit(a - s * nodes[node]);
            value += weights[node] * (up + down);
            slope += weights[node] * (up * (1.0 - up) + down * (1.0 - down));
        }
        (value < fraction ? lowest : highest) = a;
        const double last = a;
        a -= (value - fraction) / slope;
        if (!(a >= lowest && a <= highest)) a = 0.5 * (lowest + highest);
        if (step >= usual_steps && std::abs(a - last) <= 1e-13 * (1.0 + std::abs(a))) break;
    }
    return a;
}

/// Marginal of a month in this year: `shift` = year_sd W. Fractions 0 and 1 stay exact.
SEASONRISK_STEP double bad_day_chance(double fraction, double month_logit, double shift, double log_multiplier) {
    const double moved = expit(month_logit + shift + log_multiplier);
    return fraction <= 0.0 ? 0.0 : fraction >= 1.0 ? 1.0 : moved;
}

/// The same without a year effect: odds times the multiplier, no logit needed.
SEASONRISK_STEP double bad_day_chance(double fraction, double multiplier) {
    return fraction * multiplier / (1.0 - fraction + fraction * multiplier);
}

/// First day of the chain: bad with the day's own chance.
SEASONRISK_STEP void start_weather(WeatherState& weather, int month, const double* uniforms) {
    for (int i = 0; i < k_lanes; ++i) weather.bad[i] = uniforms[i] < weather.marginal[month][i] ? 1.0 : 0.0;
    weather.month_yesterday = month;
}

/// One calendar day. Where the month's chance changes, the tie to yesterday is loosened just enough for
/// both of today's odds to stay between 0 and 1, so that today's share of bad days is exact.
SEASONRISK_STEP void step_weather(WeatherState& weather, const Lanes& persistence, int month, const double* uniforms) {
    const Lanes& today = weather.marginal[month];
    const Lanes& yesterday = weather.marginal[weather.month_yesterday];
    if (month == weather.month_yesterday) {
        for (int i = 0; i < k_lanes; ++i) {
            const double odds = today[i] + persistence[i] * (weather.bad[i] - today[i]);
            weather.bad[i] = uniforms[i] < odds ? 1.0 : 0.0;
        }
        return;
    }
    for (int i = 0; i < k_lanes; ++i) {
        double tie = persistence[i];
        if (yesterday[i] > 0.0) tie = std::min(tie, today[i] / yesterday[i]);
        if (yesterday[i] < 1.0) tie = std::min(tie, (1.0 - today[i]) / (1.0 - yesterday[i]));
        const double odds = today[i] + tie * (weather.bad[i] - yesterday[i]);
        weather.bad[i] = uniforms[i] < odds ? 1.0 : 0.0;
    }
    weather.month_yesterday = month;
}

}  // namespace seasonrisk
