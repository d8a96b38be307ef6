// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>

#include "seasonrisk/math/elementary.hpp"
#include "seasonrisk/math/lanes.hpp"

/// \file
/// Fishable or not: a two-state chain whose share of bad days is exact every day (design, section 5).
namespace seasonrisk {

/// The weather of the harbour: one uniform a day for all boats.
struct HarbourWeather {
    Lanes month_logit[12];    ///< when years differ: solved so that the mean over years is the stated share
    int month_yesterday = 0;
};

/// What it means for one boat.
struct BoatWeather {
    Lanes marginal[12];       ///< chance of a bad day, by calendar month, for this boat in this year
    Lanes bad;                ///< today: 1 too bad to fish
    Lanes log_multiplier;     ///< of the odds, when years differ
};

/// 16-node Gauss-Hermite, one half (nodes and weights: Abramowitz & Stegun 1964, table 25.10, in the form for a
/// standard normal).
inline constexpr double k_nodes[8] = {0.3867606045005574, 1.1638291005549648, 1.9519803457163334, 2.7602450476307014,
                             3.6008736241715487, 4.492955302520011, 5.472225705949343, 6.630878198393129};
inline constexpr double k_weights[8] = {0.286568521238012, 0.1583383727509497, 0.04728475235401406, 0.007266937601184749,
                               0.0005259849265739087, 1.530003216248732e-05, 1.309473216286817e-07, 1.4978147231618412e-10};

/// The logit `a` for which the mean over years E[expit(a + s z)] is `fraction`, z ~ N(0,1).
/// Newton from the probit approximation; eight steps reach the last bit, but for shares near
/// 0 or 1 under a large `s`, where a step that leaves the bracket is replaced by halving it.
SEASONRISK_STEP double logit_with_mean(double fraction, double s) {
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
            const double up = expit(a + s * k_nodes[node]);
            const double down = expit(a - s * k_nodes[node]);
            value += k_weights[node] * (up + down);
            slope += k_weights[node] * (up * (1.0 - up) + down * (1.0 - down));
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

/// Mean over years of the chance of a bad day for a boat with this multiplier: the same nodes as `logit_with_mean`.
double mean_bad_day_chance(double month_logit, double s, double log_multiplier);

/// First day of the chain: bad with the day's own chance.
SEASONRISK_STEP void start_weather(BoatWeather& weather, int month, const double* uniforms) {
    SEASONRISK_EACH_LANE weather.bad[i] = uniforms[i] < weather.marginal[month][i] ? 1.0 : 0.0;
}

/// A day in the same month as yesterday.
SEASONRISK_STEP void step_weather(BoatWeather& weather, const Lanes& persistence, int month, const double* uniforms) {
    const Lanes& today = weather.marginal[month];
    SEASONRISK_EACH_LANE {
        const double odds = today[i] + persistence[i] * (weather.bad[i] - today[i]);
        weather.bad[i] = uniforms[i] < odds ? 1.0 : 0.0;
    }
}

/// Where a month's chance changes, the tie to yesterday is loosened just enough for both of today's odds to stay
/// between 0 and 1, so that today's share of bad days is exact.
SEASONRISK_STEP void loosen_tie(Lanes& tie, const Lanes& yesterday, const Lanes& today) {
    SEASONRISK_EACH_LANE {
        if (yesterday[i] > 0.0) tie[i] = std::min(tie[i], today[i] / yesterday[i]);
        if (yesterday[i] < 1.0) tie[i] = std::min(tie[i], (1.0 - today[i]) / (1.0 - yesterday[i]));
    }
}

/// The same for two boats: the days on which only the weaker one stays in must not be fewer than none.
SEASONRISK_STEP void loosen_tie_between(Lanes& tie, const BoatWeather& a, const BoatWeather& b, int yesterday, int today) {
    SEASONRISK_EACH_LANE {
        const double apart = b.marginal[yesterday][i] - a.marginal[yesterday][i];
        const double apart_now = b.marginal[today][i] - a.marginal[today][i];
        if (apart != 0.0) tie[i] = std::min(tie[i], std::max(apart_now / apart, 0.0));
    }
}

/// First day of another month, with the loosened tie.
SEASONRISK_STEP void step_weather_over_months(BoatWeather& weather, const Lanes& tie, int yesterday, int today, const double* uniforms) {
    SEASONRISK_EACH_LANE {
        const double odds = weather.marginal[today][i] + tie[i] * (weather.bad[i] - weather.marginal[yesterday][i]);
        weather.bad[i] = uniforms[i] < odds ? 1.0 : 0.0;
    }
}

}  // namespace seasonrisk
