// SPDX-License-Identifier: MIT
#include "seasonrisk/plan/guesses.hpp"

namespace seasonrisk {
namespace {

Spread spread_of_points(double low, double typical, double high, const Rule& rule) {
    switch (rule.scale) {
        case Scale::plain:
            return make_spread(Spread::Bend::plain, 0.0, 0.0, low, typical, high, false);
        case Scale::above_bound:
            return make_spread(Spread::Bend::above, rule.lowest, 0.0, low, typical, high, false);
        case Scale::between:
            return make_spread(Spread::Bend::between, rule.lowest, rule.highest, low, typical, high, false);
        case Scale::whole_count:
            break;
    }
    return make_spread(Spread::Bend::above, -1.0, 0.0, low, typical, high, true);  // log(1 + x), rounded half up
}

}  // namespace

Spread spread_of(const Number& number, const Rule& rule) {
    return spread_of_points(number.low, number.typical, number.high, rule);
}

Spread spread_of(const EventSize& size, const Rule& rule) {
    if (size.is_spread) return spread_of_points(size.low, size.typical, size.high, rule);
    // A size that never differs: a plain spread with no slope, exact at its value, 0 included.
    return Spread{Spread::Bend::plain, 0.0, 0.0, size.typical, 0.0, 0.0, false};
}

}  // namespace seasonrisk
